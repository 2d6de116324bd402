/**
 * What only the samples show: clipping, silence, dead or copied channels, offset, lost blocks. One fused loop over every
 * frame, because it runs over whole sides; everything rare is handled outside it.
 */

import { showNumber } from '../words/number.ts';
import { replaceNonNumbers } from './decodeSamples.ts';
import { type FlatRegion, FlatTops, type FlatTopsPart, REGION_GAP_S } from './flatTops.ts';
import { lengthProblems } from './formatProblems.ts';
import { joinRegions } from './joinRegions.ts';
import { type Problem, problem } from './problem.ts';
import type { CaptureFormat, StereoBlock } from './recording.ts';
import { LONGEST_DROP_S, ZeroRuns, type ZeroRunsPart } from './zeroRuns.ts';

/** The format, as far as known; what is absent is taken as two channels of 24-bit integers. */
export type InspectedFormat = Pick<CaptureFormat, 'sampleRateHz'> & Partial<CaptureFormat>;

/** Loudest 0.1 s under this, dBFS rms: a converter and an idle preamp, no record. */
export const SILENT_DB = -80;
/** Loudest 0.1 s under this, dBFS rms: rounding to 16 bits (−98 dBFS) is no longer far below the leak of a good cartridge. */
export const QUIET_DB = -50;
/** A channel this far under the other, dB, carries no signal of its own: no cartridge separates nearly so well. */
export const DEAD_BELOW_DB = 60;
/** What is left of right after its best copy of left is taken off, dB re right: no two generators agree so well. */
export const COPY_RESIDUE_DB = -70;
/** The same in steps of the samples, rms: a scaled copy that was rounded again, with dither, stays under it. */
export const COPY_RESIDUE_STEPS = 0.6;
/** Mean of a channel that is reported: −60 dBFS, which a sound converter keeps well under … */
export const DC_OFFSET = 1e-3;
/** … and this share of the signal's rms, times the length in s: what a tone of 20 Hz or more leaves when cut off anywhere. */
export const DC_LEFT_BY_CUT_S = 0.025;
/** Levels are judged over stretches this long, s. */
const LEVEL_WINDOW_S = 0.1;
/** At most so many regions of one kind are listed; with more, the nearest neighbours are joined. */
const MOST_REGIONS = 50;

/** A click rings no longer than this, s, and has fewer flat tops than this; a tone that clips goes on. */
const CLICK_S = 0.02;
const CLIPPED_TONE_TOPS = 6;

/** s from the first frame */
export interface Spoiled {
  readonly startS: number;
  readonly endS: number;
}

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
}

interface Channel {
  readonly name: 'left' | 'right';
  readonly up: FlatTops;
  readonly down: FlatTops;
  sum: number;
  power: number;
  /** of the level window being filled */
  windowPower: number;
  /** largest mean power of any level window */
  loudest: number;
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
    this.#product += part.product;
    this.#frames += part.frames;
    this.#replaced += part.replaced;
  }

  /** Everything found, gravest for the figures first. */
  finish(): Problem[] {
    if (this.#frames === 0) return [];
    this.#closeWindow();
    const problems = [...this.#levelProblems(), ...this.#clipping(), ...this.#gaps(), ...this.#offsets()];
    if (this.#replaced > 0) problems.push(problem('not-numbers', { count: this.#replaced }));
    const peak = Math.max(...[this.#left, this.#right].flatMap(({ up, down }) => [up.extreme, down.extreme]));
    if (this.#format.encoding === 'float' && peak > 1.0001) {
      problems.push(problem('above-full-scale', { peakDb: 20 * Math.log10(peak) }));
    }
    if (this.#format.container === 'live') problems.push(...lengthProblems(this.#frames / this.#format.sampleRateHz));
    return problems;
  }

  #levelProblems(): Problem[] {
    const offsetPower = ({ sum }: Channel): number => (sum / this.#frames) ** 2;
    const level = (channel: Channel): number =>
      10 * Math.log10(Math.max(1e-30, channel.loudest - offsetPower(channel)));
    const [leftDb, rightDb] = [level(this.#left), level(this.#right)];
    const loudestDb = Math.max(leftDb, rightDb);
    const shown = loudestDb < -200 ? 'under −200' : showNumber(loudestDb, 0);
    if (loudestDb < SILENT_DB) return [problem('silent', { loudestDb: shown })];
    const problems: Problem[] = [];
    const mono = this.#format.channels === 1;
    const below = Math.abs(leftDb - rightDb);
    if (!mono && below > DEAD_BELOW_DB) {
      const channel = leftDb < rightDb ? 'left' : 'right';
      problems.push(problem('dead-channel', { channel, belowDb: below > 200 ? 'more than 200' : below.toFixed(0) }));
    } else if (!mono) {
      problems.push(...this.#copy());
    }
    if (loudestDb < QUIET_DB) problems.push(problem('quiet', { loudestDb: shown }));
    return problems;
  }

  /** Right as the best multiple of left, offsets removed; what is left over tells a copy from a second generator. */
  #copy(): Problem[] {
    const n = this.#frames;
    const [left, right] = [this.#left, this.#right];
    const ll = left.power - left.sum ** 2 / n;
    const rr = right.power - right.sum ** 2 / n;
    const lr = this.#product - (left.sum * right.sum) / n;
    if (!(ll > 0 && rr > 0)) return [];
    const gain = lr / ll;
    const residue = rr - lr * gain;
    if (!(residue <= Math.max(rr * 10 ** (COPY_RESIDUE_DB / 10), n * (COPY_RESIDUE_STEPS * this.#step) ** 2)))
      return [];
    const db = 20 * Math.log10(Math.abs(gain));
    const scaled = Math.abs(db) < 0.001 ? '' : `, ${showNumber(db, 2, true)} dB`;
    const relation = `${gain < 0 ? 'polarity inverted' : 'same polarity'}${scaled === '' ? ', same level' : scaled}`;
    return [problem('identical-channels', { relation })];
  }

  #clipping(): Problem[] {
    const rate = this.#format.sampleRateHz;
    const mono = this.#format.channels === 1;
    const found: (FlatRegion & { channels: Set<string> })[] = [];
    for (const channel of mono ? [this.#left] : [this.#left, this.#right]) {
      for (const region of [...channel.up.regions(), ...channel.down.regions()]) {
        found.push({ ...region, channels: new Set([channel.name]) });
      }
    }
    const merged = joinRegions(found, MOST_REGIONS, REGION_GAP_S * rate, (into, next) => {
      into.runs += next.runs;
      into.level = Math.min(into.level, next.level);
      for (const name of next.channels) into.channels.add(name);
    });
    return merged.map((region) => {
      const names = [...region.channels];
      const channel = names.length > 1 ? 'both channels' : mono ? 'its one channel' : `${names[0]} channel`;
      return problem(
        'clipped',
        { channel, tops: region.runs, levelDb: 20 * Math.log10(region.level) },
        { startS: region.startFrame / rate, endS: region.endFrame / rate },
      );
    });
  }

  /**
   * Stretches whose samples are no longer the groove's, in order of channels and not of time: tones that clip, samples that
   * are missing or muted. A lone click that hits full scale is none.
   */
  spoiled(): Spoiled[] {
    const rate = this.#format.sampleRateHz;
    const clipped = [this.#left, this.#right]
      .flatMap(({ up, down }) => [...up.regions(), ...down.regions()])
      .filter(({ startFrame, endFrame, runs }) => runs >= CLIPPED_TONE_TOPS && endFrame - startFrame > CLICK_S * rate);
    return [...clipped, ...this.#zeros.runs].map(({ startFrame, endFrame }) => ({
      startS: startFrame / rate,
      endS: endFrame / rate,
    }));
  }

  #gaps(): Problem[] {
    const rate = this.#format.sampleRateHz;
    const longest = LONGEST_DROP_S * rate;
    const lengthOf = (run: { startFrame: number; endFrame: number }): number => run.endFrame - run.startFrame;
    const drops = this.#zeros.runs
      .filter((run) => lengthOf(run) <= longest)
      .map((run) => ({ ...run, lost: lengthOf(run) }));
    const edits = this.#zeros.runs.filter((run) => lengthOf(run) > longest);
    const place = (run: { startFrame: number; endFrame: number }) => ({
      startS: run.startFrame / rate,
      endS: run.endFrame / rate,
    });
    return [
      ...joinRegions(drops, MOST_REGIONS, 0, (into, next) => {
        into.lost += next.lost;
      }).map((run) => problem('dropped-samples', { frames: run.lost }, place(run))),
      ...edits
        .slice(0, MOST_REGIONS)
        .map((run) => problem('digital-silence', { seconds: lengthOf(run) / rate }, place(run))),
    ];
  }

  #offsets(): Problem[] {
    const n = this.#frames;
    const durationS = n / this.#format.sampleRateHz;
    const channels = this.#format.channels === 1 ? [this.#left] : [this.#left, this.#right];
    return channels.flatMap(({ name, sum, power }) => {
      const mean = sum / n;
      const rms = Math.sqrt(Math.max(0, power / n - mean * mean));
      const offset = Math.abs(mean) >= DC_OFFSET && Math.abs(mean) >= (DC_LEFT_BY_CUT_S / durationS) * rms;
      return offset ? [problem('dc-offset', { channel: name, percent: mean * 100 })] : [];
    });
  }
}

function sums(a: Float64Array, b: Float64Array, frames: number): [sum: number, product: number] {
  let sum = 0;
  let product = 0;
  for (let i = 0; i < frames; i++) {
    sum += a[i]!;
    product += a[i]! * b[i]!;
  }
  return [sum, product];
}
