import { describe, expect, test } from 'vitest';
import { pivotedArm } from './arm.ts';
import { fixedAt } from './constrain.ts';
import { curveRadii, curvesToCsv } from './curve.ts';
import { placeDocument } from './document.ts';
import { musicWeight } from './music.ts';
import type { PlaceRequest } from './placeRequest.ts';
import { squareAt } from './readings.ts';
import { grooveSpan, namedSpans, ownSpan } from './span.ts';

const place = (request: Partial<PlaceRequest>) =>
  placeDocument({
    length: { known: 'spindle-to-pivot', mm: 222 },
    span: grooveSpan('12in'),
    criterion: 'lofgren-a',
    ...request,
  });
const given = (request: Partial<PlaceRequest>) => {
  const answer = place(request);
  if (!answer.found) throw new Error(answer.why.code);
  return answer.value;
};

describe('the Place document', () => {
  test('has every key that the contract fixes', () => {
    const document = given({});
    expect(document).toMatchObject({
      schema: 1,
      groove: { innerMm: 60.325, outerMm: 146.05 },
      at10CmS: true,
      moves: [],
      method: 'closed-form',
    });
    expect(document.effectiveLengthMm).toBeCloseTo(239.296, 3);
    expect(document.overhangMm).toBeCloseTo(17.296, 3);
    expect(document.offsetDeg).toBeCloseTo(22.986, 3);
    expect(document.linearOffsetMm).toBeCloseTo(93.445, 3);
    expect(document.nullPointsMm.map((n) => +n.toFixed(3))).toEqual([65.998, 120.891]);
    expect(document.peakDistortionPercent).toBeCloseTo(0.618, 3);
    expect(document.rmsDistortionPercent).toBeCloseTo(0.408, 3);
    expect(document.curve[0]).toMatchObject({ radiusMm: 60.325 });
    expect(document.curve.at(-1)?.radiusMm).toBe(146.05);
    expect(document.criteria.map(({ criterion }) => criterion)).toEqual([
      'lofgren-a',
      'lofgren-b',
      'least-squares',
      'stevenson',
    ]);
    expect(document.exact?.difference.nullPointsMm.map((n) => +n.toFixed(3))).toEqual([-0.021, 0.148]);
  });

  test('is one JSON document of finite numbers, for every span and for 180 to 450 mm', () => {
    for (const span of namedSpans) {
      for (const mm of [180, 300, 450]) {
        const text = JSON.stringify(given({ span, length: { known: 'spindle-to-pivot', mm } }));
        const numbers = [...text.matchAll(/:(null|-?[\d.e+-]+)/g)].map((m) => m[1]);
        expect(numbers.length).toBeGreaterThan(100);
        expect(text).not.toMatch(/NaN|Infinity/);
        // JSON writes NaN as null: only these keys may be null
        const nulls = [...text.matchAll(/"(\w+)":null/g)].map((m) => m[1]);
        expect(new Set(nulls)).toEqual(new Set(['limits', 'asItStands', 'pivotChoices']));
      }
    }
  });

  test('distortion falls as the record turns faster', () => {
    expect(given({ rpm: 45 }).peakDistortionPercent).toBeCloseTo((given({}).peakDistortionPercent * 100) / 3 / 45, 9);
  });

  test('limits: the best that remains is the answer, with its price', () => {
    const document = given({ limits: { effectiveLength: fixedAt(238) } });
    expect(document.method).toBe('exact-within-limits');
    expect(document.effectiveLengthMm).toBe(238);
    expect(document.limits?.heldBy).toEqual(['effective length fixed at 238.00 mm']);
    expect(document.limits?.costsPeakPercent).toBeGreaterThan(0);
    expect(document.overlays.map(({ name }) => name)).toContain('lofgren-a');
  });

  test('readings: as it stands, the moves, and its curve on top', () => {
    const document = given({ readings: { readings: squareAt(62, 130) } });
    expect(document.asItStands?.effectiveLengthMm.value).toBeCloseTo(Math.sqrt(222 ** 2 + 62 * 130), 3);
    expect(document.moves.map(({ action }) => action)).toEqual(['slide', 'twist']);
    expect(document.overlays.map(({ name }) => name)).toContain('as-it-stands');
  });

  test('an overhang read by ruler is as sure as it was read, k = 2', () => {
    const document = given({
      readings: { readings: [{ kind: 'overhang', overhang: 16, uncertainty: { overhang: 0.4 } }] },
    });
    expect(document.asItStands?.overhangMm.value).toBeCloseTo(16, 2);
    expect(document.asItStands?.overhangMm.uncertainty).toBeCloseTo(0.4, 2);
  });

  test('what cannot be told is withheld with its reason, and the rest is given', () => {
    const ruler = given({ readings: { readings: [{ kind: 'overhang', overhang: 16 }] } });
    expect(ruler.withheld).toEqual([
      {
        quantity: 'twist',
        why: expect.stringContaining('nothing that was read'),
        reason: { code: 'twist-not-read', values: {} },
      },
    ]);
    const noPivot = given({
      length: { known: 'effective-length', mm: 239 },
      readings: { readings: squareAt(62, 130) },
    });
    expect(noPivot.withheld[0].why).toContain('spindle to pivot as measured');
    const straight = given({ length: { known: 'tangential' }, readings: { readings: squareAt(62, 130) } });
    expect(straight.withheld[0].why).toContain('tangential');
    expect(straight.effectiveLengthMm).toBeNull();
  });

  test('a pivot measured elsewhere: choices are listed', () => {
    const document = given({ length: { known: 'spindle-to-pivot', mm: 223.5 }, makers: pivotedArm(222, 239.3, 0.401) });
    expect(document.pivotChoices?.length).toBe(5);
  });

  test('music weighted by the person joins the criteria', () => {
    const music = musicWeight([
      { radius: 60, weight: 3 },
      { radius: 146, weight: 1 },
    ]);
    const document = given({ criterion: 'even-music', music });
    expect(document.criteria.at(-1)?.criterion).toBe('even-music');
    expect(document.nullPointsMm[0]).toBeLessThan(70.164);
  });

  test('refusals', () => {
    expect(() => ownSpan(60, 60)).toThrow('0 mm wide');
    expect(() => place({ criterion: 'even-music' })).toThrow('needs a weight over radius');
    expect(() => place({ rpm: Number.NaN })).toThrow('speed is NaN rpm');
    expect(place({ length: { known: 'overhang', mm: -14 } })).toMatchObject({ found: false });
    expect(place({ length: { known: 'effective-length', mm: 60 } })).toMatchObject({ found: false });
    expect(() => place({ length: { known: 'spindle-to-pivot', mm: 10 } })).toThrow('spindle to pivot is 10 mm');
    expect(() => musicWeight([{ radius: 60, weight: 0 }])).toThrow('needs at least 2');
    expect(() =>
      musicWeight([
        { radius: 60, weight: 0 },
        { radius: 70, weight: 0 },
      ]),
    ).toThrow('0 everywhere');
  });
});

test('curves: radii with both ends, CSV with a column for each', () => {
  expect(curveRadii(ownSpan(60, 62.5), 1)).toEqual([60, 61, 62, 62.5]);
  expect(() => curveRadii(ownSpan(60, 62.5), 0)).toThrow('step is 0 mm');
  const document = given({});
  const csv = curvesToCsv([{ name: document.criterion, points: document.curve }, ...document.overlays]);
  const lines = csv.trimEnd().split('\r\n');
  expect(lines[0]).toBe(
    'radius_mm,lofgren_a_tracking_error_deg,lofgren_a_second_harmonic_percent,lofgren_b_tracking_error_deg,lofgren_b_second_harmonic_percent,least_squares_tracking_error_deg,least_squares_second_harmonic_percent,stevenson_tracking_error_deg,stevenson_second_harmonic_percent',
  );
  expect(lines.length).toBe(document.curve.length + 1);
  const [radius, error, harmonic] = lines[1].split(',').map(Number);
  expect(radius).toBe(60.325);
  expect(error).toBeCloseTo(0.743, 3);
  expect(harmonic).toBeCloseTo(0.616, 3);
});
