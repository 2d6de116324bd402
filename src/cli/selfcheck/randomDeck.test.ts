/** Draws of a practice deck: what each may be, held against many seeds, and the same deck for the same seed. */
import { describe, expect, it } from 'vitest';
import { readDeck } from '../../core/deck/deck.ts';
import { dice, normal, randomDeck } from './randomDeck.ts';

const SEEDS = 400;
const manyDecks = () => Array.from({ length: SEEDS }, (_, i) => randomDeck(1000 + i));
type Deck = ReturnType<typeof randomDeck>;

describe('dice', () => {
  it('fall evenly between their bounds, the same for a seed and others for another', () => {
    const thrown = (seed: number, count: number) => {
      const draw = dice(seed);
      return Array.from({ length: count }, () => draw(-1, 3));
    };
    const many = thrown(5, 4000);
    expect(thrown(5, 50)).toEqual(many.slice(0, 50));
    expect(thrown(6, 50)).not.toEqual(many.slice(0, 50));
    for (const value of many) expect(value >= -1 && value < 3).toBe(true);
    const [mean, square] = [1, 2].map((power) => many.reduce((sum, v) => sum + v ** power, 0) / many.length);
    // of an even distribution: its middle, and the width squared by twelve
    expect(mean).toBeCloseTo(1, 1);
    expect(Math.abs(square - mean ** 2 - 16 / 12)).toBeLessThan(0.06);
    const quarters = [-1, 0, 1, 2].map((low) => many.filter((v) => v >= low && v < low + 1).length);
    for (const count of quarters) expect(Math.abs(count - 1000)).toBeLessThan(100);
    // one draw says nothing of the next
    const together = many.slice(1).reduce((sum, v, i) => sum + (v - 1) * (many[i] - 1), 0) / many.length;
    expect(Math.abs(together)).toBeLessThan(0.08);
    expect(dice(2 ** 32 + 5)(0, 1)).toBe(dice(5)(0, 1));
    expect(dice(-1)(0, 1)).toBe(dice(2 ** 32 - 1)(0, 1));
  });

  it('the first draws are those that every figure published so far was counted with', () => {
    const draw = dice(7_000_000);
    expect([draw(0, 1), draw(0, 1), draw(0, 1)].map((v) => v.toFixed(9))).toMatchInlineSnapshot(`
      [
        "0.042449348",
        "0.364641207",
        "0.871319655",
      ]
    `);
  });

  it('make normal numbers of the standard deviation that is asked for', () => {
    const gauss = normal(dice(3));
    const many = Array.from({ length: 6000 }, () => gauss(2));
    const mean = many.reduce((a, b) => a + b, 0) / many.length;
    const spread = Math.sqrt(many.reduce((sum, v) => sum + (v - mean) ** 2, 0) / many.length);
    expect(Math.abs(mean)).toBeLessThan(0.08);
    expect(Math.abs(spread - 2)).toBeLessThan(0.06);
    // 68.3 and 95.4 % within one and two
    for (const [k, share] of [
      [1, 0.683],
      [2, 0.954],
    ]) {
      expect(Math.abs(many.filter((v) => Math.abs(v) < 2 * k).length / many.length - share)).toBeLessThan(0.02);
    }
  });
});

/** Least and largest that a figure may be; each is reached to a tenth of the width by some deck of many. */
const RANGES: Readonly<Record<string, readonly [low: number, high: number, of: (deck: Deck) => number]>> = {
  speedError: [-0.5, 0.5, (d) => d.platter.speedErrorPercent],
  firstWow: [0, 0.08, (d) => d.platter.wow[0].percent],
  secondWow: [0, 0.03, (d) => d.platter.wow[1].percent],
  wowPhase: [-180, 180, (d) => d.platter.wow[0].phaseDeg],
  slowFlutterHz: [4, 12, (d) => d.platter.flutter[0].hz],
  fastFlutterHz: [20, 110, (d) => d.platter.flutter[1].hz],
  slowFlutter: [0, 0.03, (d) => d.platter.flutter[0].percent],
  fastFlutter: [0, 0.03, (d) => d.platter.flutter[1].percent],
  drift: [0, 0.006, (d) => d.platter.driftPercent],
  startAngle: [-180, 180, (d) => d.platter.startAngleDeg],
  offCentre: [0, 0.3, (d) => d.record.offCentreMm],
  surfaceNoise: [-62, -44, (d) => d.record.surfaceNoiseDb],
  surfaceCorrelation: [-0.5, 0.8, (d) => d.record.surfaceCorrelation],
  clicks: [0, 90, (d) => d.record.clicksPerMinute],
  clickDb: [-6, 14, (d) => d.record.clickDb],
  groovePitch: [0.05, 0.15, (d) => d.record.groovePitchMm as number],
  rumbleLateral: [-60, -38, (d) => d.bearing.rumbleLateralDb],
  rumbleVertical: [-60, -38, (d) => d.bearing.rumbleVerticalDb],
  trackingError: [-2, 2, (d) => d.arm.trackingErrorDeg],
  pivotHeight: [4, 20, (d) => d.arm.pivotHeightMm],
  dropLateral: [-60, 60, (d) => d.arm.dropUm.lateral],
  dropVertical: [10, 80, (d) => d.arm.dropUm.vertical],
  verticalAngle: [16, 26, (d) => d.arm.verticalAngleDeg],
  lateralHz: [7, 13, (d) => d.arm.lateralResonance.hz],
  verticalHz: [7, 13, (d) => d.arm.verticalResonance.hz],
  lateralQ: [1, 4, (d) => d.arm.lateralResonance.q],
  verticalQ: [1, 4, (d) => d.arm.verticalResonance.q],
  tilt: [-3, 3, (d) => d.cartridge.tiltDeg],
  leftLeak: [-38, -26, (d) => d.cartridge.leftIntoRight.db],
  rightLeak: [-38, -26, (d) => d.cartridge.rightIntoLeft.db],
  gainLeft: [-1.5, 1.5, (d) => d.cartridge.gainDb.left],
  gainRight: [-1.5, 1.5, (d) => d.cartridge.gainDb.right],
  secondLeft: [-1, 1, (d) => d.cartridge.secondHarmonicPercent.left],
  secondRight: [-1, 1, (d) => d.cartridge.secondHarmonicPercent.right],
  thirdLeft: [-0.15, 0.15, (d) => d.cartridge.thirdHarmonicPercent.left],
  thirdRight: [-0.15, 0.15, (d) => d.cartridge.thirdHarmonicPercent.right],
  bendLeft: [-0.3, 0.3, (d) => d.cartridge.displacementBendPercent.left],
  bendRight: [-0.3, 0.3, (d) => d.cartridge.displacementBendPercent.right],
  tipRadius: [6, 18, (d) => d.cartridge.tipRadiusUm],
  skew: [-3, 3, (d) => d.cartridge.stylusSkewDeg],
  contactWidth: [0, 30, (d) => d.cartridge.contactWidthUm],
  preampLeft: [-0.5, 0.5, (d) => d.preamp.gainDb.left],
  preampRight: [-0.5, 0.5, (d) => d.preamp.gainDb.right],
  delay: [-25, 25, (d) => d.preamp.rightDelayUs],
  noise: [-80, -60, (d) => d.preamp.noiseDb],
  offsetLeft: [-0.2, 0.2, (d) => d.converter.offsetPercent.left],
  offsetRight: [-0.2, 0.2, (d) => d.converter.offsetPercent.right],
};

describe('a deck at random', () => {
  it('has every figure within its bounds, and near both in some deck', () => {
    const decks = manyDecks();
    for (const [name, [low, high, of]] of Object.entries(RANGES)) {
      const values = decks.map(of);
      const [least, most, near] = [Math.min(...values), Math.max(...values), 0.1 * (high - low)];
      expect([name, least >= low, most <= high]).toEqual([name, true, true]);
      expect([name, least < low + near, most > high - near]).toEqual([name, true, true]);
    }
  });

  it('has what may be there or not in its share of decks', () => {
    const decks = manyDecks();
    const share = (of: (deck: Deck) => boolean): number => decks.filter(of).length / SEEDS;
    const shares: [number, (deck: Deck) => boolean][] = [
      [0.5, (d) => d.platter.driftPercent === 0],
      [0.5, (d) => d.record.clicksPerMinute === 0],
      [0.5, (d) => d.preamp.rightDelayUs === 0],
      [0.5, (d) => d.preamp.mainsHz === 50],
      [0.5, (d) => d.preamp.hum.length === 6],
      [0.5, (d) => d.preamp.hum.length === 22],
      [0.15, (d) => d.leads.leftInverted],
      [0.3, (d) => d.converter.bits === 16],
      [0.7, (d) => d.converter.bits === 24],
      [0.2, (d) => Math.abs(d.arm.geometry.spindleToPivotMm - 222) < 1],
      [0.2, (d) => d.arm.geometry.spindleToPivotMm === 200],
    ];
    for (const [expected, of] of shares) expect(Math.abs(share(of) - expected)).toBeLessThan(0.1);
    expect(share((d) => d.record.clicksPerMinute > 0 && d.record.clicksPerMinute < 5)).toBe(0);
    expect(share((d) => d.preamp.mainsHz === 60 || d.preamp.mainsHz === 50)).toBe(1);
    expect(share((d) => d.leads.swapped || d.leads.rightInverted)).toBe(0);
  });

  it('stands on an arm whose length and offset lie within 1 of the one that it is', () => {
    const arms: Readonly<Record<number, readonly [number, number]>> = {
      ...{ 222: [239.296, 22.986], 211: [228.5, 23.9], 230: [246.8, 22.2], 290: [303.445, 17.936], 200: [218.5, 25.3] },
    };
    const beside = manyDecks().map(({ arm: { geometry } }) => {
      const [length, offset] = arms[geometry.spindleToPivotMm];
      return [geometry.effectiveLengthMm - length, geometry.offsetDeg - offset];
    });
    for (const place of [0, 1]) {
      const values = beside.map((pair) => pair[place]);
      expect(Math.min(...values)).toBeGreaterThanOrEqual(-1);
      expect(Math.max(...values)).toBeLessThanOrEqual(1);
      expect(Math.min(...values)).toBeLessThan(-0.9);
      expect(Math.max(...values)).toBeGreaterThan(0.9);
    }
  });

  it('hums in both channels on each harmonic from the first, softer as they rise, never louder than its hum', () => {
    const decks = manyDecks();
    for (const { preamp } of decks) {
      expect(preamp.hum.map(({ harmonic }) => harmonic)).toEqual(preamp.hum.map((_, i) => i + 1));
      for (const { harmonic, leftDb, rightDb } of preamp.hum) {
        for (const db of [leftDb, rightDb]) {
          expect(db).toBeLessThanOrEqual(-48 - 14 * Math.log10(harmonic));
          expect(db).toBeGreaterThanOrEqual(-75 - 14 - 14 * Math.log10(harmonic));
        }
      }
    }
    const first = decks.map(({ preamp }) => preamp.hum[0].leftDb);
    expect([Math.max(...first) > -53, Math.min(...first) < -84]).toEqual([true, true]);
    const apart = decks.map(({ preamp }) => preamp.hum[0].leftDb - preamp.hum[0].rightDb);
    expect(Math.max(...apart)).toBeGreaterThan(8);
  });

  it('plays a record of the usual distributions: half of all leaks under −35 dB, the rest normal', () => {
    const decks = manyDecks();
    const cuts = decks.map(({ record }) => (record as unknown as { cut: Cut }).cut);
    const median = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1];
    for (const leak of ['leftIntoRight', 'rightIntoLeft'] as const) {
      expect(Math.abs(median(cuts.map((cut) => cut[leak].db)) + 35)).toBeLessThan(1);
      for (const { [leak]: one } of cuts) expect(one.db).toBeGreaterThanOrEqual(-120);
      const phases = cuts.map((cut) => cut[leak].phaseDeg);
      expect([Math.min(...phases) < -160, Math.max(...phases) > 160]).toEqual([true, true]);
      expect(phases.every((deg) => Math.abs(deg) <= 180)).toBe(true);
    }
    const spreads: [keyof Omit<Cut, 'leftIntoRight' | 'rightIntoLeft'>, number][] = [
      ['levelDb', 0.5],
      ['balanceDb', 0.15],
      ['speedErrorPercent', 0.1],
      ['zenithDeg', 0.25],
      ['verticalAngleDeg', 1.5],
      ['secondHarmonicPercent', 0.15],
    ];
    for (const [name, spread] of spreads) {
      const values = cuts.map((cut) => cut[name]);
      const rms = Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / SEEDS);
      expect(Math.abs(rms / spread - 1), name).toBeLessThan(0.12);
      expect(Math.abs(values.filter((v) => v > 0).length / SEEDS - 0.5), name).toBeLessThan(0.1);
    }
    const warps = decks.map(({ record }) => record.warp[0].mm);
    expect(Math.min(...warps)).toBeGreaterThanOrEqual(0);
    expect(Math.abs(Math.sqrt(warps.reduce((sum, v) => sum + v * v, 0) / SEEDS) / 0.1 - 1)).toBeLessThan(0.12);
  });

  it('is what its seed says, one that can be played, and what a test fixes is as it says', () => {
    const decks = manyDecks();
    expect(randomDeck(1000)).toEqual(decks[0]);
    expect(randomDeck(1001)).not.toEqual(decks[0]);
    for (const deck of decks.slice(0, 20)) expect(() => readDeck(deck)).not.toThrow();
    const fixed = randomDeck(1000, { bits: 'float', record: 'faultless' });
    expect(fixed.converter.bits).toBe('float');
    expect(fixed.cartridge.contactWidthUm).toBe(0);
    expect(fixed.record).not.toHaveProperty('cut');
    expect(fixed.record).not.toHaveProperty('groovePitchMm');
    expect(randomDeck(1000, { record: 'uncertified' })).toEqual(decks[0]);
    expect(fixed.side).toEqual({ beforeDropS: 0.2, leadInS: 0.5, gapS: 0.4, leadOutS: 0.3, afterLiftS: 0.1 });
    expect([fixed.record.thumpDb, fixed.record.warp[0].harmonic]).toEqual([0, 1]);
    expect(fixed.platter.wow.map(({ harmonic }) => harmonic)).toEqual([1, 2]);
  });
});

interface Cut {
  readonly leftIntoRight: { readonly db: number; readonly phaseDeg: number };
  readonly rightIntoLeft: { readonly db: number; readonly phaseDeg: number };
  readonly levelDb: number;
  readonly balanceDb: number;
  readonly speedErrorPercent: number;
  readonly zenithDeg: number;
  readonly verticalAngleDeg: number;
  readonly secondHarmonicPercent: number;
}
