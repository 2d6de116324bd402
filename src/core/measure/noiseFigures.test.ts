import { describe, expect, it } from 'vitest';
import { aWeightingGain } from '../signal/aWeighting.ts';
import { rumbleGain } from '../signal/rumbleWeighting.ts';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { air, figureIn, groove, motor, noiseOf, passage, READ_ON, riaa, under } from './noiseOfSide.fixture.ts';
import { partOf, type Quiet, quietOf } from './quietParts.fixture.ts';
import { weightedPower } from './quietSpectra.ts';

describe('noise of a side', () => {
  it('hum, rumble and surface noise of the groove, the electronics’ with the tip up, clicks, and their curves', () => {
    const told = noiseOf([
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
      const told = noiseOf([passage(quietOf('groove', [groove]), 5)], {}, flat);
      const { power, spread } = weightedPower(
        partOf(groove),
        channel,
        20,
        20_000,
        (hz) => (flat ? riaa(hz) : 1) * aWeightingGain(hz),
      );
      const finding = figureIn(told, 'noise-a-weighted', channel);
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
      const told = noiseOf([passage(quietOf('groove', [quiet]), 5)]);
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
      const finding = figureIn(told, `rumble-${weighting}`, channel);
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
      const finding = figureIn(noiseOf([passage(quietOf('groove', [quiet]), 5)]), 'rumble-unweighted');
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
      const told = noiseOf([
        passage(quietOf('groove', [quiet]), 5),
        ...(up === null ? [] : [passage(quietOf('tip-up', [up]), null)]),
      ]);
      return figureIn(told, 'rumble-unweighted').notes.filter(({ code }) => /^rumble-is/.test(code));
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
