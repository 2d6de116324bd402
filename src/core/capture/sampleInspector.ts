/**
 * What only the samples show: clipping, silence, dead or copied channels, offset, lost blocks. One fused loop over every
 * frame, because it runs over whole sides; everything rare is handled outside it.
 */

import { ByteSlip, type SlipRun } from './byteSlip.ts';
import { replaceNonNumbers } from './decodeSamples.ts';
import { FlatTops, type FlatTopsPart } from './flatTops.ts';
import type { Problem } from './problem.ts';
import type { StereoBlock } from './recording.ts';
import { type InspectedChannel, type InspectedFormat, sampleProblems } from './sampleProblems.ts';
import { ZeroRuns, type ZeroRunsPart } from './zeroRuns.ts';

/** Levels are judged over stretches this long, s. */
const LEVEL_WINDOW_S = 0.1;

/** s from the first frame */
export interface Spoiled {
  readonly startS: number;
  readonly endS: number;
  /** a line of its own says that nothing from here on is measured: none is needed for each band in it */
  readonly isTold?: true;
}

/** A click rings no longer than this, s, and has fewer flat tops than this; a tone that clips goes on. */
const CLICK_S = 0.02;
const CLIPPED_TONE_TOPS = 6;

interface ChannelPart {
  readonly up: FlatTopsPart;
  readonly down: FlatTopsPart;
  readonly sum: number;
  readonly power: number;
  readonly loudest: number;
}

/** What is known of one part of a recording: plain data, to be joined with its neighbours. */
export interface InspectedPart {
  readonly startFrame: number;
  readonly frames: number;
  readonly replaced: number;
  readonly product: number;
  readonly left: ChannelPart;
  readonly right: ChannelPart;
  readonly zeros: ZeroRunsPart;
  readonly slips: readonly SlipRun[];
}

interface Channel extends InspectedChannel {
  sum: number;
  power: number;
  loudest: number;
  /** of the level window being filled */
  windowPower: number;
}

/**
 * Takes a recording's blocks in order (files or live input) and tells what is wrong with its samples. Samples that are no
 * numbers are replaced by 0 in the block itself.
 *
 * Cost: about 2 ns a frame; memory does not grow with length, only with the number of flaws found.
 *
 * @checked sampleInspector.test.ts
 */
export class SampleInspector {
  readonly #format: InspectedFormat;
  readonly #left: Channel;
  readonly #right: Channel;
  readonly #zeros = new ZeroRuns();
  /** null where the samples have checksums, or never were bytes */
  readonly #slips: ByteSlip | null;
  readonly #step: number;
  #startFrame = 0;
  #product = 0;
  #frames = 0;
  #windowFrames = 0;
  #zeroLength = 0;
  #replaced = 0;

  constructor(format: InspectedFormat) {
    const { sampleRateHz } = format;
    if (!(sampleRateHz > 0 && sampleRateHz < 1e7)) {
      throw new RangeError(`sampleRateHz = ${sampleRateHz} must lie above 0 and below 10 MHz`);
    }
    this.#format = format;
    this.#step = format.encoding === 'float' ? 2 ** -23 : 2 ** (1 - (format.bitDepth ?? 24));
    const channel = (name: Channel['name']): Channel => ({
      name,
      up: new FlatTops(1, this.#step, sampleRateHz),
      down: new FlatTops(-1, this.#step, sampleRateHz),
      sum: 0,
      power: 0,
      windowPower: 0,
      loudest: 0,
    });
    this.#slips = mayHaveSlipped(format) ? new ByteSlip() : null;
    this.#left = channel('left');
    this.#right = channel('right');
  }

  push(block: StereoBlock): void {
    const { left, right, frames, startFrame } = block;
    if (frames === 0) return;
    if (this.#frames === 0) {
      this.#startFrame = startFrame;
      this.#zeros.begin(left, right, frames, startFrame);
    }
    const { up: leftUp, down: leftDown } = this.#left;
    const { up: rightUp, down: rightDown } = this.#right;
    let sumL = 0;
    let sumR = 0;
    let powerL = 0;
    let powerR = 0;
    let product = 0;
    let topL = Math.min(leftUp.threshold, leftDown.threshold) ** 2;
    let topR = Math.min(rightUp.threshold, rightDown.threshold) ** 2;
    let seenL = 0;
    let seenR = 0;
    const zeros = this.#zeroLength;
    let open = 0;
    if (zeros > 0 && (left[0] !== 0 || right[0] !== 0)) {
      this.#zeros.end(left, right, frames, 0, zeros, startFrame);
    }
    const pairsEnd = frames - 1;
    for (let i = 0; i < frames; i++) {
      const l = left[i]!;
      const r = right[i]!;
      const ll = l * l;
      const rr = r * r;
      sumL += l;
      sumR += r;
      powerL += ll;
      powerR += rr;
      product += l * r;
      if (ll < topL && rr < topR && ll + rr > 0) {
        // as long as nothing is rare, two frames at a time
        let j = i + 1;
        for (; j < pairsEnd; j += 2) {
          const la = left[j]!;
          const ra = right[j]!;
          const lb = left[j + 1]!;
          const rb = right[j + 1]!;
          const lla = la * la;
          const rra = ra * ra;
          const llb = lb * lb;
          const rrb = rb * rb;
          if (!(lla < topL && rra < topR && llb < topL && rrb < topR && lla + rra > 0 && llb + rrb > 0)) break;
          sumL += la + lb;
          sumR += ra + rb;
          powerL += lla + llb;
          powerR += rra + rrb;
          product += la * ra + lb * rb;
        }
        i = j - 1;
        continue;
      }
      if (ll >= topL && i >= seenL) {
        seenL = (l > 0 ? leftUp : leftDown).visit(left, i, frames, startFrame);
        topL = Math.min(leftUp.threshold, leftDown.threshold) ** 2;
      }
      if (rr >= topR && i >= seenR) {
        seenR = (r > 0 ? rightUp : rightDown).visit(right, i, frames, startFrame);
        topR = Math.min(rightUp.threshold, rightDown.threshold) ** 2;
      }
      if (ll + rr === 0) {
        let end = i;
        while (end < frames && left[end] === 0 && right[end] === 0) end++;
        const length = end - i + (i === 0 ? zeros : 0);
        if (end < frames) this.#zeros.end(left, right, frames, end, length, startFrame);
        else open = length;
        i = Math.max(i, end - 1);
      }
    }
    this.#replaced += block.replaced ?? 0;
    if (!(powerL + powerR < Number.MAX_VALUE)) {
      this.#replaced += replaceNonNumbers(left, frames) + replaceNonNumbers(right, frames);
      [sumL, powerL] = sums(left, left, frames);
      [sumR, powerR] = sums(right, right, frames);
      product = sums(left, right, frames)[1];
    }
    this.#slips?.push(left, right, frames, startFrame);
    this.#zeroLength = open;
    this.#zeros.endOfBlock(left, right, frames, open);
    this.#left.sum += sumL;
    this.#right.sum += sumR;
    this.#left.power += powerL;
    this.#right.power += powerR;
    this.#product += product;
    this.#frames += frames;
    this.#level(powerL, powerR, frames);
  }

  /** Closes a level window when it is long enough; a long block is one window. */
  #level(powerL: number, powerR: number, frames: number): void {
    this.#left.windowPower += powerL;
    this.#right.windowPower += powerR;
    this.#windowFrames += frames;
    if (this.#windowFrames >= LEVEL_WINDOW_S * this.#format.sampleRateHz) this.#closeWindow();
  }

  #closeWindow(): void {
    if (this.#windowFrames === 0) return;
    for (const channel of [this.#left, this.#right]) {
      channel.loudest = Math.max(channel.loudest, channel.windowPower / this.#windowFrames);
      channel.windowPower = 0;
    }
    this.#windowFrames = 0;
  }

  /** What the blocks so far have shown, for another inspector to join. */
  part(): InspectedPart {
    this.#closeWindow();
    const channel = ({ up, down, sum, power, loudest }: Channel): ChannelPart => ({
      up: up.part(),
      down: down.part(),
      sum,
      power,
      loudest,
    });
    return {
      startFrame: this.#startFrame,
      frames: this.#frames,
      replaced: this.#replaced,
      product: this.#product,
      left: channel(this.#left),
      right: channel(this.#right),
      zeros: this.#zeros.part(this.#zeroLength),
      slips: this.#slips?.part() ?? [],
    };
  }

  /** Takes over what another inspector saw of the frames that follow. */
  append(part: InspectedPart): void {
    this.#closeWindow();
    this.#zeroLength = this.#zeros.append(part.zeros, this.#zeroLength, part.startFrame, part.frames);
    for (const [channel, next] of [
      [this.#left, part.left],
      [this.#right, part.right],
    ] as const) {
      channel.up.append(next.up);
      channel.down.append(next.down);
      channel.sum += next.sum;
      channel.power += next.power;
      channel.loudest = Math.max(channel.loudest, next.loudest);
    }
    this.#slips?.append(part.slips);
    this.#product += part.product;
    this.#frames += part.frames;
    this.#replaced += part.replaced;
  }

  /** Everything found, gravest for the figures first. */
  finish(): Problem[] {
    this.#closeWindow();
    return sampleProblems({
      format: this.#format,
      step: this.#step,
      frames: this.#frames,
      replaced: this.#replaced,
      product: this.#product,
      left: this.#left,
      right: this.#right,
      zeroRuns: this.#zeros.runs,
      slipFrame: this.#slipFrame(),
    });
  }

  #slipFrame(): number | null {
    return this.#slips?.firstFrame(this.#format.sampleRateHz) ?? null;
  }

  /**
   * Stretches whose samples are no longer the groove's, in order of channels and not of time: tones that clip, samples that
   * are missing, muted or made of the wrong bytes. A lone click that hits full scale is none.
   */
  spoiled(): Spoiled[] {
    const rate = this.#format.sampleRateHz;
    const clipped = [this.#left, this.#right]
      .flatMap(({ up, down }) => [...up.regions(), ...down.regions()])
      .filter(({ startFrame, endFrame, runs }) => runs >= CLIPPED_TONE_TOPS && endFrame - startFrame > CLICK_S * rate);
    const slipFrame = this.#slipFrame();
    const seconds = ({ startFrame, endFrame }: { startFrame: number; endFrame: number }): Spoiled => ({
      startS: startFrame / rate,
      endS: endFrame / rate,
    });
    return [
      ...[...clipped, ...this.#zeros.runs].map(seconds),
      ...(slipFrame === null
        ? []
        : [
            { ...seconds({ startFrame: slipFrame, endFrame: this.#startFrame + this.#frames }), isTold: true as const },
          ]),
    ];
  }
}

const mayHaveSlipped = ({ container, encoding }: InspectedFormat): boolean =>
  container !== 'flac' && container !== 'live' && encoding !== 'float';

function sums(a: Float64Array, b: Float64Array, frames: number): [sum: number, product: number] {
  let sum = 0;
  let product = 0;
  for (let i = 0; i < frames; i++) {
    sum += a[i]!;
    product += a[i]! * b[i]!;
  }
  return [sum, product];
}
