import { describe, expect, test } from 'vitest';
import { heightAdvice, heightSheet } from '../../../advise/height.ts';
import { said } from '../../../words/said.fixture.ts';
import { say } from '../../../words/statement.ts';
import type { CaptureEntry, Job } from '../../api.ts';
import { recordingFacts } from '../../recording.fixture.ts';
import type { HeightTyped } from '../height.ts';
import { armFigures, knownAs, matched, nothingMatched, swinging } from '../weigh/bench.fixture.ts';
import {
  bearingOf,
  heightAnswer,
  heightArm,
  type MeasuredAngle,
  measuredAdvice,
  measuredAngle,
  riseOf,
  thicknessOf,
} from './heightAnswers.ts';

const rad = Math.PI / 180;
const straight = knownAs({ effectiveLengthMm: 240, offsetDeg: 0 });
const offset = knownAs({ effectiveLengthMm: 240, offsetDeg: 23 });
const at = (facts: Parameters<typeof heightArm>[1], match = nothingMatched) => ({ facts, match });
const partSquareTo = matched({
  parts: {
    arm: { id: null, revision: 0, part: { schema: 1, kind: 'arm', name: 'a', bearingSquareTo: 'cartridge' } },
  },
});

function answer(data: HeightTyped, facts = straight, forceMn: number | null = null, match = nothingMatched) {
  const found = heightAnswer(data, at(facts, match), forceMn);
  if (!found.found) throw new Error(say(found.why));
  return found.value;
}
const why = (data: HeightTyped, facts = straight) => said(heightAnswer(data, at(facts), null));

describe('angle over height', () => {
  test('of a straight arm: by its length, and a quarter of a millimetre of it (k = 1) left open', () => {
    const { degPerMm, mmPerDeg, riseMm, thicknessMm, sheet } = answer({});
    expect(degPerMm.value).toBeCloseTo(Math.atan(1 / 240) / rad, 9);
    expect(degPerMm.uncertainty).toBeCloseTo(0.5 / 240 ** 2 / rad, 7);
    expect(mmPerDeg.value).toBeCloseTo(240 * Math.tan(rad), 9);
    expect(mmPerDeg.uncertainty).toBeCloseTo(0.5 * Math.tan(rad), 7);
    expect([riseMm, thicknessMm]).toEqual([0, 2]);
    expect(sheet).toEqual(
      heightSheet({
        effectiveLengthMm: 240,
        offsetDeg: 0,
        setOnThicknessMm: 2,
        otherThicknessMm: [1, 1.5, 2, 2.5, 3],
        riseMm: 0,
      }),
    );
  });

  test('a length with its own ± leaves as much open', () => {
    const facts = { effectiveLengthMm: { value: 240, uncertainty: 4, from: 'typed here' } };
    expect(answer({}, facts).mmPerDeg.uncertainty).toBeCloseTo(4 * Math.tan(rad), 6);
  });

  test('where the bearing is not known, half of what both kinds differ by is open besides', () => {
    const cos = Math.cos(23 * rad);
    const [line, cartridge] = [240 * Math.tan(rad / cos), 240 * cos * Math.tan(rad)];
    const { degPerMm, mmPerDeg } = answer({}, offset);
    expect(mmPerDeg.value).toBeCloseTo((line + cartridge) / 2, 9);
    const ofLength = (2 * 0.25 * mmPerDeg.value) / 240;
    expect(mmPerDeg.uncertainty).toBeCloseTo(Math.hypot(ofLength, (line - cartridge) / 2), 6);
    const ofLengthDeg = (2 * 0.25 * degPerMm.value) / 240;
    expect(degPerMm.uncertainty).toBeCloseTo(Math.hypot(ofLengthDeg, (1 / cartridge - 1 / line) / 2), 6);
    const known = answer({ squareTo: 'cartridge' }, offset);
    expect(known.mmPerDeg.value).toBeCloseTo(cartridge, 9);
    expect(known.mmPerDeg.uncertainty).toBeCloseTo((2 * 0.25 * cartridge) / 240, 6);
    expect(answer({}, offset, null, partSquareTo).mmPerDeg.value).toBeCloseTo(cartridge, 9);
  });

  test('rise, record and another record as typed; the other one stands in its place among those that come across a bench', () => {
    const { sheet, riseMm, thicknessMm } = answer({ rise: '-2', thickness: '1,5', other: '2.2' });
    expect([riseMm, thicknessMm]).toEqual([-2, 1.5]);
    expect(sheet.thickness.map((one) => [one.thicknessMm, one.riseMm])).toEqual([
      [1, -0.5],
      [1.5, 0],
      [2, 0.5],
      [2.2, expect.closeTo(0.7, 9)],
      [2.5, 1],
      [3, 1.5],
    ]);
    const listed = (other: string) => answer({ other }).sheet.thickness.map((one) => one.thicknessMm);
    expect(listed('2.5')).toEqual([1, 1.5, 2, 2.5, 3]);
    expect(listed('0.5')).toEqual([0.5, 1, 1.5, 2, 2.5, 3]);
    expect(listed('10')).toEqual([1, 1.5, 2, 2.5, 3, 10]);
  });

  test('the maker’s angle stands at the rise', () => {
    const facts = knownAs({ effectiveLengthMm: 240, verticalAngleDeg: 22 });
    expect(answer({ rise: '2' }, facts).sheet.statedDeg).toBeCloseTo(22 + Math.atan(2 / 240) / rad, 9);
    expect(answer({}).sheet.statedDeg).toBeNull();
  });

  test('the force over height where force and balance are known, else why it is left out', () => {
    const { sheet, forceLeftOut } = answer({}, swinging, 18);
    expect(forceLeftOut).toBeNull();
    expect(sheet.thickness[2].forceMn).toBeCloseTo(0, 12);
    expect(sheet.thickness[4].forceMn).toBeGreaterThan(0);
    const out = (facts: typeof straight, force: number | null) => {
      const { sheet, forceLeftOut } = answer({}, facts, force);
      expect(sheet.thickness.every(({ forceMn }) => forceMn === null)).toBe(true);
      return forceLeftOut === null ? null : say(forceLeftOut);
    };
    expect(out(swinging, null)).toBe('the force at the tip is not known');
    expect(out(straight, 18)).toMatch(/^the whole moving mass/);
  });

  test('what stands in the way: a length that is not known, or what cannot be used as typed', () => {
    const unusable = (what: string) => ({ found: false, missing: false, why: `${what} cannot be used as it is typed` });
    expect(why({}, {})).toEqual({ found: false, missing: true, why: 'the effective length is not known' });
    expect(why({ rise: 'high' })).toEqual(unusable('how far the arm is over level'));
    expect(why({ thickness: '90' })).toEqual(unusable('the record’s thickness'));
    expect(why({ other: 'thin' })).toEqual(unusable('the other record’s thickness'));
    expect(heightAnswer({}, at(knownAs({ effectiveLengthMm: 10 })), null)).toMatchObject({
      found: false,
      missing: false,
    });
  });

  test('what is not typed is level and 2 mm; what cannot be used is nothing', () => {
    expect([riseOf({}), riseOf({ rise: '' }), riseOf({ rise: '−3' }), riseOf({ rise: 'x' })]).toEqual([0, 0, -3, null]);
    expect([thicknessOf({}), thicknessOf({ thickness: '1.2' }), thicknessOf({ thickness: 'x' })]).toEqual([
      2,
      1.2,
      null,
    ]);
  });
});

describe('the arm', () => {
  test('the bearing as said here, else as the part says', () => {
    expect(bearingOf({ squareTo: 'arm-line' }, partSquareTo)).toBe('arm-line');
    expect(bearingOf({ squareTo: '' }, partSquareTo)).toBe('cartridge');
    expect(bearingOf({}, partSquareTo)).toBe('cartridge');
    expect(bearingOf({}, nothingMatched)).toBeUndefined();
  });

  test('length, offset and bearing; none without the length', () => {
    expect(heightArm({ squareTo: 'cartridge' }, offset, nothingMatched)).toEqual({
      effectiveLengthMm: 240,
      offsetDeg: 23,
      squareTo: 'cartridge',
    });
    expect(heightArm({}, knownAs({ effectiveLengthMm: 240 }), nothingMatched)).toEqual({
      effectiveLengthMm: 240,
      offsetDeg: undefined,
      squareTo: undefined,
    });
    expect(heightArm({}, knownAs({ ...armFigures, effectiveLengthMm: undefined }), nothingMatched)).not.toBeNull();
    expect(heightArm({}, {}, nothingMatched)).toBeNull();
  });
});

const angle = (value: number | string, uncertainty: number | null = 0.3, quantity = 'vertical-tracking-error') => ({
  quantity,
  value,
  unit: 'deg',
  uncertainty,
  bands: [],
  note: '',
  verdict: 'adjust' as const,
});
const heard = (id: string, ...findings: ReturnType<typeof angle>[]) =>
  ({ ...recordingFacts, id, findings }) as unknown as CaptureEntry;
const jobOf = (...captures: CaptureEntry[]) => ({ practice: false, fittings: [], captures }) as unknown as Job;

describe('a measured angle', () => {
  test('of the last recording that counts and holds one', () => {
    const tilt = angle(9, 0.3, 'azimuth-error');
    const captures = [heard('a', angle(1)), heard('b', tilt, angle(2)), heard('c', tilt)];
    expect(measuredAngle(jobOf(...captures))).toEqual({
      finding: captures[1].findings[1],
      errorDeg: 2,
      capture: captures[1],
    });
    const aside = { ...heard('d', angle(3)), setAside: { at: '2026-03-04T09:00:00.000Z', why: 'dust' } };
    expect(measuredAngle(jobOf(...captures, aside))?.errorDeg).toBe(2);
    expect(measuredAngle(jobOf(heard('a', angle(1)), heard('b', angle('unclear'))))?.errorDeg).toBe(1);
    expect(measuredAngle(jobOf(heard('a', tilt)))).toBeNull();
    expect(measuredAngle(jobOf())).toBeNull();
  });

  const measured: MeasuredAngle = { finding: angle(1.2), errorDeg: 1.2, capture: heard('a', angle(1.2)) };
  const arm = { effectiveLengthMm: 240, offsetDeg: 0 };

  test('is told what it asks for on this arm', () => {
    expect(measuredAdvice({}, at(straight), measured)).toEqual({ found: true, value: heightAdvice(1.2, 0.3, arm) });
    expect(said(measuredAdvice({}, at({}), measured))).toEqual({
      found: false,
      missing: true,
      why: 'the effective length is not known',
    });
    const far = { ...measured, errorDeg: 80 };
    expect(measuredAdvice({}, at(straight), far)).toMatchObject({ found: false, missing: false });
  });

  test('no farther than the arm can still be moved, where both ways are known', () => {
    const amount = (data: HeightTyped, errorDeg = 1.2) => {
      const advice = measuredAdvice(data, at(straight), { ...measured, errorDeg });
      return advice.found ? [advice.value.direction, advice.value.amount] : null;
    };
    const full = heightAdvice(1.2, 0.3, arm).amount;
    expect(amount({ slackDown: '1', slackUp: '2' })).toEqual(['lower-at-the-pivot', 1]);
    expect(amount({ slackDown: '1', slackUp: '2' }, -1.2)).toEqual(['raise-at-the-pivot', 2]);
    for (const data of [{ slackDown: '1' }, { slackUp: '1' }, { slackDown: '1', slackUp: 'x' }]) {
      expect(amount(data)).toEqual(['lower-at-the-pivot', full]);
    }
  });
});
