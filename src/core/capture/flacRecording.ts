/** A FLAC file as blocks of samples: exact integers, damage replaced by silence of the same length, checksum tested. */
import { FLACDecoder } from '@wasm-audio-decoders/flac';
import { createMD5 } from 'hash-wasm';
import { CaptureError } from './captureError.ts';
import { flacExtent, flacOffset } from './flacExtent.ts';
import { type FlacFrame, FlacFrameReader } from './flacFrames.ts';
import { type FlacStream, readFlacHeader, selfContained } from './flacHeader.ts';
import { checkedRange, MOST_FRAMES } from './frameRange.ts';
import type { Problem } from './problem.ts';
import type { ByteSource, FrameRange, StereoBlock } from './recording.ts';
import { problem } from './sentences.ts';

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
    const sum = whole && !this.#checksumDone ? new SampleSum(await createMD5(), this.stream.bitDepth) : null;
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
      restore(decoded[0]!, this.stream.bitDepth, first, frames, left);
      restore(decoded[Math.min(1, decoded.length - 1)]!, this.stream.bitDepth, first, frames, right);
      yield { startFrame: cursor, frames, left, right };
      cursor += frames;
    }
    if (sum !== null && sound) {
      this.#checksumDone = true;
      if (sum.digest() !== this.stream.md5) this.problems.push(problem('checksum-differs'));
    }
  }

  #noteDamage(from: number, to: number): void {
    this.#damage.set(from, Math.max(to, this.#damage.get(from) ?? 0));
    const stretches = [...this.#damage].sort(([a], [b]) => a - b);
    const rate = this.stream.sampleRateHz;
    const lost = stretches.reduce((total, [start, end]) => total + end - start, 0);
    const place = { startS: stretches[0]![0] / rate, endS: Math.max(...this.#damage.values()) / rate };
    const found = problem('damaged-frames', { seconds: (lost / rate).toFixed(2) }, place);
    const known = this.problems.findIndex(({ code }) => code === 'damaged-frames');
    if (known < 0) this.problems.push(found);
    else this.problems[known] = found;
  }
}

/** Decodes sound frames that follow each other; a break needs a fresh decoder, for it would invent what lies between. */
class FlacRun {
  readonly #stream: FlacStream;
  #decoder: FLACDecoder | null = null;

  constructor(stream: FlacStream) {
    this.#stream = stream;
  }

  /** Samples of every channel as the decoder scales them; null when it could not do it after all. */
  async decode(frames: readonly FlacFrame[]): Promise<Float32Array[] | null> {
    try {
      if (this.#decoder === null) {
        this.#decoder = new FLACDecoder();
        await this.#decoder.ready;
      }
      const bytes = frames.map((frame) => selfContained(frame.bytes, frame.headerBytes, this.#stream.bitDepth));
      const { channelData, samplesDecoded, errors } = await this.#decoder.decodeFrames(bytes);
      const expected = frames.reduce((total, frame) => total + frame.blockSize, 0);
      const whole = errors.length === 0 && samplesDecoded === expected && channelData.length === this.#stream.channels;
      return whole ? channelData : null;
    } catch {
      // bytes that pass their checksum and yet break the decoder: it is thrown away, the frames count as damaged
      this.#decoder = null;
      return null;
    }
  }

  /** Its memory is its own and goes with it. */
  breakOff(): void {
    this.#decoder = null;
  }
}

/**
 * The decoder scales by 1/(2^(b−1) − 1) into 32-bit floats; multiplied back and rounded that is the file's own integer,
 * up to 24 bits exactly. Full scale ±1 here is 2^(b−1), as for WAV.
 */
function restore(decoded: Float32Array, bits: number, first: number, frames: number, into: Float64Array): void {
  const up = 2 ** (bits - 1) - 1;
  const down = 2 ** (1 - bits);
  for (let i = 0; i < frames; i++) into[i] = Math.round(decoded[first + i]! * up) * down;
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

/** MD5 over all channels' samples interleaved, least byte first, as FLAC defines it. */
class SampleSum {
  readonly #hash: Awaited<ReturnType<typeof createMD5>>;
  readonly #bits: number;

  constructor(hash: Awaited<ReturnType<typeof createMD5>>, bits: number) {
    this.#hash = hash;
    this.#bits = bits;
  }

  update(channels: readonly Float32Array[]): void {
    const frames = channels[0]!.length;
    const count = channels.length;
    const up = 2 ** (this.#bits - 1) - 1;
    if (this.#bits === 16) {
      const packed = new Int16Array(frames * count);
      channels.forEach((samples, c) => {
        for (let i = 0, p = c; i < frames; i++, p += count) packed[p] = Math.round(samples[i]! * up);
      });
      this.#hash.update(new Uint8Array(packed.buffer));
      return;
    }
    const packed = new Uint8Array(frames * count * 3);
    channels.forEach((samples, c) => {
      for (let i = 0, p = 3 * c; i < frames; i++, p += 3 * count) {
        const n = Math.round(samples[i]! * up);
        packed[p] = n;
        packed[p + 1] = n >> 8;
        packed[p + 2] = n >> 16;
      }
    });
    this.#hash.update(packed);
  }

  digest(): string {
    return this.#hash.digest('hex');
  }
}
