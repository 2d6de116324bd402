import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { aWeightingGain } from '../signal/aWeighting.ts';
import { countInterval } from '../signal/countInterval.ts';
import { rumbleGain } from '../signal/rumbleWeighting.ts';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { noiseFigures } from './noiseFigures.ts';
import type { QuietReading } from './quietEstimator.ts';
import { partOf, type Quiet, quietOf } from './quietParts.fixture.ts';
import { weightedPower } from './quietSpectra.ts';
import type { PassageReading, SideReadings } from './sideReadings.ts';
import { bandOf, riaaOf, sideOf, toneOf } from './toneBands.fixture.ts';

/** 5 cm/s makes 0.1 in the left, 0.2 in the right */
const tones = (['left', 'right'] as const).map((driven, i) =>
  toneOf({
    hz: 1000,
    driven,
    logLevel: Math.log(0.1 * (i + 1)),
    cut: { signal: 'tone', motion: driven, peakVelocityCmS: 5 },
  }),
);
const AMPLITUDE = { left: 0.1, right: 0.2 };
const passage = (quiet: QuietReading, index: number | null, sheetBand: number | null = null): PassageReading => {
  const band = index === null ? null : bandOf({ index, sheetBand, signal: 'silent-groove', motion: 'none' });
  return { passage: { signal: 'silent-groove', startS: 0, endS: 20, band }, readings: { quiet } };
};
const of = (passages: PassageReading[], more: Partial<SideReadings> = {}, flat = true) =>
  noiseFigures(sideOf(tones, { passages, ...more }), flat);
const under = (channel: 'left' | 'right', power: number): number =>
  10 * Math.log10(AMPLITUDE[channel] ** 2 / 2 / power);
const in_ = (told: ReturnType<typeof of>, quantity: string, channel: 'left' | 'right' = 'left') => {
  const finding = told.findings.find((f) => f.quantity === quantity && (f.channel ?? channel) === channel);
  if (finding === undefined) throw new Error(`${quantity} is not there`);
  return finding;
};
const READ_ON = statement('under-reference', { hz: 1000 });
/** as captured flat: what playback would do */
const riaa = (hz: number): number => 10 ** (riaaOf(hz) / 20);

const groove: Quiet = { left: (hz) => 1e-10 / (1 + (hz / 30) ** 2) + 1e-13, right: (hz) => 3e-11 / (1 + hz / 100) };
const air: Quiet = { left: () => 2e-14 };
const motor: Quiet = { ...air, lines: [[50, 1e-9, 1e-9]] };

describe('noise of a side', () => {
  it('hum, rumble and surface noise of the groove, the electronics’ with the tip up, clicks, and their curves', () => {
    const told = of([
      passage(quietOf('groove', [groove], { clicks: 7, seconds: 40 }), 5),
      passage(quietOf('tip-up', [motor, air]), null),
    ]);
    expect(told.findings.map(({ quantity, channel, bands }) => [quantity, channel, bands])).toEqual([
      ['hum', 'left', [5]],
      ['hum', 'right', [5]],
      ['hum-tip-up', 'left', []],
      ['hum-tip-up', 'right', []],
      ['hum-motor-off', 'left', []],
      ['hum-motor-off', 'right', []],
      ['rumble-unweighted', 'left', [5]],
      ['rumble-weighted', 'left', [5]],
      ['noise-a-weighted', 'left', [5]],
      ['rumble-unweighted', 'right', [5]],
      ['rumble-weighted', 'right', [5]],
      ['noise-a-weighted', 'right', [5]],
      ['noise-a-weighted-tip-up', 'left', []],
      ['noise-a-weighted-motor-off', 'left', []],
      ['noise-a-weighted-tip-up', 'right', []],
      ['noise-a-weighted-motor-off', 'right', []],
      ['clicks-per-minute', undefined, [5]],
    ]);
    expect(told.problems).toEqual([]);
    expect(told.curves.map(({ quantity, channel, band }) => [quantity, channel, band])).toEqual([
      ['noise-spectrum', 'left', 5],
      ['noise-spectrum', 'right', 5],
      ['noise-spectrum-tip-up', 'left', undefined],
      ['noise-spectrum-tip-up', 'right', undefined],
      ['noise-spectrum-motor-off', 'left', undefined],
      ['noise-spectrum-motor-off', 'right', undefined],
    ]);
    expect(told.curves[2]).not.toHaveProperty('band');
    expect(told.curves[0]).toMatchObject({ xUnit: 'Hz', yUnit: 'dB' });
  });

  it.each(['left', 'right'] as const)('A-weighted noise of the %s, its ± by chance', (channel) => {
    for (const flat of [true, false]) {
      const told = of([passage(quietOf('groove', [groove]), 5)], {}, flat);
      const { power, spread } = weightedPower(
        partOf(groove),
        channel,
        20,
        20_000,
        (hz) => (flat ? riaa(hz) : 1) * aWeightingGain(hz),
      );
      const finding = in_(told, 'noise-a-weighted', channel);
      expect(finding.value).toBeCloseTo(under(channel, power), 9);
      expect(finding.uncertainty).toBeCloseTo(((20 / Math.LN10) * spread) / power, 9);
      expect(finding).toMatchObject({ unit: 'dB', notes: [statement('noise-of-groove'), READ_ON] });
    }
  });

  it.each([
    ['unweighted', 'left', groove],
    ['weighted', 'left', groove],
    ['weighted', 'right', groove],
    ['unweighted', 'left', { left: (hz: number) => 1e-9 / hz ** 3 + 1e-15 }],
    ['weighted', 'left', { left: (hz: number) => 1e-12 / (1 + ((hz - 300) / 30) ** 2) + 1e-16 }],
  ] as const)(
    'rumble %s of the %s: by straight lines; what filters would read and a low corner would hide is in the ±',
    (weighting, channel, quiet) => {
      const told = of([passage(quietOf('groove', [quiet]), 5)]);
      const summed = (shape: 'lines' | 'smooth', cornerHz = 0) =>
        weightedPower(
          partOf(quiet),
          channel,
          2,
          2000,
          (hz) => riaa(hz) * rumbleGain(weighting, shape, hz) * Math.sqrt(1 + (cornerHz / hz) ** 2),
        );
      const { power, spread } = summed('lines');
      const filtersDb = 10 * Math.log10(power / summed('smooth').power);
      const { size } = assumedInTests.lowCorner;
      const cornerDb = (2 / Math.sqrt(5)) * 10 * Math.log10(summed('lines', size).power / power);
      const own = ((20 / Math.LN10) * spread) / power;
      const value = under(channel, power);
      const finding = in_(told, `rumble-${weighting}`, channel);
      expect(finding.value).toBeCloseTo(value, 8);
      expect(finding.repeatability).toBeCloseTo(own, 9);
      expect(finding.uncertainty).toBeCloseTo(Math.hypot(own, filtersDb, cornerDb), 8);
      expect(finding.low).toBeCloseTo(value - Math.hypot(own, Math.min(0, filtersDb), cornerDb), 8);
      expect(finding.high).toBeCloseTo(value + Math.hypot(own, Math.max(0, filtersDb)), 8);
      const by = Math.abs(filtersDb) >= 0.5 ? ['rumble-by-filters'] : [];
      expect(finding.notes.map(({ code }) => code)).toEqual([`rumble-${weighting}-as`, ...by, 'under-reference']);
      if (by.length > 0) expect(finding.notes[1].values.db).toBeCloseTo(filtersDb, 8);
      expect(finding.unit).toBe('dB');
    },
  );

  it('filters are named from half a decibel on, to either side', () => {
    const signs = new Set<number>();
    for (const hz of [6, 12, 60, 300, 500]) {
      const quiet: Quiet = { left: (f) => 1e-10 / (1 + ((f - hz) / (hz / 20)) ** 4) + 1e-18 };
      const finding = in_(of([passage(quietOf('groove', [quiet]), 5)]), 'rumble-unweighted');
      const by = finding.notes.find(({ code }) => code === 'rumble-by-filters');
      const [a, b] = (['lines', 'smooth'] as const).map(
        (shape) =>
          weightedPower(partOf(quiet), 'left', 2, 2000, (f) => riaa(f) * rumbleGain('unweighted', shape, f)).power,
      );
      const db = 10 * Math.log10(a / b);
      expect(by !== undefined, `${hz} Hz: ${db} dB`).toBe(Math.abs(db) >= 0.5);
      signs.add(by === undefined ? 0 : Math.sign(db));
    }
    expect([...signs].sort()).toEqual([-1, 0, 1]);
  });

  it('says of rumble that it is hum, or there with the tip up, from half of its power on', () => {
    const noted = (quiet: Quiet, up: Quiet | null) => {
      const told = of([
        passage(quietOf('groove', [quiet]), 5),
        ...(up === null ? [] : [passage(quietOf('tip-up', [up]), null)]),
      ]);
      return in_(told, 'rumble-unweighted').notes.filter(({ code }) => /^rumble-is/.test(code));
    };
    const floor = (): number => 1e-12;
    const power = (quiet: Quiet): number =>
      weightedPower(partOf(quiet), 'left', 2, 2000, (hz) => riaa(hz) * rumbleGain('unweighted', 'lines', hz)).power;
    const noise = power({ left: floor });
    const line = (share: number): Quiet => {
      // a line at 100 Hz that makes up so much of the whole
      const square = (share / (1 - share)) * noise;
      return { left: floor, lines: [[100, square / riaa(100) ** 2, 0]] };
    };
    expect(noted(line(0.45), null)).toEqual([]);
    const [hum] = noted(line(0.6), null);
    expect(hum.code).toBe('rumble-is-hum');
    expect(hum.values.percent).toBeCloseTo(60, 0);
    const less = (share: number): Quiet => ({ left: () => share * 1e-12 });
    expect(noted({ left: floor }, less(0.49))).toEqual([]);
    const [electronics] = noted({ left: floor }, less(0.51));
    expect(electronics.code).toBe('rumble-is-electronics');
    expect(electronics.values.percent).toBeCloseTo(51, 6);
    expect(noted({ left: floor }, less(1.5))[0].values.percent).toBe(100);
    expect(noted(line(0.6), less(1.5)).map(({ code }) => code)).toEqual(['rumble-is-hum']);
  });
});

describe('the electronics', () => {
  const air_ = (...parts: Quiet[]) => of(parts.map((part) => passage(quietOf('tip-up', [part]), null)));
  const on = (by: number): Quiet => ({ left: () => 2e-14 * by, lines: [[50, 1e-11, 1e-11]] });

  it('one state alone: noise with the tip up, without a word of the motor', () => {
    const told = air_(motor);
    const { power, spread } = weightedPower(partOf(motor), 'left', 20, 20_000, (hz) => riaa(hz) * aWeightingGain(hz));
    expect(in_(told, 'noise-a-weighted-tip-up')).toEqual({
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
    const note = (by: number) => in_(air_(on(by), air), 'noise-a-weighted-tip-up').notes[2];
    const told = air_(on(1), air);
    const apart =
      (in_(told, 'noise-a-weighted-motor-off').value as number) -
      (in_(told, 'noise-a-weighted-tip-up').value as number);
    expect(note(1)).toEqual({ code: 'noise-motor-alike', values: { db: expect.closeTo(apart, 9) } });
    let heard = 0;
    for (let db = 0.8; db < 1.6; db += 0.1) {
      const both = air_(on(10 ** (db / 10)), air);
      const [up, off] = ['noise-a-weighted-tip-up', 'noise-a-weighted-motor-off'].map((q) => in_(both, q));
      const quieter = (off.value as number) - (up.value as number);
      const isHeard = quieter > 1 + Math.hypot(up.uncertainty ?? 0, off.uncertainty ?? 0);
      expect(up.notes[2].code).toBe(isHeard ? 'noise-with-motor' : 'noise-motor-alike');
      heard += isHeard ? 1 : 0;
    }
    expect(heard).toBeGreaterThan(0);
    expect(heard).toBeLessThan(8);
  });

  it('of several stretches in one state the longest tells, in two the loudest and the quietest', () => {
    const longest = of([
      passage(quietOf('tip-up', [{ left: () => 3e-14 }], { seconds: 9 }), null),
      passage(quietOf('tip-up', [air], { seconds: 12 }), null),
      passage(quietOf('tip-up', [{ left: () => 4e-14 }], { seconds: 10 }), null),
    ]);
    const value = in_(longest, 'noise-a-weighted-tip-up').value;
    expect(value).toBe(in_(air_(air), 'noise-a-weighted-tip-up').value);
    const two = air_(air, on(2), { ...air, lines: [[50, 1e-12, 1e-12]] });
    expect(in_(two, 'noise-a-weighted-tip-up').value).toBe(in_(air_(on(2)), 'noise-a-weighted-tip-up').value);
  });
});

describe('which groove counts', () => {
  const loud: Quiet = { left: () => 1e-11 };
  const read = (...passages: PassageReading[]) => in_(of(passages), 'noise-a-weighted').bands[0];
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
    const told = of([passage(quietOf('groove', [loud]), null)]);
    expect(in_(told, 'noise-a-weighted').bands).toEqual([]);
    expect(told.curves[0]).not.toHaveProperty('band');
  });

  it('swapped channels are put right', () => {
    const told = of(
      [passage(quietOf('groove', [{ left: () => 1e-11, right: () => 1e-12, lines: [[50, 1e-8, 1e-9]] }]), 5)],
      { order: 'swapped' },
    );
    const plain = of([
      passage(quietOf('groove', [{ left: () => 1e-12, right: () => 1e-11, lines: [[50, 1e-9, 1e-8]] }]), 5),
    ]);
    expect(told).toEqual(plain);
  });
});

describe('clicks', () => {
  it('a minute, with the means that leave the count likely', () => {
    const told = of([passage(quietOf('groove', [groove], { clicks: 6, seconds: 45 }), 5)]);
    const { low, high } = countInterval(6);
    expect(in_(told, 'clicks-per-minute')).toEqual({
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
    expect(of([])).toEqual(none);
    expect(noiseFigures(sideOf(tones), true)).toEqual(none);
    expect(
      of([
        { ...passage(quietOf('groove', [groove]), 5), readings: {} },
        { ...passage(quietOf('groove', [groove]), 5), readings: { quiet: null } },
      ]),
    ).toEqual(none);
  });

  it('without a reference clicks alone, and what is withheld for want of it', () => {
    const silent = passage(quietOf('groove', [groove], { clicks: 1 }), 5);
    const up = passage(quietOf('tip-up', [air]), null);
    const why = statement('no-reference-level');
    const told = of([silent, up], { tones: [] });
    expect(told.findings.map(({ quantity }) => quantity)).toEqual(['clicks-per-minute']);
    expect(told.problems).toEqual(
      ['hum', 'rumble-unweighted', 'rumble-weighted', 'noise-a-weighted'].map((q) => withheld(q, why)),
    );
    expect(told.curves).toEqual([]);
    const without = of([up], { tones: [] });
    expect(without).toEqual({ findings: [], problems: [withheld('hum-tip-up', why)], curves: [] });
  });

  it('a channel whose wall no tone tells is left out, the other told', () => {
    const told = of([passage(quietOf('groove', [groove]), 5), passage(quietOf('tip-up', [air]), null)], {
      tones: [tones[1]],
    });
    expect(told.problems).toEqual([]);
    expect(new Set(told.findings.map(({ channel }) => channel))).toEqual(new Set(['right', undefined]));
    expect(told.curves.map(({ channel }) => channel)).toEqual(['right', 'right']);
    const left = of([passage(quietOf('groove', [groove]), 5)], { tones: [tones[0]] });
    expect(left.curves.map(({ channel }) => channel)).toEqual(['left']);
  });

  it('silence that holds next to nothing is as far down as can be said, and no filter differs', () => {
    const finding = in_(of([passage(quietOf('groove', [{ left: () => 0 }]), 5)]), 'rumble-unweighted');
    expect(finding).toMatchObject({ value: 160, uncertainty: 0, low: 160, high: 160 });
  });
});
