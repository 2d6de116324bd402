import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { aWeightingGain } from '../signal/aWeighting.ts';
import { countInterval } from '../signal/countInterval.ts';
import { statement } from '../words/statement.ts';
import { noiseFigures } from './noiseFigures.ts';
import { air, figureIn, groove, motor, noiseOf, passage, READ_ON, riaa, tones, under } from './noiseOfSide.fixture.ts';
import { partOf, type Quiet, quietOf } from './quietParts.fixture.ts';
import { weightedPower } from './quietSpectra.ts';
import type { PassageReading } from './sideReadings.ts';
import { sideOf } from './toneBands.fixture.ts';

describe('the electronics', () => {
  const air_ = (...parts: Quiet[]) => noiseOf(parts.map((part) => passage(quietOf('tip-up', [part]), null)));
  const on = (by: number): Quiet => ({ left: () => 2e-14 * by, lines: [[50, 1e-11, 1e-11]] });

  it('one state alone: noise with the tip up, without a word of the motor', () => {
    const told = air_(motor);
    const { power, spread } = weightedPower(partOf(motor), 'left', 20, 20_000, (hz) => riaa(hz) * aWeightingGain(hz));
    expect(figureIn(told, 'noise-a-weighted-tip-up')).toEqual({
      quantity: 'noise-a-weighted-tip-up',
      value: expect.closeTo(under('left', power), 9),
      unit: 'dB',
      uncertainty: expect.closeTo(((20 / Math.LN10) * spread) / power, 9),
      bands: [],
      channel: 'left',
      notes: [statement('noise-of-electronics'), READ_ON],
    });
    expect(told.findings.some(({ quantity }) => quantity === 'noise-a-weighted-motor-off')).toBe(false);
  });

  it('two states: by how much it is quieter with the motor off, heard from a decibel beyond chance on', () => {
    const note = (by: number) => figureIn(air_(on(by), air), 'noise-a-weighted-tip-up').notes[2];
    const told = air_(on(1), air);
    const apart =
      (figureIn(told, 'noise-a-weighted-motor-off').value as number) -
      (figureIn(told, 'noise-a-weighted-tip-up').value as number);
    expect(note(1)).toEqual({ code: 'noise-motor-alike', values: { db: expect.closeTo(apart, 9) } });
    let heard = 0;
    for (let db = 0.8; db < 1.6; db += 0.1) {
      const both = air_(on(10 ** (db / 10)), air);
      const [up, off] = ['noise-a-weighted-tip-up', 'noise-a-weighted-motor-off'].map((q) => figureIn(both, q));
      const quieter = (off.value as number) - (up.value as number);
      const isHeard = quieter > 1 + Math.hypot(up.uncertainty ?? 0, off.uncertainty ?? 0);
      expect(up.notes[2].code).toBe(isHeard ? 'noise-with-motor' : 'noise-motor-alike');
      heard += isHeard ? 1 : 0;
    }
    expect(heard).toBeGreaterThan(0);
    expect(heard).toBeLessThan(8);
  });

  it('of several stretches in one state the longest tells, in two the loudest and the quietest', () => {
    const longest = noiseOf([
      passage(quietOf('tip-up', [{ left: () => 3e-14 }], { seconds: 9 }), null),
      passage(quietOf('tip-up', [air], { seconds: 12 }), null),
      passage(quietOf('tip-up', [{ left: () => 4e-14 }], { seconds: 10 }), null),
    ]);
    const value = figureIn(longest, 'noise-a-weighted-tip-up').value;
    expect(value).toBe(figureIn(air_(air), 'noise-a-weighted-tip-up').value);
    const two = air_(air, on(2), { ...air, lines: [[50, 1e-12, 1e-12]] });
    expect(figureIn(two, 'noise-a-weighted-tip-up').value).toBe(figureIn(air_(on(2)), 'noise-a-weighted-tip-up').value);
  });
});

describe('which groove counts', () => {
  const loud: Quiet = { left: () => 1e-11 };
  const read = (...passages: PassageReading[]) => figureIn(noiseOf(passages), 'noise-a-weighted').bands[0];
  const one = (index: number, seconds: number, sheetBand: number | null, quiet = loud) =>
    passage(quietOf('groove', [quiet], { seconds }), index, sheetBand);

  it('what the record file has as silent first, then the longest', () => {
    expect(read(one(0, 30, null), one(1, 10, 4), one(2, 20, null))).toBe(1);
    expect(read(one(0, 10, 3), one(1, 30, null))).toBe(0);
    expect(read(one(0, 10, null), one(1, 30, null), one(2, 20, null))).toBe(1);
    expect(read(one(0, 10, 3), one(1, 12, 5))).toBe(1);
    expect(read(one(0, 12, 3), one(1, 12, 5))).toBe(0);
  });

  it('a stretch that lies in no band is read from none', () => {
    const told = noiseOf([passage(quietOf('groove', [loud]), null)]);
    expect(figureIn(told, 'noise-a-weighted').bands).toEqual([]);
    expect(told.curves[0]).not.toHaveProperty('band');
  });

  it('swapped channels are put right', () => {
    const told = noiseOf(
      [passage(quietOf('groove', [{ left: () => 1e-11, right: () => 1e-12, lines: [[50, 1e-8, 1e-9]] }]), 5)],
      { order: 'swapped' },
    );
    const plain = noiseOf([
      passage(quietOf('groove', [{ left: () => 1e-12, right: () => 1e-11, lines: [[50, 1e-9, 1e-8]] }]), 5),
    ]);
    expect(told).toEqual(plain);
  });
});

describe('clicks', () => {
  it('a minute, with the means that leave the count likely', () => {
    const told = noiseOf([passage(quietOf('groove', [groove], { clicks: 6, seconds: 45 }), 5)]);
    const { low, high } = countInterval(6);
    expect(figureIn(told, 'clicks-per-minute')).toEqual({
      quantity: 'clicks-per-minute',
      value: expect.closeTo(8, 12),
      unit: '1/min',
      uncertainty: expect.closeTo(((high - 6) * 60) / 45, 9),
      low: expect.closeTo((low * 60) / 45, 9),
      high: expect.closeTo((high * 60) / 45, 9),
      bands: [5],
      notes: [statement('clicks-counted', { clicks: 6, seconds: 45 })],
    });
  });
});

describe('what is not there', () => {
  it('nothing quiet gives nothing', () => {
    const none = { findings: [], problems: [], curves: [] };
    expect(noiseOf([])).toEqual(none);
    expect(noiseFigures(sideOf(tones), true)).toEqual(none);
    expect(
      noiseOf([
        { ...passage(quietOf('groove', [groove]), 5), readings: {} },
        { ...passage(quietOf('groove', [groove]), 5), readings: { quiet: null } },
      ]),
    ).toEqual(none);
  });

  it('without a reference clicks alone, and what is withheld for want of it', () => {
    const silent = passage(quietOf('groove', [groove], { clicks: 1 }), 5);
    const up = passage(quietOf('tip-up', [air]), null);
    const why = statement('no-reference-level');
    const told = noiseOf([silent, up], { tones: [] });
    expect(told.findings.map(({ quantity }) => quantity)).toEqual(['clicks-per-minute']);
    expect(told.problems).toEqual(
      ['hum', 'rumble-unweighted', 'rumble-weighted', 'noise-a-weighted'].map((q) => withheld(q, why)),
    );
    expect(told.curves).toEqual([]);
    const without = noiseOf([up], { tones: [] });
    expect(without).toEqual({ findings: [], problems: [withheld('hum-tip-up', why)], curves: [] });
  });

  it('a channel whose wall no tone tells is left out, the other told', () => {
    const told = noiseOf([passage(quietOf('groove', [groove]), 5), passage(quietOf('tip-up', [air]), null)], {
      tones: [tones[1]],
    });
    expect(told.problems).toEqual([]);
    expect(new Set(told.findings.map(({ channel }) => channel))).toEqual(new Set(['right', undefined]));
    expect(told.curves.map(({ channel }) => channel)).toEqual(['right', 'right']);
    const left = noiseOf([passage(quietOf('groove', [groove]), 5)], { tones: [tones[0]] });
    expect(left.curves.map(({ channel }) => channel)).toEqual(['left']);
  });

  it('silence that holds next to nothing is as far down as can be said, and no filter differs', () => {
    const finding = figureIn(noiseOf([passage(quietOf('groove', [{ left: () => 0 }]), 5)]), 'rumble-unweighted');
    expect(finding).toMatchObject({ value: 160, uncertainty: 0, low: 160, high: 160 });
  });
});
