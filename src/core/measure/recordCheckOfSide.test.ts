/** Which entry of a record file is named, by frequency, by level and by its place in the row of radii. */
import { describe, expect, it } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import { madeCut, madeSide, madeTone } from './handMade.fixture.ts';
import { oddEntries, recordCheck } from './recordCheck.ts';

interface Entry {
  readonly hz?: number;
  readonly heardHz?: number;
  readonly db?: number;
  readonly motion?: 'left' | 'right' | 'lateral';
  readonly spread?: number;
}

/** Tones cut with 5 cm/s; heard as loud as that makes them, and `db` more. */
function named(entries: readonly Entry[], flat = true) {
  const tones = entries.map(({ hz = 1000, heardHz = hz, db = 0, motion = 'lateral' }, index) => {
    const cut = madeCut({ motion, frequencyHz: hz, peakVelocityCmS: 5 });
    const wall = motion === 'lateral' ? Math.log(Math.SQRT1_2) : 0;
    return madeTone({
      band: { index, motion, sheetBand: index + 2, frequencyHz: heardHz },
      cut,
      segments: [
        {
          logLevel: { value: wall + (db * Math.LN10) / 20 },
          trace: { rateHz: 20, startS: 0, meanHz: heardHz, deviation: new Float64Array(0), groupS: 0.05 },
        },
      ],
    });
  });
  return recordCheck(madeSide({ tones }), flat);
}

describe('by frequency', () => {
  it('a tone whose speed is not the others’ is named with how far off it is', () => {
    const found = named([{ hz: 1000 }, { hz: 3150 }, { hz: 315 }, { hz: 400, heardHz: 410 }]);
    expect(found).toEqual([
      {
        code: 'record-frequency-doubt',
        severity: 'warning',
        message: expect.any(String),
        values: { entry: 6, statedHz: 400, percent: expect.closeTo(2.5, 9) },
        startS: 30,
        endS: 38,
      },
    ]);
    expect(named([{}, {}, {}, { hz: 400, heardHz: 390 }])[0].values).toMatchObject({
      percent: expect.closeTo(-2.5, 9),
    });
    // 0.2 % may differ, and four times what short tones hide of once per turn
    expect(named([{}, {}, {}, { hz: 1000, heardHz: 1001.9 }])).toEqual([]);
  });

  it('a tone that the file does not name counts for nothing', () => {
    const uncut = madeTone({ band: { frequencyHz: 900 } });
    const tones = [0, 1, 2].map((index) => madeTone({ band: { index }, cut: madeCut({ frequencyHz: 1000 }) }));
    expect(recordCheck(madeSide({ tones: [...tones, uncut] }), true)).toEqual([]);
    // an entry without a frequency is held against none
    const bare = madeTone({ band: { frequencyHz: 930 }, cut: madeCut() });
    expect(recordCheck(madeSide({ tones: [...tones, bare] }), true)).toEqual([]);
  });
});

describe('by level', () => {
  it('a tone that is louder or softer than the others is named', () => {
    for (const db of [3, -3]) {
      const found = named([{}, {}, { db, motion: 'left' }, {}]);
      expect(found).toMatchObject([
        {
          code: 'record-level-doubt',
          values: { entry: 5, statedCmS: 5, db: expect.closeTo(db, 9) },
          startS: 20,
          endS: 28,
        },
      ]);
    }
  });

  it('1.5 dB may differ; of one wall alone no more is asked, its own spread is a quarter of a dB', () => {
    expect(named([{}, {}, {}, { db: 1.49 }])).toEqual([]);
    expect(named([{}, {}, {}, { db: 1.51 }])).toHaveLength(1);
    expect(named([{}, {}, {}, { db: 1.51, motion: 'right' }])).toHaveLength(1);
    expect(named([{}, {}, {}, { db: 1.51, motion: 'left' }])).toHaveLength(1);
  });

  it('tones below 300 Hz and above 4 kHz are left out: arm and tip answer there', () => {
    const off = (hz: number) => named([{}, {}, {}, { hz, db: 6 }]).map(({ code }) => code);
    expect(off(299)).toEqual([]);
    expect(off(300)).toEqual(['record-level-doubt']);
    expect(off(4000)).toEqual(['record-level-doubt']);
    expect(off(4001)).toEqual([]);
  });

  it('the equalisation is undone unless it was captured without', () => {
    // as flat captures they are alike; with RIAA taken off the one of 3 kHz stands out by some 5 dB
    const tones = [{}, {}, {}, { hz: 3000 }];
    expect(named(tones, true)).toEqual([]);
    expect(named(tones, false)).toMatchObject([{ code: 'record-level-doubt', values: { entry: 6 } }]);
  });
});

describe('which entries are odd', () => {
  const of = (values: number[], spread = 0) => values.map((value) => ({ value, spread }));
  const odd = (values: number[], spread = 0) => oddEntries(of(values, spread), 1, 0.5).map(({ entry }) => entry.value);

  it('three are needed, two of which agree and are more than half of the others', () => {
    expect(odd([0, 9])).toEqual([]);
    expect(odd([0, 0, 9])).toEqual([9]);
    expect(odd([0, 0, 5, 9])).toEqual([9, 5].sort());
    expect(odd([0, 0, 5, -5, 9])).toEqual([]);
  });

  it('one lies off by more than is allowed and what the others reach to', () => {
    expect(odd([0, 0, 1])).toEqual([]);
    expect(odd([0, 0, 1.01])).toEqual([1.01]);
    expect(odd([0, 0, -1.01])).toEqual([-1.01]);
    // about 0 the others reach to 0.5
    expect(odd([-0.5, 0, 0, 0.5, 1.49])).toEqual([]);
    expect(odd([-0.5, 0, 0, 0.5, 1.51])).toEqual([1.51]);
    expect(odd([-0.5, 0, 0, 0.5, -1.51])).toEqual([-1.51]);
    // beyond 0.5 they agree no more, and count for nothing but the middle
    expect(odd([-0.6, 0, 0, 0, 0.6, 1.1])).toEqual([1.1]);
  });

  it('or by four of its own spreads', () => {
    expect(odd([0, 0, 1.99], 0.5)).toEqual([]);
    expect(odd([0, 0, 2.01], 0.5)).toEqual([2.01]);
  });
});

describe('by the row of radii', () => {
  const radii = (...mm: (number | undefined)[]) => {
    const bands: SheetBand[] = mm.map((radiusMm) => (radiusMm === undefined ? madeCut() : madeCut({ radiusMm })));
    const found = recordCheck(madeSide({ sheet: { schema: 1, name: 'x', rpm: 33, bands } }), true);
    return found.map(({ code, values }) => {
      expect(code).toBe('record-radius-doubt');
      const { entry, radiusMm, outerMm, innerMm } = values as Record<string, number>;
      return [entry, radiusMm, outerMm, innerMm];
    });
  };

  it('one outside of both its neighbours, or inside of both, is named', () => {
    expect(radii(140, 141, 120)).toEqual([[2, 141, 140, 120]]);
    expect(radii(140, 119, 120)).toEqual([[2, 119, 140, 120]]);
    expect(radii(140, 140, 120)).toEqual([]);
    expect(radii(140, 120, 120)).toEqual([]);
    expect(radii(140, undefined, 150, undefined, 120)).toEqual([[3, 150, 140, 120]]);
  });

  it('ends, and a row that does not go inwards without it, name none', () => {
    expect(radii(100, 140)).toEqual([]);
    expect(radii(120, 130, 120)).toEqual([]);
    expect(radii(120, 100, 130)).toEqual([]);
    expect(recordCheck(madeSide(), true)).toEqual([]);
  });

  it('of two neighbours out of order the wider row tells which', () => {
    expect(radii(100, 120, 130, 90)).toEqual([]);
    expect(radii(130, 120, 130, 90)).toEqual([[3, 130, 120, 90]]);
    expect(radii(120, 120, 130, 90)).toEqual([[3, 130, 120, 90]]);
    expect(radii(130, 90, 100, 120)).toEqual([]);
    expect(radii(130, 90, 100, 80)).toEqual([
      [2, 90, 130, 100],
      [3, 100, 90, 80],
    ]);
    expect(radii(130, 90, 100, 100)).toEqual([[2, 90, 130, 100]]);
  });
});
