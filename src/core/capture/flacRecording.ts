/** A FLAC file as blocks of samples: exact integers, damage replaced by silence of the same length, checksum tested. */
import { CaptureError } from './captureError.ts';
import { flacExtent, flacOffset } from './flacExtent.ts';
import { type FlacFrame, FlacFrameReader } from './flacFrames.ts';
import { type FlacStream, readFlacHeader } from './flacHeader.ts';
import { FlacRun } from './flacRun.ts';
import { checkedRange, MOST_FRAMES } from './frameRange.ts';
import { type Problem, problem } from './problem.ts';
import type { ByteSource, FrameRange, StereoBlock } from './recording.ts';
import { SampleSum } from './sampleSum.ts';

/**
 * An opened FLAC file. `problems` may grow while blocks are read: damage is known only then, and the checksum after the
 * first whole pass.
 *
 * @checked flac.test.ts
 */
export class FlacFile {
  readonly stream: FlacStream;
  /** samples present */
  readonly frames: number;
  readonly problems: Problem[];
  readonly #source: ByteSource;
  readonly #end: number;
  /** damaged stretches by first sample, so that a second pass does not count them twice */
  readonly #damage = new Map<number, number>();
  /** samples in them, and where the first begins and the last ends */
  #lost = 0;
  #firstLost = Number.POSITIVE_INFINITY;
  #lastLost = 0;
  #checksumDone: boolean;

  private constructor(source: ByteSource, stream: FlacStream, frames: number, end: number, problems: Problem[]) {
    this.#source = source;
    this.stream = stream;
    this.frames = frames;
    this.#end = end;
    this.problems = problems;
    // a shorter stream has another sum by right, and has been reported as cut short
    this.#checksumDone = stream.md5 === null || (stream.promisedFrames !== 0 && stream.promisedFrames !== frames);
  }

  /** @throws CaptureError for what is no readable FLAC */
  static async open(source: ByteSource, start: number): Promise<FlacFile> {
    const stream = await readFlacHeader(source, start);
    const { frames, end } = await flacExtent(source, stream);
    if (frames === 0) throw new CaptureError('no-samples', { file: source.name });
    const seconds = (count: number): string => (count / stream.sampleRateHz).toFixed(2);
    const problems: Problem[] = [];
    if (stream.promisedFrames === 0) problems.push(problem('not-closed', { found: 'its length is 0' }));
    if (stream.promisedFrames > frames) {
      problems.push(problem('cut-short', { promised: seconds(stream.promisedFrames), present: seconds(frames) }));
    }
    if (stream.promisedFrames !== 0 && stream.promisedFrames < frames) {
      problems.push(
        problem('longer-than-header', { promised: seconds(stream.promisedFrames), present: seconds(frames) }),
      );
    }
    return new FlacFile(source, stream, frames, end, problems);
  }

  async *blocks(range?: FrameRange): AsyncGenerator<StereoBlock, void, void> {
    const { fromFrame, toFrame } = checkedRange(this.frames, range);
    if (fromFrame === toFrame) return;
    const whole = fromFrame === 0 && toFrame === this.frames;
    const sum = whole && !this.#checksumDone ? await SampleSum.begin(this.stream.bitDepth) : null;
    const left = new Float64Array(MOST_FRAMES);
    const right = new Float64Array(MOST_FRAMES);
    const offset = await flacOffset(this.#source, this.stream, this.#end, fromFrame);
    const reader = new FlacFrameReader(this.#source, this.stream, offset, this.#end);
    const run = new FlacRun(this.stream);
    let sound = true;
    let cursor = fromFrame;
    let frame = await reader.next();
    while (cursor < toFrame) {
      while (frame !== null && frame.startFrame + frame.blockSize <= cursor) frame = await reader.next();
      const batch: FlacFrame[] = [];
      let upTo = Math.max(cursor, frame?.startFrame ?? toFrame);
      if (frame !== null && frame.startFrame <= cursor) {
        upTo = frame.startFrame;
        while (frame?.sound && frame.startFrame === upTo && upTo < toFrame) {
          if (batch.length > 0 && upTo + frame.blockSize - batch[0]!.startFrame > MOST_FRAMES) break;
          batch.push(frame);
          upTo += frame.blockSize;
          frame = await reader.next();
        }
        if (batch.length === 0) upTo += frame!.blockSize; // an unsound frame; the loop's head steps over it
      }
      const decoded = batch.length > 0 ? await run.decode(batch) : null;
      if (decoded === null) {
        sound = false;
        const end = Math.min(toFrame, Math.max(upTo, cursor));
        if (end > cursor) this.#noteDamage(cursor, end);
        run.breakOff();
        for (const block of silence(cursor, end, left, right)) yield block;
        cursor = end;
        continue;
      }
      sum?.update(decoded);
      const first = cursor - batch[0]!.startFrame;
      const frames = Math.min(upTo, toFrame) - cursor;
      const scale = 2 ** (1 - this.stream.bitDepth);
      scaled(decoded[0]!, first, frames, scale, left);
      scaled(decoded[Math.min(1, decoded.length - 1)]!, first, frames, scale, right);
      yield { startFrame: cursor, frames, left, right };
      cursor += frames;
    }
    if (sum !== null && sound) {
      this.#checksumDone = true;
      if (sum.digest() !== this.stream.md5) this.problems.push(problem('checksum-differs'));
    }
  }

  #noteDamage(from: number, to: number): void {
    const known = this.#damage.get(from) ?? from;
    if (to <= known) return;
    this.#damage.set(from, to);
    this.#lost += to - known;
    this.#firstLost = Math.min(this.#firstLost, from);
    this.#lastLost = Math.max(this.#lastLost, to);
    const rate = this.stream.sampleRateHz;
    const lost = this.#lost;
    const place = { startS: this.#firstLost / rate, endS: this.#lastLost / rate };
    const found = problem('damaged-frames', { seconds: lost / rate }, place);
    const told = this.problems.findIndex(({ code }) => code === 'damaged-frames');
    if (told < 0) this.problems.push(found);
    else this.problems[told] = found;
  }
}

function scaled(integers: Int32Array, first: number, frames: number, scale: number, into: Float64Array): void {
  for (let i = 0; i < frames; i++) into[i] = integers[first + i]! * scale;
}

function* silence(from: number, to: number, left: Float64Array, right: Float64Array): Generator<StereoBlock> {
  for (let at = from; at < to; ) {
    const frames = Math.min(MOST_FRAMES, to - at);
    left.fill(0, 0, frames);
    right.fill(0, 0, frames);
    yield { startFrame: at, frames, left, right };
    at += frames;
  }
}
