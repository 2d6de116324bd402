import { describe, expect, test } from 'vitest';
import type { PlaceDocument } from '../../../geometry/document.ts';
import type { PlaceRequest } from '../../../geometry/placeRequest.ts';
import { grooveSpan } from '../../../geometry/span.ts';
import type { MoveFigure } from '../../moveRecord.ts';
import {
  figureWords,
  placeMove,
  predictedAfter,
  shownKept,
  slideWords,
  standsAs,
  turnWords,
  twistWords,
} from './madeMoves.ts';

const at = '2026-03-04T09:30:00.000Z';
const record = { at, before: [], foretold: [], reading: {} };
const length = (value: number, uncertainty: number | null) => ({
  quantity: 'overhang',
  unit: 'mm',
  value,
  uncertainty,
});

describe('a move in its record', () => {
  const slid = { move: 'slide', amount: 1.2, unit: 'mm', direction: 'forward' };
  const turned = { move: 'twist', amount: 0.8, unit: 'deg', direction: 'clockwise, seen from above' };

  test('slid, twisted, or both, by how much and which way', () => {
    expect(placeMove({ slideMm: 1.2, twistDeg: null }, record)).toEqual({
      ...slid,
      ...record,
      station: 'place',
      came: null,
    });
    expect(placeMove({ slideMm: null, twistDeg: 0.8 }, record)).toEqual({
      ...turned,
      ...record,
      station: 'place',
      came: null,
    });
    expect(placeMove({ slideMm: 1.2, twistDeg: 0.8 }, record)).toEqual({
      ...slid,
      also: [turned],
      ...record,
      station: 'place',
      came: null,
    });
    const back = placeMove({ slideMm: -1.2, twistDeg: -0.8 }, record);
    expect(back).toMatchObject({ amount: 1.2, direction: 'back' });
    expect(back.also).toEqual([{ ...turned, direction: 'anticlockwise, seen from above' }]);
    const nothing = placeMove({ slideMm: 0, twistDeg: 0 }, record);
    expect(nothing).toMatchObject({ amount: 0, direction: 'forward' });
    expect(nothing.also).toEqual([{ ...turned, amount: 0 }]);
  });

  test('in words', () => {
    expect([slideWords(1.24), slideWords(-0.86), slideWords(0)]).toEqual([
      '1.2 mm forward',
      '0.9 mm back',
      '0.0 mm forward',
    ]);
    expect([turnWords(0.84), turnWords(-0.84), turnWords(0)]).toEqual([
      '0.8° clockwise',
      '0.8° anticlockwise',
      '0.0° clockwise',
    ]);
    expect(twistWords(-1)).toBe('1.0° anticlockwise, seen from above');
  });
});

describe('a figure as it is kept', () => {
  test('its name within a sentence', () => {
    const names = ['overhang', 'offset', 'null-point-inner', 'null-point-outer', 'null-point', 'peak-distortion'];
    expect(names.map(figureWords)).toEqual([
      'overhang',
      'offset',
      'inner null point',
      'outer null point',
      'null point',
      'highest second harmonic',
    ]);
    expect(figureWords('some-other-figure')).toBe('some other figure');
  });

  test('to its own uncertainty, else to the digit of the one that it stands beside', () => {
    expect(shownKept(length(16.317, 0.3))).toBe('16.3 ± 0.3 mm');
    expect(shownKept(length(16.317, 0.3), { uncertainty: 0.01 })).toBe('16.3 ± 0.3 mm');
    expect(shownKept(length(16.317, null))).toBe('16.3 mm');
    expect(shownKept(length(16.317, null), { uncertainty: null })).toBe('16.3 mm');
    expect(shownKept(length(16.317, null), { uncertainty: 0.012 })).toBe('16.317 mm');
    expect(shownKept(length(16.317, null), { uncertainty: 5 })).toBe('16 mm');
    const offset = { quantity: 'offset', unit: 'deg', value: 22.618, uncertainty: null };
    expect(shownKept(offset, { uncertainty: 0.4 })).toBe('22.6°');
    const share = { quantity: 'peak-distortion', unit: '%', value: 0.618, uncertainty: null };
    expect(shownKept(share, { uncertainty: 0.5 })).toBe('0.62 %');
  });

  test('from low to high where both are known; up to the high where it is the least that can be', () => {
    const share = { quantity: 'peak-distortion', unit: '%', value: 0.618, uncertainty: 0.1 };
    expect(shownKept({ ...share, low: 0.601, high: 0.8 })).toBe('0.62 % (0.60 to 0.80)');
    expect(shownKept({ ...share, low: 0.618, high: 0.8 })).toBe('0.62 % (0.62 to 0.80)');
    expect(shownKept({ ...share, low: 0.62, high: 0.8 })).toBe('0.62 %, up to 0.80 %');
    expect(shownKept({ ...share, low: 0.6 })).toBe('0.62 ± 0.10 %');
    expect(shownKept({ ...share, high: 0.6 })).toBe('0.62 ± 0.10 %');
  });
});

/** As it stands by an invented reading: 2 mm of overhang and 1° of offset off, which the move would take away. */
const stands = {
  effectiveLengthMm: { value: 237, uncertainty: 0.5 },
  overhangMm: { value: 15, uncertainty: 0.4 },
  offsetDeg: { value: 22, uncertainty: 0.6 },
  slideMm: { value: 2, uncertainty: 0.4 },
  twistDeg: { value: 1, uncertainty: 0.6 },
  figures: null,
  after: null,
};
const place = (more: object | null): PlaceDocument =>
  ({
    offsetDeg: 23,
    rpm: 100 / 3,
    asItStands: more === null ? null : { ...stands, ...more },
  }) as unknown as PlaceDocument;
const request = (readings: object | null = { slotAngle: 0, tipAhead: 0 }) =>
  ({ span: grooveSpan('12in'), ...(readings && { readings }) }) as unknown as PlaceRequest;
const cos = (deg: number) => Math.cos((deg * Math.PI) / 180);
const sin = (deg: number) => Math.sin((deg * Math.PI) / 180);
/** Overhang of a tip at x along the old line and y across it, the pivot 222 mm from the spindle. */
const reach = (x: number, y: number) => Math.hypot(x, y) - 222;
const spread = (nullPointsMm: number[], nullPointsUncertaintyMm: number[] | null) => ({
  figures: { nullPointsMm, peakDistortionPercent: 0.7 },
  nullPointsUncertaintyMm,
  peakDistortionFromPercent: 0.6,
  peakDistortionToPercent: 0.9,
});
const peak = {
  quantity: 'peak-distortion',
  unit: '%',
  value: 0.7,
  uncertainty: expect.closeTo(0.15, 12),
  low: 0.6,
  high: 0.9,
};
const point = (quantity: string, value: number, uncertainty: number | null) => ({
  quantity,
  unit: 'mm',
  value,
  uncertainty,
});

describe('as it stands by what was read', () => {
  const offset = { quantity: 'offset', unit: 'deg', value: 22, uncertainty: 0.6 };

  test('overhang, offset, null points, second harmonic; each where it is told', () => {
    expect(standsAs(place(null))).toBeNull();
    expect(standsAs(place({ offsetDeg: null }))).toEqual([length(15, 0.4)]);
    expect(standsAs(place({}))).toEqual([length(15, 0.4), offset]);
    expect(standsAs(place({ figures: spread([66, 121], [1, 2]) }))).toEqual([
      length(15, 0.4),
      offset,
      point('null-point-inner', 66, 1),
      point('null-point-outer', 121, 2),
      peak,
    ]);
    expect(standsAs(place({ figures: spread([90], null) }))?.slice(2)).toEqual([point('null-point', 90, null), peak]);
    expect(standsAs(place({ figures: spread([], null) }))?.slice(2)).toEqual([peak]);
  });
});

describe('what a move should bring', () => {
  const told = (did: { slide: boolean; twist: boolean }, more: object = {}, asked = request()) =>
    predictedAfter(place(more), asked, did);
  const value = (figures: readonly MoveFigure[] | null, quantity: string) =>
    figures?.find((one) => one.quantity === quantity)?.value;
  const both = { slide: true, twist: true };

  test('the slide brings length and overhang, the twist the offset; what was not done stays', () => {
    const neither = told({ slide: false, twist: false });
    expect(value(neither, 'overhang')).toBeCloseTo(15, 9);
    expect(value(neither, 'offset')).toBeCloseTo(22, 9);
    const slid = told({ slide: true, twist: false });
    // slots along the line pivot to tip: the whole slide is overhang, and the cartridge keeps its angle
    expect(value(slid, 'overhang')).toBeCloseTo(17, 9);
    expect(value(slid, 'offset')).toBeCloseTo(22, 9);
    // about the tip itself a twist is offset alone
    const turned = told({ slide: false, twist: true });
    expect(value(turned, 'overhang')).toBeCloseTo(15, 9);
    expect(value(turned, 'offset')).toBeCloseTo(23, 9);
    expect(slid?.slice(0, 2).map(({ uncertainty }) => uncertainty)).toEqual([0.4, 0.6]);
  });

  test('slots along the cartridge where their angle is not known, the tip as far ahead as usual', () => {
    const slid = { slide: true, twist: false };
    const along = reach(237 + 2 * cos(22), 2 * sin(22));
    for (const readings of [null, {}, { tipAhead: 4 }]) {
      expect(value(told(slid, {}, request(readings)), 'overhang')).toBeCloseTo(along, 9);
    }
    const turned = (readings: object | null) =>
      value(told({ slide: false, twist: true }, {}, request(readings)), 'overhang');
    const about = (tipAhead: number) => reach(237 + tipAhead * (cos(23) - cos(22)), tipAhead * (sin(23) - sin(22)));
    expect(turned(null)).toBeCloseTo(about(9.5), 9);
    expect(turned({})).toBeCloseTo(about(9.5), 9);
    expect(turned({ slotAngle: 0.1 })).toBeCloseTo(about(9.5), 9);
    expect(turned({ tipAhead: 20 })).toBeCloseTo(about(20), 9);
    expect(turned({ tipAhead: 20, slotAngle: 0.1 })).toBeCloseTo(about(20), 9);
    const crooked = value(told(slid, {}, request({ slotAngle: 0.1 })), 'overhang');
    expect(crooked).toBeCloseTo(reach(237 + 2 * Math.cos(0.1), 2 * Math.sin(0.1)), 9);
  });

  test('with the twist not read only the overhang is told, the cartridge taken as it is aimed', () => {
    const figures = told(both, { offsetDeg: null, twistDeg: null }, request({}));
    expect(figures).toEqual([length(expect.any(Number) as unknown as number, 0.4)]);
    // two millimetres along a cartridge at 23° to the line
    expect(value(figures, 'overhang')).toBeCloseTo(reach(237 + 2 * cos(23), 2 * sin(23)), 9);
  });

  test('the whole move takes null points and harmonic from the draws, a part of it works them out without a spread', () => {
    const after = spread([66, 121], [1, 2]);
    expect(told(both, { after })?.slice(2)).toEqual([
      point('null-point-inner', 66, 1),
      point('null-point-outer', 121, 2),
      peak,
    ]);
    for (const did of [
      { slide: true, twist: false },
      { slide: false, twist: true },
    ]) {
      const part = told(did, { after })?.slice(2);
      expect(part?.map(({ quantity, uncertainty }) => [quantity, uncertainty])).toEqual([
        ['null-point-inner', null],
        ['null-point-outer', null],
        ['peak-distortion', null],
      ]);
      expect(part?.[2]).toMatchObject({ unit: '%' });
      expect(part?.[2].value).not.toBe(0.7);
    }
    expect(
      told(both)
        ?.slice(2)
        .map(({ uncertainty }) => uncertainty),
    ).toEqual([null, null, null]);
  });

  test('twice as fast, twice the harmonic', () => {
    const slid = { slide: true, twist: false };
    const at = (rpm: number) => value(predictedAfter({ ...place({}), rpm }, request(), slid), 'peak-distortion') ?? 0;
    expect(at(100 / 3) / at(200 / 3)).toBeCloseTo(2, 6);
  });

  test('an arm that does not play the span has no null points to tell, and nothing read tells nothing', () => {
    const short = { effectiveLengthMm: { value: 80, uncertainty: 1 }, overhangMm: { value: -140, uncertainty: 1 } };
    expect(told({ slide: true, twist: false }, short)?.map(({ quantity }) => quantity)).toEqual(['overhang', 'offset']);
    expect(predictedAfter(place(null), request(), both)).toBeNull();
  });
});
