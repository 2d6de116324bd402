/** What the sums over all samples, their flat tops and their zeros say is wrong with a recording. */
import { showNumber } from '../words/number.ts';
import { type FlatRegion, type FlatTops, REGION_GAP_S } from './flatTops.ts';
import { lengthProblems } from './formatProblems.ts';
import { joinRegions } from './joinRegions.ts';
import { type Problem, problem } from './problem.ts';
import type { CaptureFormat } from './recording.ts';
import { LONGEST_DROP_S, type ZeroRuns } from './zeroRuns.ts';

/** The format, as far as known; what is absent is taken as two channels of 24-bit integers. */
export type InspectedFormat = Pick<CaptureFormat, 'sampleRateHz'> & Partial<CaptureFormat>;

/** Loudest 0.1 s under this, dBFS rms: a converter and an idle preamp, no record. */
export const SILENT_DB = -80;
/** Loudest 0.1 s under this, dBFS rms: rounding to 16 bits (−98 dBFS) is no longer far below the leak of a good cartridge. */
const QUIET_DB = -50;
/** A channel this far under the other, dB, carries no signal of its own: no cartridge separates nearly so well. */
export const DEAD_BELOW_DB = 60;
/** What is left of right after its best copy of left is taken off, dB re right: no two generators agree so well. */
export const COPY_RESIDUE_DB = -70;
/** The same in steps of the samples, rms: a scaled copy that was rounded again, with dither, stays under it. */
export const COPY_RESIDUE_STEPS = 0.6;
/** Mean of a channel that is reported: −60 dBFS, which a sound converter keeps well under … */
const DC_OFFSET = 1e-3;
/** … and this share of the signal's rms, times the length in s: what a tone of 20 Hz or more leaves when cut off anywhere. */
const DC_LEFT_BY_CUT_S = 0.025;
/** At most so many regions of one kind are listed; with more, the nearest neighbours are joined. */
const MOST_REGIONS = 50;

/** A channel, over all frames. */
export interface InspectedChannel {
  readonly name: 'left' | 'right';
  readonly up: FlatTops;
  readonly down: FlatTops;
  readonly sum: number;
  readonly power: number;
  /** largest mean power of any level window */
  readonly loudest: number;
}

/** A recording, over all frames. */
export interface Inspected {
  readonly format: InspectedFormat;
  /** least difference of two samples */
  readonly step: number;
  readonly frames: number;
  /** samples that were no numbers */
  readonly replaced: number;
  /** sum of left times right */
  readonly product: number;
  readonly left: InspectedChannel;
  readonly right: InspectedChannel;
  readonly zeroRuns: ZeroRuns['runs'];
  /** from where on samples are made of the wrong bytes, null where none are */
  readonly slipFrame: number | null;
}

/** Everything found, gravest for the figures first. */
export function sampleProblems(seen: Inspected): Problem[] {
  const { frames, replaced, left, right, format } = seen;
  if (frames === 0) return [];
  const problems = [...slipped(seen), ...levelProblems(seen), ...clipping(seen), ...gaps(seen), ...offsets(seen)];
  if (replaced > 0) problems.push(problem('not-numbers', { count: replaced }));
  const peak = Math.max(...[left, right].flatMap(({ up, down }) => [up.extreme, down.extreme]));
  if (format.encoding === 'float' && peak > 1.0001) {
    problems.push(problem('above-full-scale', { peakDb: 20 * Math.log10(peak) }));
  }
  if (format.container === 'live') problems.push(...lengthProblems(frames / format.sampleRateHz));
  return problems;
}

function slipped({ slipFrame, frames, format: { sampleRateHz } }: Inspected): Problem[] {
  if (slipFrame === null) return [];
  const atS = slipFrame / sampleRateHz;
  return [problem('bytes-slip', { atS: atS.toFixed(1) }, { startS: atS, endS: frames / sampleRateHz })];
}

function levelProblems(seen: Inspected): Problem[] {
  const { left, right, frames, format } = seen;
  const offsetPower = ({ sum }: InspectedChannel): number => (sum / frames) ** 2;
  const level = (channel: InspectedChannel): number =>
    10 * Math.log10(Math.max(1e-30, channel.loudest - offsetPower(channel)));
  const [leftDb, rightDb] = [level(left), level(right)];
  const loudestDb = Math.max(leftDb, rightDb);
  const shown = loudestDb < -200 ? 'under −200' : showNumber(loudestDb, 0);
  if (loudestDb < SILENT_DB) return [problem('silent', { loudestDb: shown })];
  const problems: Problem[] = [];
  const mono = format.channels === 1;
  const below = Math.abs(leftDb - rightDb);
  if (!mono && below > DEAD_BELOW_DB) {
    const channel = leftDb < rightDb ? 'left' : 'right';
    problems.push(problem('dead-channel', { channel, belowDb: below > 200 ? 'more than 200' : below.toFixed(0) }));
  } else if (!mono) {
    problems.push(...copyProblem(seen));
  }
  if (loudestDb < QUIET_DB) problems.push(problem('quiet', { loudestDb: shown }));
  return problems;
}

/** Right as the best multiple of left, offsets removed; what is left over tells a copy from a second generator. */
function copyProblem({ left, right, frames: n, product, step }: Inspected): Problem[] {
  const ll = left.power - left.sum ** 2 / n;
  const rr = right.power - right.sum ** 2 / n;
  const lr = product - (left.sum * right.sum) / n;
  if (!(ll > 0 && rr > 0)) return [];
  const gain = lr / ll;
  const residue = rr - lr * gain;
  if (!(residue <= Math.max(rr * 10 ** (COPY_RESIDUE_DB / 10), n * (COPY_RESIDUE_STEPS * step) ** 2))) return [];
  const db = 20 * Math.log10(Math.abs(gain));
  const scaled = Math.abs(db) < 0.001 ? '' : `, ${showNumber(db, 2, true)} dB`;
  const relation = `${gain < 0 ? 'polarity inverted' : 'same polarity'}${scaled === '' ? ', same level' : scaled}`;
  return [problem('identical-channels', { relation })];
}

function clipping({ left, right, format }: Inspected): Problem[] {
  const rate = format.sampleRateHz;
  const mono = format.channels === 1;
  const found: (FlatRegion & { channels: Set<string> })[] = [];
  for (const channel of mono ? [left] : [left, right]) {
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

function gaps({ zeroRuns, format }: Inspected): Problem[] {
  const rate = format.sampleRateHz;
  const longest = LONGEST_DROP_S * rate;
  const lengthOf = (run: { startFrame: number; endFrame: number }): number => run.endFrame - run.startFrame;
  const drops = zeroRuns.filter((run) => lengthOf(run) <= longest).map((run) => ({ ...run, lost: lengthOf(run) }));
  const edits = zeroRuns.filter((run) => lengthOf(run) > longest);
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

function offsets({ left, right, frames: n, format }: Inspected): Problem[] {
  const durationS = n / format.sampleRateHz;
  const channels = format.channels === 1 ? [left] : [left, right];
  return channels.flatMap(({ name, sum, power }) => {
    const mean = sum / n;
    const rms = Math.sqrt(Math.max(0, power / n - mean * mean));
    const offset = Math.abs(mean) >= DC_OFFSET && Math.abs(mean) >= (DC_LEFT_BY_CUT_S / durationS) * rms;
    return offset ? [problem('dc-offset', { channel: name, percent: mean * 100 })] : [];
  });
}
