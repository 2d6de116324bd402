/** `measure --input`: the same listener as the page, fed by a recorder or standard input. One line a band, JSON lines with `--json`. */
import { inputVerdict, levelVerdict } from '../core/advise/live/inputVerdict.ts';
import { tiltReading } from '../core/advise/live/tiltGuide.ts';
import { problem } from '../core/capture/problem.ts';
import type { SampleCode } from '../core/capture/waveFormat.ts';
import { type EndedPass, type LivePlaying, LiveSession } from '../core/live/LiveSession.ts';
import { RawFrames } from '../core/live/rawFrames.ts';
import type { Band } from '../core/record/band.ts';
import { motionWords } from '../core/record/motionWords.ts';
import type { SideOptions } from '../core/side/examineSide.ts';
import { shownFigure } from '../core/words/figure.ts';
import { say } from '../core/words/statement.ts';
import { type ExitStatus, type Streams, UsageError } from './command.ts';
import { KeptPass, type PassConditions } from './keptPass.ts';
import { numberFlag } from './numbers.ts';
import { recorderNames, startRecorder } from './recorders.ts';
import { sideText } from './sideText.ts';
import { oneLine } from './usageWords.ts';

export const liveHelp = `
  --input DEVICE            listens live instead of reading files: a sound device by its name (hw:1,0; pulse:NAME), read by
                            ${recorderNames.join(', ')}, whichever is there; or - for raw samples on standard input
  --rate HZ                 its sample rate (default 48000; say it with --input -)
  --channels N              channels on standard input, the first two are left and right (default 2)
  --format s16le|s24le|s32le|f32le  samples on standard input (default s32le)
  --recorder PROGRAM        which of them reads the device
  --keep FOLDER             keeps each pass there as a WAV with its conditions, so that it can be measured again
                            Volume down before any tone. Lifting the arm ends a pass, Ctrl-C the listening; with --json one line
                            of JSON for each band and each pass
`.replace(/^\n|\n$/g, '');

export const liveOptions = {
  input: { type: 'string' },
  rate: { type: 'string' },
  channels: { type: 'string' },
  format: { type: 'string' },
  recorder: { type: 'string' },
  keep: { type: 'string' },
} as const;

export type LiveFlags = { readonly [K in keyof typeof liveOptions]?: string };

/** a band's start is told anew as it plays, s */
const SAME_BAND_S = 0.3;

interface Format {
  readonly code: SampleCode;
  readonly bitDepth: number;
  readonly encoding: 'integer' | 'float';
}
const FORMATS: Readonly<Record<string, Format>> = {
  s16le: { code: 'int16', bitDepth: 16, encoding: 'integer' },
  s24le: { code: 'int24', bitDepth: 24, encoding: 'integer' },
  s32le: { code: 'int32', bitDepth: 32, encoding: 'integer' },
  f32le: { code: 'float32', bitDepth: 32, encoding: 'float' },
};

export interface LiveSource {
  readonly name: string;
  /** the program that reads it */
  readonly recorder?: string;
  readonly sampleRateHz: number;
  readonly channels: number;
  readonly format: Format;
  readonly samples: AsyncIterable<Uint8Array>;
  /** the person has said so */
  isOver?(): boolean;
  /** why it broke off; null where it ended as it should */
  fault?(): Promise<string | null>;
}

function wholeNumber(flag: string, text: string | undefined, usual: number, low: number, high: number): number {
  if (text === undefined) return usual;
  const value = numberFlag(flag, text, `a whole number from ${low} to ${high}`, flag === '--rate' ? 'Hz' : '');
  if (!(Number.isInteger(value) && low <= value && value <= high)) {
    throw new UsageError(`${flag} ${text}: a whole number from ${low} to ${high} was expected`);
  }
  return value;
}

const lineOf = ({ motion, signal, frequencyHz }: Band): string =>
  [motionWords[motion], signal.replace('-', ' '), frequencyHz === null ? '' : `${frequencyHz.toFixed(1)} Hz`]
    .filter((word) => word !== '')
    .join(' ');

function tiltWords(told: Pick<LivePlaying['figures'], 'findings' | 'advice'>): string {
  const tilt = tiltReading(told);
  if (tilt === null) return '';
  return ` · tilt ${shownFigure(tilt.tiltDeg, 'deg', tilt.uncertaintyDeg, true)}`;
}

/** What a kept pass says of how it was heard: as the page's recordings do. */
const conditionsOf = (
  { name, recorder, sampleRateHz, channels, format }: LiveSource,
  { sheet, rpm, nominalSpeedToneHz, flat }: SideOptions,
): PassConditions => ({
  begunAt: new Date().toISOString(),
  input: name,
  recorder: recorder ?? null,
  sampleRateHz,
  inputBitDepth: format.bitDepth,
  inputChannels: channels,
  record: sheet?.name ?? null,
  rpm: rpm ?? null,
  nominalSpeedToneHz: nominalSpeedToneHz ?? null,
  flat: flat === true,
});

/** Hears a source to its end. @param json lines instead of words */
export async function hearSource(
  source: LiveSource,
  options: SideOptions,
  { json, keep }: { readonly json: boolean; readonly keep?: string },
  io: Streams,
): Promise<ExitStatus> {
  const { sampleRateHz, channels, format, name } = source;
  let kept: KeptPass | null = null;
  let passes = 0;
  let measured = 0;
  const session = new LiveSession(
    { file: name, sampleRateHz, channels: Math.min(2, channels), bitDepth: format.bitDepth, encoding: format.encoding },
    options,
    ({ left, right, frames }) => {
      if (keep === undefined) return;
      kept ??= new KeptPass(keep, passes + 1, sampleRateHz, conditionsOf(source, options));
      kept.write(left, right, frames);
    },
  );
  const raw = new RawFrames(format.code, channels);
  let told = 0;
  let bands = 0;
  let last: LivePlaying | null = null;
  const line = (fields: object, words: string): void => {
    if (io.progress) io.err('\r\u001b[K');
    io.out(json ? `${JSON.stringify(fields)}\n` : `${words}\n`);
  };
  const tellInput = (): void => {
    const { input, playing } = session.now();
    const state = { sourceChannels: channels, lostFrames: 0, standsStillS: 0 };
    const level = levelVerdict(input, playing !== null);
    for (const { grade, says } of [...inputVerdict(input, state), ...(level.grade === 'waiting' ? [] : [level])]) {
      if (said.has(says.code)) continue;
      said.add(says.code);
      if (grade !== 'good' || !json) io.err(`${say(says)}\n`);
    }
  };
  const said = new Set<string>();
  const tellBands = (all: readonly Band[]): void => {
    for (const band of all.slice(bands)) {
      const figures = last !== null && Math.abs(last.band.startS - band.startS) < SAME_BAND_S ? last.figures : null;
      const tilt = figures === null ? '' : tiltWords(figures);
      line(
        { kind: 'band', pass: passes + 1, band, findings: figures?.findings ?? [], advice: figures?.advice ?? [] },
        `band ${band.index + 1} · ${lineOf(band)} · ${(band.endS - band.startS).toFixed(1)} s${tilt}`,
      );
    }
    bands = all.length;
  };
  const tellPass = ({ number, document }: EndedPass): void => {
    kept?.close({ endedAt: new Date().toISOString() });
    const path = kept?.path;
    kept = null;
    passes = number;
    bands = 0;
    last = null;
    if (document.findings.length > 0) measured += 1;
    const whole = path === undefined ? document : { ...document, capture: { ...document.capture, file: path } };
    line({ ...whole, kind: 'pass', pass: number }, `\npass ${number}\n${sideText(whole, io.colour)}`);
  };
  const step = Math.round(sampleRateHz / 10);
  for await (const bytes of source.samples) {
    if (source.isOver?.() === true) break;
    const { left, right, frames } = raw.push(bytes);
    for (let at = 0; at < frames; at += step) {
      const to = Math.min(frames, at + step);
      const ended = session.push({ left: left.subarray(at, to), right: right.subarray(at, to), frames: to - at });
      if (ended !== null) {
        tellBands(ended.document.bands);
        tellPass(ended);
        continue;
      }
      const now = session.now();
      tellBands(now.pass?.bands ?? []);
      if (now.playing !== null) last = now.playing;
      if (now.input.heardS - told < 1) continue;
      told = now.input.heardS;
      tellInput();
      if (io.progress && !json && now.playing !== null) {
        const { band, playingS, figures } = now.playing;
        io.err(`\r\u001b[K${lineOf(band)} · ${playingS.toFixed(0)} s${tiltWords(figures)}`);
      }
    }
  }
  const open = session.end();
  if (open !== null) {
    tellBands(open.document.bands);
    tellPass(open);
  }
  if (raw.leftOver > 0) io.err(`${problem('half-frame', { bytes: raw.leftOver }).message}\n`);
  const fault = (await source.fault?.()) ?? null;
  if (fault !== null) throw new UsageError(`--input ${oneLine(name)}: ${oneLine(fault)}`);
  if (passes === 0) io.err('platterside: no band was heard: a test record playing into this input was expected\n');
  return measured === 0 ? 1 : 0;
}

/** Opens what the flags name and hears it. */
export async function measureLive(
  flags: LiveFlags & { readonly input: string },
  options: SideOptions,
  json: boolean,
  io: Streams,
): Promise<ExitStatus> {
  const sampleRateHz = wholeNumber('--rate', flags.rate, 48_000, 32_000, 384_000);
  const keeping = { json, keep: flags.keep };
  if (flags.input === '-') {
    const format = FORMATS[flags.format ?? 's32le'];
    if (!Object.hasOwn(FORMATS, flags.format ?? 's32le')) {
      throw new UsageError(`--format ${flags.format}: one of ${Object.keys(FORMATS).join(', ')} was expected`);
    }
    const channels = wholeNumber('--channels', flags.channels, 2, 1, 64);
    // what pipes into this one is ended by the same Ctrl-C; what it sent is still measured
    let over = false;
    process.once('SIGINT', () => {
      over = true;
    });
    const isOver = (): boolean => over;
    const source = { name: 'standard input', sampleRateHz, channels, format, samples: process.stdin, isOver };
    return hearSource(source, options, keeping, io);
  }
  if (flags.format !== undefined || flags.channels !== undefined) {
    throw new UsageError('--format and --channels go with --input - : a device is read as it is');
  }
  const recorder = startRecorder(flags.input, sampleRateHz, flags.recorder);
  const stop = (): void => recorder.stop();
  process.once('SIGINT', stop);
  try {
    io.err(`listening to ${oneLine(flags.input)} at ${sampleRateHz} Hz by ${recorder.program}; Ctrl-C ends it\n`);
    const { samples, program } = recorder;
    const fault = async (): Promise<string | null> => {
      const said = await recorder.fault();
      return said === null ? null : `${program} broke off: ${said}`;
    };
    const format = FORMATS.s32le;
    const source = { name: flags.input, recorder: program, sampleRateHz, channels: 2, format, samples, fault };
    return await hearSource(source, options, keeping, io);
  } finally {
    process.off('SIGINT', stop);
    recorder.stop();
  }
}
