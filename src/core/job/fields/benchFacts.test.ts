import { describe, expect, test } from 'vitest';
import { benchBounds } from '../../units/benchBounds.ts';
import { said } from '../../words/said.fixture.ts';
import { demoArm, demoParts } from '../demoParts.ts';
import { partFields } from '../partFields.ts';
import type { Part } from '../parts.ts';
import { type StationName, stationNames } from '../station.ts';
import { freshStations } from '../stationState.ts';
import { linesOf, modelOf, typedOf } from '../stations/index.ts';
import { rowFields } from '../stations/tilt/meter.ts';
import { massFields } from '../stations/weigh/weighData.ts';
import { benchAt, inputOf, type StationsTyped } from './benchFacts.ts';
import type { Declared } from './declared.ts';
import type { Field } from './field.ts';
import { type ForceUnit, forceWithin, withUnit } from './force.ts';
import { readQuantity } from './quantity.ts';

const match = {
  parts: { arm: { id: null, revision: 0, part: demoArm } },
  typed: { hardwareMassG: '1.2' },
};
/** A job in which this is typed and nothing else. */
function jobOf(data: Partial<Record<StationName, object>>): Parameters<typeof typedOf>[0] {
  const fresh = freshStations('2026-03-04T09:00:00.000Z');
  const stations = Object.fromEntries(stationNames.map((name) => [name, { ...fresh[name], data: data[name] ?? {} }]));
  return { stations: stations as typeof fresh, captures: [], practice: false, fittings: [], shop: {} };
}
const readTip = (text: string | undefined, unit: ForceUnit) => readQuantity(text, benchBounds.tipForceMn, unit);

describe('where a figure comes from', () => {
  test('typed here, then at another station, then Fit, then Match', () => {
    const stations: StationsTyped = {
      match,
      weigh: { facts: { stubToMm: '60' } },
      height: { facts: { effectiveLengthMm: '230 ± 1 mm' } },
      fit: { massBy: 'weighed', weighed: '0.8' },
    };
    const { facts, behind } = benchAt('height', stations);
    expect(facts.effectiveLengthMm).toEqual({ value: 230, uncertainty: 1, from: 'typed here' });
    expect(behind('effectiveLengthMm')).toEqual({ value: demoArm.effectiveLengthMm, from: 'from Match' });
    expect(facts.stubToMm).toEqual({ value: 60, from: 'typed at Weigh' });
    expect(facts.hardwareMassG).toEqual({ value: 0.8, from: 'from Fit' });
    expect(facts.stubFromMm).toEqual({ value: demoArm.stubFromMm, from: 'from Match' });
    expect(benchAt('height', { ...stations, fit: {} }).facts.hardwareMassG).toEqual({ value: 1.2, from: 'from Match' });
    expect(facts.verticalAngleDeg).toBeUndefined();
  });

  test('spindle to pivot typed at Match reaches Place, and typed at Place the others', () => {
    const typed = { match: { ...match, typed: { spindleToPivotMm: '222 mm' } } };
    expect(benchAt('place', typed).facts.spindleToPivotMm).toEqual({ value: 222, from: 'from Match' });
    const place = { arm: { spindleToPivot: '221,5' } };
    expect(benchAt('weigh', { ...typed, place }).facts.spindleToPivotMm).toEqual({
      value: 221.5,
      from: 'typed at Place',
    });
    expect(benchAt('place', { ...typed, place }).behind('spindleToPivotMm')?.value).toBe(222);
    expect(
      benchAt('weigh', { ...typed, place: { arm: { ...place.arm, known: 'overhang' } } }).facts.spindleToPivotMm,
    ).toEqual({ value: 222, from: 'from Match' });
  });

  test('a screw set replaced at Match changes the mass that Fit works out, with nobody opening Fit', () => {
    const set = demoParts.find((part) => part.name === 'light screws and nuts') as Part & { screwLengthMm: number };
    const massWith = (screwLengthMm: number) =>
      benchAt('weigh', {
        match: { parts: { hardware: { id: null, revision: 0, part: { ...set, screwLengthMm } } } },
        fit: { massBy: 'calculated' },
      }).facts.hardwareMassG;
    expect(massWith(8)?.from).toBe('from Fit');
    expect(massWith(20)!.value - massWith(8)!.value).toBeGreaterThan(0.2);
  });

  test('a screw set of 8 mm replaced by 20 mm at Match shows its mass at once in Weigh’s hint and in the report', () => {
    const set = demoParts.find((part) => part.name === 'light screws and nuts') as Part & { screwLengthMm: number };
    const shown = (screwLengthMm: number) => {
      const kept = { parts: { hardware: { id: null, revision: 0, part: { ...set, screwLengthMm } } } };
      const data = { match: kept, fit: { massBy: 'calculated' } } as const;
      const job = jobOf(data);
      return {
        // what stands in the field while nothing is typed there
        hint: benchAt('weigh', typedOf(job).stations).behind('hardwareMassG')?.value,
        report: linesOf('fit', typedOf(job)).find(({ label }) => label === 'Hardware')?.text,
      };
    };
    const [short, long] = [shown(8), shown(20)];
    expect(long.hint! - short.hint!).toBeGreaterThan(0.2);
    for (const { hint, report } of [short, long]) {
      expect(Number(/^([\d.]+) ±/.exec(report ?? '')?.[1])).toBeCloseTo(hint as number, 1);
    }
    expect(long.report).not.toBe(short.report);
  });

  test('what is typed and cannot be used is left out, and nothing of Match’s takes its place', () => {
    const { facts, match: reading } = benchAt('weigh', { match, weigh: { facts: { effectiveLengthMm: 'long' } } });
    expect(facts.effectiveLengthMm).toBeUndefined();
    expect(inputOf(facts, reading).effectiveLengthMm).toBeUndefined();
    expect(inputOf(facts, reading).effectiveMassG).toBe(demoArm.effectiveMassG);
  });

  test('a bare force is in the unit chosen where it was typed', () => {
    const force = (forceUnit: ForceUnit, text: string) =>
      benchAt('weigh', { weigh: { forceUnit, facts: { trackingForceMinMn: text } } }).facts.trackingForceMinMn?.value;
    expect(force('g', '1.5')).toBeCloseTo(14.709975, 9);
    expect(force('mN', '15')).toBe(15);
    expect(force('mN', '1,5 g')).toBeCloseTo(14.709975, 9);
  });
});

/** Every declared figure of all stations, by path. */
function figuresIn(declared: Declared, path = ''): [string, Field][] {
  return Object.entries(declared).flatMap(([key, one]) => {
    const at = `${path}.${key}`;
    if (typeof one === 'function') return [];
    if (!('label' in one) || typeof one.label !== 'string') return figuresIn(one as Declared, at);
    return 'unit' in one ? [[at, one as unknown as Field]] : [];
  });
}

test('every help is at most eight words; every field takes its own unit, and what it falls back on', () => {
  const fields = [
    ...stationNames.flatMap((name) => figuresIn(modelOf(name).fields, name)),
    ...Object.entries<Field>(massFields),
    ...Object.entries<Field>(rowFields),
    ...Object.values(partFields).flatMap((table) => Object.entries(table) as [string, Field][]),
  ];
  expect(fields.length).toBeGreaterThan(250);
  for (const [name, field] of fields) {
    expect((field.help ?? '').split(/\s+/).length, `${name}: ${field.help}`).toBeLessThanOrEqual(8);
    if (!('unit' in field)) continue;
    const inside = Number(((field.min + field.max) / 2).toPrecision(2));
    const unitToo = `${inside} ${field.unit}`;
    for (const text of [`${inside}`, unitToo, unitToo.replace('.', ',')]) {
      expect(readQuantity(text, field), `${name}: ${text}`).toEqual({ value: inside });
    }
    if ('usual' in field) expect(readQuantity(String(field.usual?.value), field), name).toHaveProperty('value');
  }
});

describe('the arm as Place has found it', () => {
  const place = { arm: { spindleToPivot: '222' } };
  const arm = demoArm;

  test('Height asks for neither length nor offset again', () => {
    const { facts } = benchAt('height', { place });
    expect(facts.effectiveLengthMm?.value).toBeCloseTo(239.3, 0);
    expect(facts.offsetDeg?.value).toBeGreaterThan(22);
    expect(facts.offsetDeg?.from).toBe('as Place aims at it');
    expect(benchAt('weigh', { place }).facts.offsetDeg).toBeUndefined();
  });

  test('it goes before what Match has once Place is begun, and after what is typed at Height', () => {
    expect(benchAt('height', { match, place }).facts.offsetDeg?.from).toBe('as Place aims at it');
    expect(benchAt('height', { match }).facts.offsetDeg).toEqual({ value: arm.offsetDeg, from: 'from Match' });
    const typed = benchAt('height', { match, place, height: { facts: { offsetDeg: '21' } } });
    expect(typed.facts.offsetDeg).toEqual({ value: 21, from: 'typed here' });
    expect(typed.behind('offsetDeg')?.from).toBe('as Place aims at it');
  });

  test('a reading that tells all of the arm goes before the aim', () => {
    const read = { kind: 'stated' as const, statedLength: '238', statedOffset: '21.5' };
    const { facts } = benchAt('height', { place: { ...place, read } });
    expect(facts.offsetDeg?.value).toBeCloseTo(21.5, 6);
    expect(facts.offsetDeg?.from).toBe('as read at Place');
  });
});

describe('forces as they are typed', () => {
  test('a slip of the unit is caught, with what was found and the bounds', () => {
    expect(said(readTip('18', 'g'))).toEqual({ wrong: 'Found 18 g; 0.408 to 15.3 g was expected.' });
    expect(said(readTip('1.8', 'mN'))).toEqual({ wrong: 'Found 1.8 mN; 4 to 150 mN was expected.' });
    expect(said(readTip('much', 'g'))).toMatchObject({ wrong: expect.stringContaining('Found “much”') });
    expect(said(readTip('−2', 'g'))).toHaveProperty('wrong');
    expect(said(readTip(' ', 'g'))).toEqual({ empty: true });
  });

  test('another choice of unit changes no meaning', () => {
    for (const [text, was] of [
      ['1,8', 'g'],
      ['18', 'mN'],
    ] as const) {
      const other = was === 'g' ? 'mN' : 'g';
      expect(readTip(withUnit(text, was), other)).toEqual(readTip(text, was));
    }
    expect(withUnit('18 mN', 'g')).toBe('18 mN');
    expect(withUnit(undefined, 'g')).toBeUndefined();
  });

  test('both units with the uncertainty rounded up', () => {
    expect(forceWithin(17.843, 0.1651)).toBe('17.84 ± 0.17 mN (1.819 ± 0.017 g)');
    expect(forceWithin(18, null)).toBe('18.0 mN (1.84 g)');
  });
});
