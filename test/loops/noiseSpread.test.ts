/**
 * What chance leaves open of rumble and noise: powers that the estimator of quiet stretches sums, against noises whose spectra are known in
 * closed form, with and without mains lines. No reference level, no record: the spread alone, over many stretches.
 */
import { expect, it } from 'vitest';
import { dice, normal } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { QuietEstimator } from '../../src/core/measure/quietEstimator.ts';
import { spreadDb } from '../../src/core/measure/quietLevel.ts';
import { weightedPower } from '../../src/core/measure/quietSpectra.ts';
import { aWeightingGain } from '../../src/core/signal/aWeighting.ts';
import { rumbleGain } from '../../src/core/signal/rumbleWeighting.ts';

const RATE_HZ = 16_000;
const STRETCHES = Number(process.env.STRETCHES ?? 16);
const TAU = 2 * Math.PI;

/** Of y[n] = a y[n−1] + e[n], e of variance 1. */
const densityOf = (a: number, hz: number): number => 2 / RATE_HZ / (1 - 2 * a * Math.cos((TAU * hz) / RATE_HZ) + a * a);

type Figure = readonly [name: string, fromHz: number, toHz: number, gain: (hz: number) => number];
const FIGURES: readonly Figure[] = [
  ['rumble-unweighted', 2, 2000, (hz) => rumbleGain('unweighted', 'lines', hz)],
  ['rumble-weighted', 2, 2000, (hz) => rumbleGain('weighted', 'lines', hz)],
  ['noise-a-weighted', 20, 7000, aWeightingGain],
];

function stretch(seed: number, seconds: number, humSize: number) {
  const draw = dice(seed);
  const gauss = normal(draw);
  const [rumble, surface] = [10 ** draw(-3.2, -2.2), 10 ** draw(-2.4, -1.4)];
  const a = Math.exp((-TAU * draw(8, 25)) / RATE_HZ);
  const hum = [1, 2, 3, 5, 7].map((k) => ({
    hz: k * draw(49.95, 50.05),
    peak: (humSize * draw(0.3, 1) * surface) / k,
    phase: draw(0, TAU),
  }));
  const frames = seconds * RATE_HZ;
  const channel = (): Float64Array => {
    let y = (gauss(1) * rumble) / Math.sqrt(1 - a * a);
    return Float64Array.from({ length: frames }, (_, n) => {
      y = a * y + gauss(rumble);
      return hum.reduce(
        (sum, { hz, peak, phase }) => sum + peak * Math.sin((TAU * hz * n) / RATE_HZ + phase),
        y + gauss(surface),
      );
    });
  };
  const truth = (fromHz: number, toHz: number, gain: (hz: number) => number): number => {
    const STEP = 0.25;
    let power = 0;
    for (let hz = fromHz + STEP / 2; hz < toHz; hz += STEP) {
      power += (rumble ** 2 * densityOf(a, hz) + surface ** 2 * (2 / RATE_HZ)) * gain(hz) ** 2 * STEP;
    }
    return hum.reduce((sum, { hz, peak }) => sum + (peak ** 2 / 2) * gain(hz) ** 2, power);
  };
  const estimator = new QuietEstimator(RATE_HZ, 'groove');
  const [left, right] = [channel(), channel()];
  estimator.push({ startFrame: 0, frames, left, right });
  const reading = estimator.result();
  estimator.end();
  if (reading === null) throw new Error('a stretch this long is read');
  return { reading, truth };
}

it.each([
  ['noise alone', 10, 0],
  ['with mains lines', 10, 6],
  ['with mains lines, a short stretch', 3.2, 6],
])('%s: what is said of chance is the scatter', { timeout: 900_000 }, (name, seconds, hum) => {
  const tallies = new Map(FIGURES.map(([figure]) => [figure, new Tally()]));
  for (let seed = 1; seed <= STRETCHES; seed++) {
    const { reading, truth } = stretch(61_000 + seed, seconds, hum);
    for (const [figure, fromHz, toHz, gain] of FIGURES) {
      const is = 10 * Math.log10(truth(fromHz, toHz, gain));
      for (const channel of ['left', 'right'] as const) {
        const { power, spread } = weightedPower(reading.parts[0], channel, fromHz, toHz, gain);
        tallies.get(figure)?.add(10 * Math.log10(power), spreadDb(power, spread), is);
      }
    }
  }
  console.log([`${name}, ${seconds} s`, ...[...tallies].map(([figure, tally]) => tally.line(figure, 'dB'))].join('\n'));
  // an rms of n draws is known to 1/√2n: three of these beside 0.75 and 1.25
  const slack = 1 + 3 / Math.sqrt(4 * STRETCHES);
  for (const [figure, tally] of tallies) {
    expect(tally.normalised, figure).toBeLessThan(1.25 * slack);
    expect(tally.objection, figure).toBeNull();
    expect(tally.normalised, figure).toBeGreaterThan(0.75 / slack);
  }
});
