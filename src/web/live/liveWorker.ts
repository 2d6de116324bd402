/** Measures what comes from the audio thread, keeps each pass, tells the page. A stall of the page stops nothing here. */
import '../noEval.ts';
import { HumWatch } from '../../core/live/humWatch.ts';
import type { NewestPeak } from '../../core/live/inputWatch.ts';
import { type LivePlaying, LiveSession } from '../../core/live/LiveSession.ts';
import { BLOCK_FRAMES, type FullBlock } from '../../core/live/recycledBlocks.ts';
import { RingReader } from '../../core/live/sampleRing.ts';
import { SpeedStrip } from '../../core/live/speedStrip.ts';
import { parseSheet } from '../../core/record/sheet.ts';
import { say, stopped } from '../../core/words/statement.ts';
import { type LiveBegin, type LiveReply, type LiveRequest, SCOPE_FRAMES, type ScopePoints } from './liveMessages.ts';
import { type KeptPass, PassRecorder } from './passRecorder.ts';

/** frames taken at once */
const CHUNK = 4096;
const LOOK_EVERY_MS = 10;
const USUAL_RPM = 100 / 3;
/** as often as figures are worked out anew */
const TELL_EVERY_MS = 100;
/** a frame of the screen; where memory is shared the page looks into the ring by itself */
const SHOW_EVERY_MS = 16;

/** dB under which a bar moves by less than a pixel */
const LEAST_MOVE_DB = 0.15;
/** A bar that stays where it is costs a picture of the page for nothing. */
const hasMoved = (a: NewestPeak, b: NewestPeak): boolean =>
  !(Math.abs(a.leftDb - b.leftDb) < LEAST_MOVE_DB && Math.abs(a.rightDb - b.rightDb) < LEAST_MOVE_DB);

const reply = (message: LiveReply, transfer: Transferable[] = []): void => self.postMessage(message, { transfer });

/** Where frames come from, whichever way they take. */
interface Intake {
  readonly waiting: number;
  readonly lost: number;
  readonly channels: number;
  read(left: Float64Array, right: Float64Array): number;
}

function blockIntake(port: MessagePort): Intake {
  const queue: FullBlock[] = [];
  let lost = 0;
  let channels = 0;
  port.onmessage = ({ data }: MessageEvent<FullBlock>) => {
    queue.push(data);
    ({ lost, channels } = data);
  };
  return {
    get waiting() {
      return queue.length * BLOCK_FRAMES;
    },
    get lost() {
      return lost;
    },
    get channels() {
      return channels;
    },
    read(left, right) {
      const block = queue.shift();
      if (block === undefined) return 0;
      for (let i = 0; i < BLOCK_FRAMES; i++) {
        left[i] = block.samples[2 * i];
        right[i] = block.samples[2 * i + 1];
      }
      port.postMessage(block.samples, [block.samples.buffer]);
      return BLOCK_FRAMES;
    },
  };
}

function recorderOf({ recordingName, sampleRateHz, conditions }: LiveBegin, number: number): Promise<PassRecorder> {
  const name = recordingName === null ? null : `${recordingName} ${number}.wav`;
  return PassRecorder.open(name, sampleRateHz, conditions);
}

class Listening {
  readonly #begin: LiveBegin;
  readonly #intake: Intake;
  readonly #session: LiveSession;
  readonly #hum: HumWatch;
  readonly #strip: SpeedStrip;
  readonly #turnS: number;
  readonly #left = new Float64Array(CHUNK);
  readonly #right = new Float64Array(CHUNK);
  readonly #scope = new Float32Array(2 * SCOPE_FRAMES);
  #scopeAt = 0;
  #recorder: PassRecorder;
  /** the file for the pass to come */
  #next: Promise<PassRecorder>;
  #told = 0;
  #sentFigures: LivePlaying['figures'] | null = null;
  #peak: NewestPeak = { count: 0, leftDb: Number.NaN, rightDb: Number.NaN };
  #shown = 0;
  #cameAt = performance.now();
  #closing = false;
  #endAsked = false;
  #files = 1;

  constructor(begin: LiveBegin, recorder: PassRecorder) {
    const { way, sheet, input, sampleRateHz, bitDepth, flat, rpm, nominalSpeedToneHz, arm } = begin;
    const { limits, bench, learned, preamp, recordResponse } = begin;
    this.#begin = begin;
    this.#recorder = recorder;
    this.#intake = way.kind === 'ring' ? new RingReader(way.memory) : blockIntake(way.port);
    this.#hum = new HumWatch(sampleRateHz);
    this.#strip = new SpeedStrip(sampleRateHz);
    const parsed = sheet === null ? null : parseSheet(sheet.text, sheet.name);
    if (parsed !== null && !parsed.ok) throw new Error(stopped(say(parsed.why)));
    this.#turnS = 60 / (rpm ?? parsed?.sheet.rpm ?? USUAL_RPM);
    this.#session = new LiveSession(
      // a depth that the browser does not tell is not made up: what it hands over are single-precision numbers
      {
        file: input,
        sampleRateHz,
        channels: 2,
        bitDepth: bitDepth ?? 32,
        encoding: bitDepth === null ? 'float' : 'integer',
      },
      {
        sheet: parsed?.sheet,
        rpm: rpm ?? undefined,
        nominalSpeedToneHz: nominalSpeedToneHz ?? undefined,
        flat,
        limits,
        bench,
        learned: learned ?? undefined,
        arm: arm ?? undefined,
        preamp: preamp ?? undefined,
        recordResponse: recordResponse ?? undefined,
        withSpectra: true,
      },
      ({ left, right, frames }) => this.#recorder.write(left, right, frames),
    );
    this.#next = this.#openNext();
  }

  static async open(begin: LiveBegin): Promise<Listening> {
    return new Listening(begin, await recorderOf(begin, 1));
  }

  #openNext(): Promise<PassRecorder> {
    this.#files += 1;
    return recorderOf(this.#begin, this.#files);
  }

  async run(): Promise<void> {
    while (!this.#closing) {
      await this.#takeAll();
      if (this.#endAsked) {
        this.#endAsked = false;
        await this.#endPass();
      }
      this.#tell();
      await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
    }
    await this.#takeAll();
    await this.#endPass();
    this.#recorder.drop();
    (await this.#next).drop();
    reply({ kind: 'closed' });
  }

  async #takeAll(): Promise<void> {
    for (;;) {
      const frames = this.#intake.read(this.#left, this.#right);
      if (frames === 0) return;
      this.#cameAt = performance.now();
      if (this.#begin.way.kind === 'blocks') this.#show(frames);
      const block = { left: this.#left, right: this.#right, frames };
      this.#hum.push(block);
      this.#strip.push(block);
      const ended = this.#session.push(block);
      if (ended !== null) await this.#hand(ended);
      this.#tell();
    }
  }

  async #endPass(): Promise<void> {
    const ended = this.#session.end();
    if (ended !== null) await this.#hand(ended);
  }

  /** In its turn: not while a pass is being handed over. */
  endPass(): void {
    this.#endAsked = true;
  }

  async #hand(ended: NonNullable<ReturnType<LiveSession['end']>>): Promise<void> {
    const kept: KeptPass = await this.#recorder.end({
      pass: ended.number,
      lostFrames: this.#intake.lost,
      endedAt: new Date().toISOString(),
    });
    this.#recorder = await this.#next;
    this.#next = this.#openNext();
    const { document } = ended;
    const file = kept.file === null ? this.#begin.input : kept.file.name;
    const pass = { ...ended, document: { ...document, capture: { ...document.capture, file } } };
    reply({ kind: 'pass', pass, recording: kept.file, why: kept.why });
  }

  #show(frames: number): void {
    for (let i = Math.max(0, frames - SCOPE_FRAMES); i < frames; i++) {
      this.#scope[2 * this.#scopeAt] = this.#left[i];
      this.#scope[2 * this.#scopeAt + 1] = this.#right[i];
      this.#scopeAt = (this.#scopeAt + 1) % SCOPE_FRAMES;
    }
    const now = performance.now();
    if (now - this.#shown < SHOW_EVERY_MS) return;
    this.#shown = now;
    const points: ScopePoints = new Float32Array(2 * SCOPE_FRAMES);
    const at = 2 * this.#scopeAt;
    points.set(this.#scope.subarray(at), 0);
    points.set(this.#scope.subarray(0, at), 2 * SCOPE_FRAMES - at);
    reply({ kind: 'scope', points }, [points.buffer]);
  }

  #tell(): void {
    const peak = this.#session.newestPeak;
    if (peak.count !== this.#peak.count && hasMoved(this.#peak, peak)) {
      this.#peak = peak;
      reply({ kind: 'level', peak });
    }
    const now = performance.now();
    if (now - this.#told < TELL_EVERY_MS) return;
    this.#told = now;
    const heard = this.#session.now();
    const { playing } = heard;
    const band = playing?.band;
    if (band !== undefined && band.signal !== 'silent-groove') this.#hum.hide();
    this.#strip.tune(band?.signal === 'tone' ? band.frequencyHz : null);
    const status = {
      ...heard,
      playing: playing === null ? null : { ...playing, figures: this.#unlessSent(playing.figures) },
      hum: this.#hum.reading,
      strip: this.#strip.take(),
      turnS: this.#turnS,
      lostFrames: this.#intake.lost,
      sourceChannels: this.#intake.channels,
      standsStillS: (now - this.#cameAt) / 1000,
      sentAt: performance.timeOrigin + now,
      behindS: this.#intake.waiting / this.#begin.sampleRateHz,
    };
    reply({ kind: 'now', status });
  }

  #unlessSent(figures: LivePlaying['figures']): LivePlaying['figures'] | null {
    if (figures === this.#sentFigures) return null;
    this.#sentFigures = figures;
    return figures;
  }

  close(): void {
    this.#closing = true;
  }
}

let listening: Listening | null = null;

const failed = (error: unknown): void => {
  const why = error instanceof Error ? error.message : String(error);
  reply({ kind: 'failed', sentence: `Listening broke off: ${why}` });
};

self.onmessage = async ({ data }: MessageEvent<LiveRequest>) => {
  try {
    if (data.kind === 'begin') {
      listening = await Listening.open(data);
      await listening.run();
    } else if (data.kind === 'end-pass') listening?.endPass();
    else listening?.close();
  } catch (error) {
    failed(error);
  }
};
