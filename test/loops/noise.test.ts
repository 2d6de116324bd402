/**
 * Hum, rumble and surface noise against decks whose noises are known, band edges as the finder hears them. As captured by the signal's ±; of the deck, the
 * level of the record and the chain's low corner drawn as the table of defaults has them, by the whole interval.
 */
import { expect, it } from 'vitest';
import { dice, normal } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { ASSUMED } from '../../src/core/advise/budget/defaults.ts';
import type { Finding } from '../../src/core/measure/finding.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const sheet = {
  schema: 1,
  name: 'Two tones and silence',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 130, durationS: 2.5 },
    { signal: 'tone', motion: 'right', frequencyHz: 1000, peakVelocityCmS: 8, radiusMm: 128, durationS: 2.5 },
    { signal: 'silent-groove', motion: 'none', radiusMm: 110, durationS: 12 },
  ],
} as const;

/** dB re 1 kHz, IEC 61672-1 Annex E, written out once more. */
function aWeight(hz: number): number {
  const r = (f: number): number =>
    (12194.217148 ** 2 * f ** 4) /
    ((f * f + 20.598997058 ** 2) *
      Math.sqrt((f * f + 107.652648643 ** 2) * (f * f + 737.862230736 ** 2)) *
      (f * f + 12194.217148 ** 2));
  return 20 * Math.log10(r(hz) / r(1000));
}

const SEEDS = Number(process.env.NOISE_SEEDS ?? 6);

function deckOf(seed: number) {
  const draw = dice(seed + 40);
  const hidden = dice(seed + 14_040);
  const angle = (): number => draw(-180, 180);
  const humDb = draw(-72, -46);
  const lines = (db: number) =>
    [1, 2, 3, 4, 5, 6, 7].map((harmonic) => ({
      harmonic,
      leftDb: db - draw(0, 12) - 8 * Math.log10(harmonic),
      rightDb: db - draw(0, 12) - 8 * Math.log10(harmonic),
      leftPhaseDeg: angle(),
      rightPhaseDeg: angle(),
    }));
  return {
    platter: { speedErrorPercent: draw(-0.5, 0.5) },
    record: {
      surfaceNoiseDb: draw(-64, -48),
      clicksPerMinute: draw(0, 60),
      clickDb: draw(-6, 10),
      surfaceCorrelation: draw(-0.5, 0.5),
      cut: { levelDb: normal(hidden)(ASSUMED.recordVelocity.size / 2) },
    },
    bearing: { rumbleLateralDb: draw(-58, -36), rumbleVerticalDb: draw(-58, -36) },
    arm: { lateralResonance: { hz: draw(8, 12), q: 2 }, verticalResonance: { hz: draw(8, 12), q: 2 } },
    cartridge: { tiltDeg: draw(-1, 1), gainDb: { left: draw(-1, 1), right: draw(-1, 1) } },
    preamp: {
      equalisation: seed % 4 === 3 ? 'flat' : 'riaa',
      mainsHz: seed % 2 === 0 ? 50 : 60,
      hum: lines(humDb),
      motorHum: seed % 3 === 0 ? lines(humDb + 12) : [],
      motorOnAtS: 2.5,
      noiseDb: draw(-86, -76),
      lowCornerHz: hidden(0.1, ASSUMED.lowCorner.size),
    },
    converter: { offsetPercent: { left: 0.3, right: -0.1 }, bits: 24 },
    side: { beforeDropS: 5, leadInS: 0.8, gapS: 0.6, leadOutS: 0.5, afterLiftS: 0 },
  } as const;
}

it('reads hum, rumble and noise of every state within what it says', {
  timeout: Math.max(600_000, 120_000 * SEEDS),
}, async () => {
  const tallies = new Map<string, Tally>();
  const ofDeck = (
    name: string,
    found: Pick<Finding, 'value' | 'uncertainty' | 'low' | 'high'> | undefined,
    truth: number,
  ) => {
    const tally = tallies.get(name) ?? new Tally();
    tallies.set(name, tally);
    const value = found?.value as number;
    // an interval: its half towards the truth
    const half =
      truth < value
        ? value - (found?.low ?? value - found!.uncertainty!)
        : (found?.high ?? value + found!.uncertainty!) - value;
    tally.add(value, half, truth);
  };
  const add = (name: string, found: { value: unknown; repeatability?: number | null } | undefined, truth: number) => {
    const tally = tallies.get(name) ?? new Tally();
    tallies.set(name, tally);
    tally.add(found?.value as number | undefined, found?.repeatability, truth);
  };
  for (let seed = 1; seed <= SEEDS; seed++) {
    const deck = deckOf(seed);
    const { recording, truth } = virtualCapture(deck, sheet, seed % 3 === 1 ? 48_000 : 44_100, seed);
    const flat = deck.preamp.equalisation === 'flat';
    const { document } = await examineRecording(recording, { sheet, flat });
    const find = (quantity: string, channel: 'left' | 'right') =>
      document.findings.find((f) => f.quantity === quantity && f.channel === channel);
    for (const channel of ['left', 'right'] as const) {
      const band = truth.bands.find((b) => b.motion === channel)!;
      const velocity = channel === 'left' ? 5 : 8;
      const reference = band[channel]!.levelDbfs - 20 * Math.log10(velocity / 5);
      const sine = (list: readonly { leftDb: number; rightDb: number }[]): number =>
        list.reduce((sum, line) => sum + 10 ** (line[`${channel}Db`] / 10), 0);
      const off = sine(deck.preamp.hum);
      const on = off + sine(deck.preamp.motorHum);
      const humDb = (power: number): number => reference + 18 - 10 * Math.log10(power);
      const moved = deck.preamp.motorHum.length > 0;
      // the lines' phases at both sources differ: the sum of two lines of one frequency is no sum of powers
      if (!flat && !moved) {
        add('hum', find('hum', channel), humDb(on));
        add('hum-tip-up', find('hum-tip-up', channel), humDb(on));
      }
      if (!flat && moved) add('hum-motor-off', find('hum-motor-off', channel), humDb(off));
      if (!moved) expect(find('hum-motor-off', channel), `seed ${seed}`).toBeUndefined();
      if (!flat && !moved) {
        add(
          'rumble-unweighted',
          find('rumble-unweighted', channel),
          reference - truth.noise.rumbleDbfs.unweighted[channel],
        );
        add('rumble-weighted', find('rumble-weighted', channel), reference - truth.noise.rumbleDbfs.weighted[channel]);
        const asStated = reference - deck.record.cut.levelDb;
        for (const weighting of ['unweighted', 'weighted'] as const) {
          const name = `rumble-${weighting}`;
          const power = truth.noise.rumbleOfDeckDbfs[weighting][channel];
          ofDeck(`${name}, deck`, find(name, channel), asStated - power);
        }
        // the deck's truth of it is without the hum
        const humA = deck.preamp.hum.reduce(
          (sum, line) => sum + 10 ** ((line[`${channel}Db`] - 18 + aWeight(line.harmonic * deck.preamp.mainsHz)) / 10),
          0,
        );
        const noise = 10 ** (truth.noise.aWeightedDbfs[channel] / 10);
        add('noise-a-weighted', find('noise-a-weighted', channel), reference - 10 * Math.log10(noise + humA));
        ofDeck('noise-a-weighted, deck', find('noise-a-weighted', channel), asStated - 10 * Math.log10(noise + humA));
        const air = 10 ** (truth.noise.tipUpAWeightedDbfs / 10);
        add(
          'noise-a-weighted-tip-up',
          find('noise-a-weighted-tip-up', channel),
          reference - 10 * Math.log10(air + humA),
        );
      }
      // both sources of the mains have their own phases: their lines add as phasors
      if (!flat && moved) {
        const power = (of: readonly { harmonic: number }[][]): number =>
          [1, 2, 3, 4, 5, 6, 7].reduce((sum, harmonic) => {
            let [re, im] = [0, 0];
            for (const line of of.flat() as (typeof deck.preamp.hum)[number][]) {
              if (line.harmonic !== harmonic) continue;
              const size = 10 ** ((line[`${channel}Db`] - 18 + aWeight(harmonic * deck.preamp.mainsHz)) / 20);
              const phase = (line[`${channel}PhaseDeg`] * Math.PI) / 180;
              re += size * Math.cos(phase);
              im += size * Math.sin(phase);
            }
            return sum + re * re + im * im;
          }, 0);
        const air = 10 ** (truth.noise.tipUpAWeightedDbfs / 10);
        const { hum, motorHum } = deck.preamp;
        const level = (of: readonly { harmonic: number }[][]): number => reference - 10 * Math.log10(air + power(of));
        add('noise-a-weighted-tip-up', find('noise-a-weighted-tip-up', channel), level([hum, motorHum]));
        add('noise-a-weighted-motor-off', find('noise-a-weighted-motor-off', channel), level([hum]));
      }
      if (!moved) expect(find('noise-a-weighted-motor-off', channel), `seed ${seed}`).toBeUndefined();
      if (flat) expect(find('noise-a-weighted', channel), `seed ${seed}`).toBeDefined();
    }
    const clicks = document.findings.find((f) => f.quantity === 'clicks-per-minute');
    const silent = truth.bands[2];
    const within = truth.clicksAtS.filter((at) => at > silent.startS && at < silent.endS).length;
    add('clicks-per-minute', clicks, within * 5);
  }
  console.log(
    [...tallies].map(([name, tally]) => tally.line(name, name === 'clicks-per-minute' ? '1/min' : 'dB')).join('\n'),
  );
  expect([...tallies.keys()].sort()).toHaveLength(12);
  for (const [name, tally] of tallies) {
    expect(tally.objection, name).toBeNull();
    if (name.endsWith('deck')) continue;
    // what chance leaves of a mean, and a tenth; two clicks within 60 ms are heard as one
    const chance = 0.1 + (2.5 * tally.spread) / Math.sqrt(tally.count);
    expect(Math.abs(tally.bias), name).toBeLessThan(name === 'clicks-per-minute' ? 6 : chance);
  }
});
