/**
 * Of the lines heard in a stretch those that one sweep makes: the law, log or linear, that the strongest of them follow over the longest time;
 * and its levels over frequency, 1/24 octave at a time.
 *
 *   log:  ln f = a + b s        linear:  f = a + b s
 */
import { median } from '../signal/robust.ts';
import type { SweepPoint, SweepReading, SweepSettings } from './sweepEstimator.ts';

/** A line of one spectrum; squared peaks. */
export interface HeardLine {
  /** s from the passage's start, the middle of its window */
  readonly s: number;
  readonly hz: number;
  readonly left: number;
  readonly right: number;
  readonly re: number;
  readonly im: number;
  /** of either channel, squared peak, beside the line */
  readonly noise: number;
  /** the same at the line's place while the sweep is elsewhere, as far as the stretch was heard */
  readonly noiseAtOtherTimes: () => number;
  readonly windowS: number;
  /** a line that moves faster than this is not wholly in it */
  readonly mostHzPerS: number;
}

export interface LineLaw {
  readonly law: 'log' | 'linear';
  readonly a: number;
  readonly b: number;
}

const hzAt = ({ law, a, b }: LineLaw, s: number): number => (law === 'log' ? Math.exp(a + b * s) : a + b * s);

const paceOf = (law: LineLaw, s: number): number => Math.abs(law.law === 'log' ? law.b * hzAt(law, s) : law.b);

/** a line is the law's where it lies within this, ratio: wow, and the windows' bins */
const TOLERANCE = 0.025;
/** s that lines are put together over, to see how long a law is followed */
const STEP_S = 0.1;
const PAIRS = 700;
/** of the stretch that a law must be followed through */
const LEAST_SHARE = 0.4;
const PER_OCTAVE = 24;

const powerOf = ({ left, right }: HeardLine): number => left + right;

export function followedLine(lines: readonly HeardLine[], { rising }: SweepSettings): SweepReading {
  const law = lawOf(lines, rising);
  if (law === null) return { law, points: [] };
  // the strongest of each spectrum; a line that passed faster than was expected lost some of its power
  const best = new Map<string, HeardLine>();
  for (const line of lines) {
    if (!isOn(law, line) || paceOf(law, line.s) > line.mostHzPerS) continue;
    const key = `${line.s} ${line.windowS}`;
    const before = best.get(key);
    if (before === undefined || powerOf(before) < powerOf(line)) best.set(key, line);
  }
  const steady = steadyLines(lines, law);
  const clear = [...best.values()].filter((line) => !isMixed(line, steady)).flatMap(withWholeNoise);
  return { law, points: pointsOf(clear).filter(({ spreadDb }) => spreadDb < MOST_SPREAD_DB) };
}

/** standard, dB: a level that noise leaves more unsure than this is none */
const MOST_SPREAD_DB = 0.6;

/** What lies there beside the sweep taken off, where beside the line it was less; nothing where nothing is left. */
function withWholeNoise(line: HeardLine): HeardLine[] {
  const noise = Math.max(line.noise, line.noiseAtOtherTimes());
  const more = noise - line.noise;
  const clear = { ...line, noise, left: Math.max(0, line.left - more), right: Math.max(0, line.right - more) };
  return powerOf(clear) > 0 ? [clear] : [];
}

const isOn = (law: LineLaw, { s, hz, windowS }: HeardLine): boolean => {
  const expected = hzAt(law, s);
  return expected > 0 && Math.abs(hz / expected - 1) < TOLERANCE + 1 / (windowS * expected);
};

interface SteadyLine {
  readonly hz: number;
  readonly power: number;
}

/** a line at one frequency through this much of the stretch is a pilot tone's, or the mains'; within this, ratio, it is one */
const STEADY_SHARE = 0.3;
const STEADY_RATIO = 0.006;
/** a steady line weaker than the sweep's by this, power, changes its level by no more than 0.15 dB */
const HARMLESS = 3e-4;

function steadyLines(lines: readonly HeardLine[], law: LineLaw): SteadyLine[] {
  const bins = new Map<number, HeardLine[]>();
  for (const line of lines) {
    if (isOn(law, line)) continue;
    const key = Math.round(Math.log(line.hz) / (2 * STEADY_RATIO));
    bins.set(key, [...(bins.get(key) ?? []), line]);
  }
  const lastS = Math.max(...lines.map(({ s }) => s));
  return [...bins.keys()].flatMap((key) => {
    // a line that lies between two bins is in both
    const of = [...(bins.get(key) ?? []), ...(bins.get(key + 1) ?? [])];
    // windows overlap by half
    if (of.reduce((sum, { windowS }) => sum + windowS / 2, 0) < STEADY_SHARE * lastS) return [];
    return [{ hz: median(of.map(({ hz }) => hz)), power: median(of.map(powerOf)) }];
  });
}

/** Whether a steady line lies among the bins that were summed. */
const isMixed = (line: HeardLine, steady: readonly SteadyLine[]): boolean =>
  steady.some(
    ({ hz, power }) =>
      power > HARMLESS * powerOf(line) && Math.abs(hz - line.hz) < line.mostHzPerS * line.windowS + 3 / line.windowS,
  );

/** Laws through pairs of lines, the best by how long, and how strongly, it is followed. */
function lawOf(lines: readonly HeardLine[], rising: boolean): LineLaw | null {
  if (lines.length < 8) return null;
  const steps = new Map<number, number>();
  const stepOf = (s: number): number => Math.floor(s / STEP_S);
  for (const line of lines) steps.set(stepOf(line.s), Math.max(steps.get(stepOf(line.s)) ?? 0, powerOf(line)));
  const weights = lines.map((line) => Math.sqrt(powerOf(line) / (steps.get(stepOf(line.s)) ?? 1)));
  const strong = lines.filter((_, i) => weights[i] > 0.1);
  const lastS = Math.max(...lines.map(({ s }) => s));
  const score = (law: LineLaw): number => {
    const best = new Map<number, number>();
    lines.forEach((line, i) => {
      if (isOn(law, line)) best.set(stepOf(line.s), Math.max(best.get(stepOf(line.s)) ?? 0, weights[i]));
    });
    return [...best.values()].reduce((a, b) => a + b, 0);
  };
  let best: { law: LineLaw; score: number } | null = null;
  let seed = 1;
  const next = (n: number): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((seed / 2 ** 32) * n);
  };
  const sample = thinned(lines, weights);
  for (let i = 0; i < PAIRS && strong.length > 1; i++) {
    const [p, q] = [strong[next(strong.length)], strong[next(strong.length)]];
    if (Math.abs(p.s - q.s) < 0.1 * lastS || (q.hz > p.hz !== q.s > p.s) === rising) continue;
    if (Math.abs(Math.log(p.hz / q.hz)) < 0.05) continue;
    const slope = (of: (hz: number) => number): number => (of(q.hz) - of(p.hz)) / (q.s - p.s);
    const log = slope(Math.log);
    const linear = slope((hz) => hz);
    for (const law of [
      { law: 'log', a: Math.log(p.hz) - log * p.s, b: log },
      { law: 'linear', a: p.hz - linear * p.s, b: linear },
    ] as const) {
      const rough = sample.reduce((sum, { line, weight }) => sum + (isOn(law, line) ? weight : 0), 0);
      if (best !== null && rough < 0.8 * best.score) continue;
      if (best === null || rough > best.score) best = { law, score: rough };
    }
  }
  if (best === null) return null;
  const fitted = refitted(lines, weights, refitted(lines, weights, best.law));
  const share = (score(fitted) * STEP_S) / Math.max(STEP_S, lastS);
  return share >= LEAST_SHARE * 0.3 && covered(lines, fitted, stepOf) * STEP_S >= LEAST_SHARE * lastS ? fitted : null;
}

const covered = (lines: readonly HeardLine[], law: LineLaw, stepOf: (s: number) => number): number =>
  new Set(
    lines
      .filter((line) => isOn(law, line))
      .flatMap(({ s, windowS }) => {
        const span = Math.ceil(windowS / 2 / STEP_S);
        return Array.from({ length: span }, (_, i) => stepOf(s) + i - (span >> 1));
      }),
  ).size;

/** The strongest lines of each step and frequency, so that a law is tried in little time; a long window stands for many steps. */
function thinned(lines: readonly HeardLine[], weights: readonly number[]) {
  const kept = new Map<string, { line: HeardLine; weight: number }>();
  lines.forEach((line, i) => {
    const key = `${Math.floor(line.s / STEP_S)} ${Math.round(8 * Math.log2(line.hz))}`;
    const weight = weights[i] * Math.max(1, line.windowS / 2 / STEP_S);
    const before = kept.get(key);
    if (before === undefined || before.weight < weight) kept.set(key, { line, weight });
  });
  return [...kept.values()];
}

/** Least squares of the law through what follows it. */
function refitted(lines: readonly HeardLine[], weights: readonly number[], law: LineLaw): LineLaw {
  const of = (hz: number): number => (law.law === 'log' ? Math.log(hz) : hz);
  let [w, x, y, xx, xy] = [0, 0, 0, 0, 0];
  lines.forEach((line, i) => {
    if (!isOn(law, line)) return;
    // relative to the frequency, also where the law is linear
    const weight = weights[i] / (law.law === 'log' ? 1 : line.hz ** 2);
    const v = of(line.hz);
    w += weight;
    x += weight * line.s;
    y += weight * v;
    xx += weight * line.s ** 2;
    xy += weight * line.s * v;
  });
  const spread = w * xx - x * x;
  if (!(spread > 0)) return law;
  const b = (w * xy - x * y) / spread;
  return { ...law, a: (y - b * x) / w, b };
}

const DB = 10 / Math.LN10;

function pointsOf(lines: readonly HeardLine[]): SweepPoint[] {
  const bins = new Map<number, HeardLine[]>();
  for (const line of lines) {
    const key = Math.floor(PER_OCTAVE * Math.log2(line.hz));
    const bin = bins.get(key);
    if (bin === undefined) bins.set(key, [line]);
    else bin.push(line);
  }
  return [...bins.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, bin]): SweepPoint => {
      // a click or a hum line that is passed lifts one spectrum; the middle one in level stands for the others
      const levels = bin.map((line) => DB * Math.log(powerOf(line)));
      const middle = median(levels);
      const near = bin.filter((_, i) => Math.abs(levels[i] - middle) < 1.5);
      const used = near.length === 0 ? bin : near;
      const mean = (of: (line: HeardLine) => number): number =>
        used.reduce((sum, line) => sum + of(line), 0) / used.length;
      const power = mean(powerOf);
      const noise = mean((line) => line.noise);
      // windows overlap by half
      const independent = Math.max(1, used.length * 0.6);
      const byNoise = (DB * Math.sqrt(4 * power * noise + 4 * noise ** 2)) / power;
      const scatter = used.length > 3 ? 1.4826 * median(levels.map((v) => Math.abs(v - middle))) : 0;
      return {
        hz: Math.exp(mean((line) => Math.log(line.hz))),
        left: mean((line) => line.left),
        right: mean((line) => line.right),
        re: mean((line) => line.re),
        im: mean((line) => line.im),
        spreadDb: Math.max(byNoise, scatter) / Math.sqrt(independent),
        noise,
        spectra: independent,
      };
    });
}
