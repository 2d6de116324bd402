/** Is this input fit to be measured from, and what gain does it need? Common practice, as `Recording levels` in docs/captures.md. */
import { type Statement, statement } from '../../words/statement.ts';

/** As a browser tells it of its track; absent where it does not. */
export interface InputSettings {
  readonly echoCancellation?: boolean | string;
  readonly noiseSuppression?: boolean;
  readonly autoGainControl?: boolean;
  readonly channelCount?: number;
  readonly sampleRate?: number;
}

const PROCESSING = {
  echoCancellation: 'echo cancellation',
  noiseSuppression: 'noise suppression',
  autoGainControl: 'automatic gain',
} as const;

/**
 * What was asked for, read back.
 * @param rateHz at which samples come out
 * @param askedHz that the person chose; null: the device's own
 * @returns the first reason not to listen, and what to bear in mind
 */
export function settingsVerdict(
  settings: InputSettings,
  rateHz: number,
  askedHz: number | null = null,
): { readonly refused: Statement | null; readonly notes: readonly Statement[] } {
  const names = Object.keys(PROCESSING) as (keyof typeof PROCESSING)[];
  const words = (which: readonly (keyof typeof PROCESSING)[]): string =>
    which.map((name) => PROCESSING[name]).join(', ');
  const on = names.filter((name) => settings[name] !== undefined && settings[name] !== false);
  const untold = names.filter((name) => settings[name] === undefined);
  const { channelCount, sampleRate } = settings;
  const refused =
    on.length > 0
      ? statement('input-processed', { what: words(on) })
      : channelCount === 1
        ? statement('input-one-channel')
        : sampleRate !== undefined && sampleRate !== rateHz
          ? statement('input-resampled', { input: sampleRate, given: rateHz })
          : askedHz !== null && askedHz !== rateHz
            ? statement('input-other-rate', { asked: askedHz, given: rateHz })
            : null;
  const notes = untold.length === 0 ? [] : [statement('input-processing-unknown', { what: words(untold) })];
  // a sound server's usual rate, whatever its device can; no browser tells what that is
  const usual = askedHz === null && rateHz === USUAL_HZ ? [statement('input-usual-rate')] : [];
  return { refused, notes: [...notes, ...usual, statement('input-clock')] };
}

/** Hz */
const USUAL_HZ = 44_100;

export type InputGrade = 'good' | 'warn' | 'bad' | 'waiting';

export interface InputJudged {
  readonly grade: InputGrade;
  readonly says: Statement;
}

/** What is measured of the input; `core/live` makes it. */
interface Heard {
  readonly heardS: number;
  readonly loudestDb: number;
  readonly clippedAgoS: number | null;
  readonly zerosS: number;
  readonly filled: number;
  readonly channels: 'unknown' | 'apart' | 'copies' | 'left-dead' | 'right-dead';
}

/** s of exact zeros that no live converter gives */
const DEAD_S = 0.5;
/** s for which a clipped top is still spoken of */
const CLIPPED_S = 10;
/** dBFS: the loudest band peaks between these; under the last there is no signal */
const LEVEL = { high: -3, aim: -10, low: -26, nothing: -50 } as const;

/** Which gain the input needs. @param playing a band plays: groove alone is no ground to call a level low */
export function levelVerdict({ loudestDb, clippedAgoS }: Heard, playing: boolean): InputJudged {
  const peakDb = loudestDb;
  if (clippedAgoS !== null && clippedAgoS < CLIPPED_S) return { grade: 'bad', says: statement('level-clipping') };
  if (peakDb > LEVEL.high) return { grade: 'warn', says: statement('level-hot', { peakDb, by: peakDb - LEVEL.aim }) };
  if (peakDb >= LEVEL.low) return { grade: 'good', says: statement('level-good', { peakDb }) };
  if (!playing || peakDb < LEVEL.nothing) return { grade: 'waiting', says: statement('level-nothing', { peakDb }) };
  return { grade: 'warn', says: statement('level-low', { peakDb, by: LEVEL.aim - peakDb }) };
}

/** Everything else about the input that the person must know, gravest first. */
export function inputVerdict(
  heard: Heard,
  way: { readonly sourceChannels: number; readonly lostFrames: number; readonly standsStillS: number },
): readonly InputJudged[] {
  const { sourceChannels, lostFrames, standsStillS } = way;
  const bad = (says: Statement): InputJudged => ({ grade: 'bad', says });
  const { channels, zerosS, filled } = heard;
  const judged: InputJudged[] = [];
  if (standsStillS >= DEAD_S) judged.push(bad(statement('input-stopped', { seconds: standsStillS })));
  else if (sourceChannels === 0 && heard.heardS > DEAD_S) judged.push(bad(statement('input-not-connected')));
  else if (zerosS >= DEAD_S) judged.push(bad(statement('input-dead', { seconds: zerosS })));
  if (sourceChannels === 1) judged.push(bad(statement('input-one-channel')));
  else if (channels === 'copies') judged.push(bad(statement('input-copies')));
  else if (channels === 'left-dead' || channels === 'right-dead') {
    judged.push(bad(statement('input-dead-channel', { channel: channels === 'left-dead' ? 'left' : 'right' })));
  } else if (channels === 'apart') judged.push({ grade: 'good', says: statement('channels-apart') });
  if (lostFrames > 0) judged.push({ grade: 'warn', says: statement('input-lost', { frames: lostFrames }) });
  if (filled > 0) judged.push({ grade: 'warn', says: statement('input-filled', { count: filled }) });
  return judged;
}
