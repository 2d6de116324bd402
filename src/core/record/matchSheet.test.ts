import { describe, expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import type { Band, BandMotion } from './band.ts';
import { matchSheet } from './matchSheet.ts';
import { parseSheet, type RecordSheet } from './sheet.ts';

function sheetOf(bands: readonly object[]): RecordSheet {
  const parsed = parseSheet(JSON.stringify({ schema: 1, name: 'side', rpm: 33.333, bands }), 'side.record.json');
  if (!parsed.ok) throw new Error(say(parsed.why));
  return parsed.sheet;
}
const tone = (motion: string, frequencyHz: number, durationS: number, radiusMm: number) => ({
  signal: 'tone',
  motion,
  frequencyHz,
  durationS,
  radiusMm,
});

const side = sheetOf([
  tone('lateral', 1000, 10, 143),
  tone('left', 1000, 12, 140),
  tone('right', 1000, 12, 137),
  tone('vertical', 1000, 8, 134),
  tone('lateral', 3150, 20, 130),
  { signal: 'sweep', motion: 'left', fromHz: 20, toHz: 20000, durationS: 30, radiusMm: 120 },
  { signal: 'silent-groove', durationS: 10, radiusMm: 110 },
  { signal: 'two-tone', motion: 'lateral', frequenciesHz: [400, 4000], durationS: 8, radiusMm: 104 },
  { signal: 'noise', motion: 'vertical', durationS: 15, radiusMm: 95 },
  tone('lateral', 3150, 20, 72),
  tone('lateral', 1000, 9, 66),
]);

/** What a finder would hear of the sheet's bands, played at `ratio` through a wiring. */
function heard(
  sheet: RecordSheet,
  places: readonly number[],
  change: { ratio?: number; swapped?: boolean; inverted?: boolean } = {},
): Band[] {
  const { ratio = 1, swapped = false, inverted = false } = change;
  const turned: Partial<Record<BandMotion, BandMotion>> = {
    ...(swapped ? { left: 'right', right: 'left' } : {}),
    ...(inverted ? { lateral: 'vertical', vertical: 'lateral' } : {}),
  };
  let atS = 3;
  return places.map((place, index): Band => {
    const cut = sheet.bands[place];
    const durationS = (cut.durationS ?? 10) / ratio;
    const startS = atS + 0.055;
    atS += durationS + 1;
    return {
      index,
      startS,
      endS: startS + durationS - 0.11,
      signal: cut.signal,
      motion: turned[cut.motion] ?? cut.motion,
      frequencyHz: cut.frequencyHz === undefined ? null : cut.frequencyHz * ratio,
      ...(cut.frequenciesHz === undefined
        ? {}
        : { frequenciesHz: [cut.frequenciesHz[0] * ratio, cut.frequenciesHz[1] * ratio] }),
      ...(cut.fromHz === undefined ? {} : { fromHz: cut.fromHz * ratio, toHz: (cut.toHz ?? 0) * ratio }),
      radiusMm: null,
      sheetBand: null,
    };
  });
}
const all = side.bands.map((_, place) => place);
const placesOf = (bands: readonly Band[]): (number | null)[] => bands.map((band) => band.sheetBand);
const codes = (problems: readonly { code: string }[]): string[] => problems.map((p) => p.code);

describe('matchSheet', () => {
  it('fills radius and place of every band, and has nothing to complain of', () => {
    const { bands, order, problems, speedRatio } = matchSheet(heard(side, all), side);
    expect(placesOf(bands)).toEqual(all);
    expect(bands.map((b) => b.radiusMm)).toEqual([143, 140, 137, 134, 130, 120, 110, 104, 95, 72, 66]);
    expect({ order, problems, speedRatio }).toEqual({ order: 'normal', problems: [], speedRatio: 1 });
  });

  it.each([
    [0.94, 'the deck 6 % slow'],
    [1.02, '2 % fast'],
    [1.06, '6 % fast'],
  ])('takes a common speed error out: %f', (ratio) => {
    const { bands, problems, speedRatio } = matchSheet(heard(side, all, { ratio }), side);
    expect(placesOf(bands)).toEqual(all);
    expect(problems).toEqual([]);
    expect(speedRatio).toBeCloseTo(ratio, 9);
  });

  it.each([
    [45 / (100 / 3), '45 instead of 33.3'],
    [100 / 3 / 45, '33.3 instead of 45'],
    [78 / (100 / 3), '78 instead of 33.3'],
  ])('says when the wrong speed was set: %f', (ratio, speeds) => {
    const sheet: RecordSheet = ratio < 1 ? { ...side, rpm: 45 } : side;
    const { bands, problems } = matchSheet(heard(side, all, { ratio: ratio * 1.01 }), sheet);
    expect(placesOf(bands)).toEqual(all);
    expect(codes(problems)).toEqual(['sheet-wrong-speed']);
    expect(problems[0].message).toContain(speeds);
  });

  it('tells swapped channels and an inverted one, and keeps the motion as heard', () => {
    const swapped = matchSheet(heard(side, all, { swapped: true }), side);
    expect(placesOf(swapped.bands)).toEqual(all);
    expect(swapped.order).toBe('swapped');
    expect(codes(swapped.problems)).toEqual(['sheet-channels-swapped']);
    expect(swapped.bands[1].motion).toBe('right');

    const inverted = matchSheet(heard(side, all, { inverted: true, ratio: 1.03 }), side);
    expect(placesOf(inverted.bands)).toEqual(all);
    expect(inverted.order).toBe('normal');
    expect(codes(inverted.problems)).toEqual(['sheet-one-channel-inverted']);
    expect(inverted.bands[0].motion).toBe('vertical');

    const both = matchSheet(heard(side, all, { swapped: true, inverted: true }), side);
    expect(placesOf(both.bands)).toEqual(all);
    expect(both.order).toBe('swapped');
  });

  it('tolerates a start in the middle, missing, extra and cut-off bands', () => {
    const places = [2, 3, 5, 7, 8, 9];
    const bands = heard(side, places);
    const cutOff = { ...bands[0], startS: bands[0].endS - 4 };
    const extra: Band = { ...bands[3], signal: 'tone', frequencyHz: 777, frequenciesHz: undefined };
    const list = [cutOff, bands[1], bands[2], extra, ...bands.slice(3)].map((band, index) => ({ ...band, index }));
    const matched = matchSheet(list, side);
    expect(placesOf(matched.bands)).toEqual([2, 3, 5, null, 7, 8, 9]);
    expect(matched.problems.map((p) => p.message)).toEqual([
      'Band 5 of the record file (tone 3150 Hz, lateral) was not heard.',
      'Band 4 (tone 777 Hz, lateral) was heard, but the record file does not have it there.',
    ]);
  });

  it('leaves a band alone that could be any of several, and does not guess the channel order', () => {
    const lone = matchSheet(heard(sheetOf([tone('lateral', 1000, 10, 140), tone('lateral', 1000, 10, 70)]), [0]), {
      ...side,
      bands: sheetOf([tone('lateral', 1000, 10, 140), tone('lateral', 1000, 10, 70)]).bands,
    });
    expect(placesOf(lone.bands)).toEqual([null]);
    expect(lone.bands[0].radiusMm).toBeNull();
    expect(codes(lone.problems)).toContain('sheet-band-ambiguous');

    const twins = sheetOf([tone('left', 1000, 10, 140), tone('right', 1000, 10, 130)]);
    expect(matchSheet(heard(twins, [0]), twins).order).toBe('unknown');
    expect(matchSheet(heard(twins, [0, 1]), twins).order).toBe('normal');
    expect(matchSheet(heard(twins, [0, 1], { swapped: true }), twins).order).toBe('swapped');
  });

  it('follows the sheet where one side of a two-sided tone is all that is heard, and says so', () => {
    const bands = heard(side, all).map((band) => (band.index === 4 ? { ...band, motion: 'left' as const } : band));
    const matched = matchSheet(bands, side);
    expect(matched.bands[4]).toMatchObject({ sheetBand: 4, motion: 'lateral' });
    expect(codes(matched.problems)).toEqual(['sheet-motion-differs']);
  });

  it('refuses the sheet of another record', () => {
    const other = sheetOf([100, 200, 400, 800, 1600].map((f, i) => tone('right', f * 1.17, 3, 140 - 10 * i)));
    const { bands, order, problems } = matchSheet(heard(side, all), other);
    expect(placesOf(bands)).toEqual(all.map(() => null));
    expect(order).toBe('unknown');
    expect(codes(problems)).toEqual(['sheet-not-this-record']);
    expect(matchSheet([], side)).toEqual({ bands: [], order: 'unknown', problems: [], speedRatio: 1 });
  });

  it('finds every place again on 300 random sheets with bands missing, any wiring and speed', () => {
    let state = 20260801;
    const draw = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
    const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)];
    let right = 0;
    let wrong = 0;
    let open = 0;
    let orderWrong = 0;
    for (let round = 0; round < 300; round++) {
      const sheet = sheetOf(
        Array.from({ length: 6 + Math.floor(10 * draw()) }, (_, i) => {
          const radius = { radiusMm: 145 - 5 * i, durationS: Math.round(4 + 26 * draw()) };
          const motion = pick(['left', 'right', 'lateral', 'vertical']);
          const signal = pick(['tone', 'tone', 'tone', 'two-tone', 'sweep', 'noise']);
          if (signal === 'tone')
            return { signal, motion, frequencyHz: pick([315, 1000, 1000, 3150, 10000]), ...radius };
          if (signal === 'two-tone')
            return {
              signal,
              motion,
              frequenciesHz: pick([
                [60, 7000],
                [400, 4000],
              ]),
              ...radius,
            };
          if (signal === 'sweep') return { signal, motion, fromHz: 20, toHz: 20000, ...radius };
          return { signal, motion, ...radius };
        }),
      );
      const from = Math.floor(3 * draw());
      const places = sheet.bands.map((_, i) => i).filter((i) => i >= from && draw() > 0.1);
      const swapped = draw() < 0.3;
      const change = { ratio: 0.95 + 0.1 * draw(), swapped, inverted: draw() < 0.3 };
      const played = heard(sheet, places, change).map((band) => ({
        ...band,
        frequencyHz: band.frequencyHz === null ? null : band.frequencyHz * (1 + 0.002 * (draw() - 0.5)),
      }));
      const { bands, order } = matchSheet(played, sheet);
      bands.forEach((band, i) => {
        if (band.sheetBand === places[i]) right += 1;
        else if (band.sheetBand === null) open += 1;
        else wrong += 1;
      });
      if (order !== 'unknown' && order !== (swapped ? 'swapped' : 'normal')) orderWrong += 1;
    }
    console.log(
      `matchSheet: ${right} right, ${open} left open, ${wrong} wrong; order wrong ${orderWrong} of 300 (seed 20260801)`,
    );
    expect(wrong / (right + open + wrong)).toBeLessThan(0.005);
    expect(open / (right + open + wrong)).toBeLessThan(0.03);
    expect(orderWrong).toBeLessThanOrEqual(1);
  });
});

it('a tone 2 % off what the sheet has beside tones that fit is that tone; one 5 % off is another', () => {
  const sheet = sheetOf([
    tone('lateral', 1000, 10, 143),
    tone('lateral', 3150, 10, 130),
    tone('lateral', 300, 10, 120),
  ]);
  const off = (percent: number) =>
    placesOf(
      matchSheet(
        heard(sheet, [0, 1, 2]).map((band) =>
          band.index === 2 ? { ...band, frequencyHz: 300 * (1 + percent / 100) } : band,
        ),
        sheet,
      ).bands,
    );
  expect(off(2)).toEqual([0, 1, 2]);
  expect(off(5)).toEqual([0, 1, null]);
});
