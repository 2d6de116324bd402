/** The Place document as a terminal shows it, line by line, of figures that the test made up. */
import { describe, expect, it } from 'vitest';
import type { PlaceDocument } from '../core/geometry/document.ts';
import { placeText } from './placeText.ts';

const figures = {
  ...{ spindleToPivotMm: 222, effectiveLengthMm: 239.296, overhangMm: 17.296, offsetDeg: 22.986 },
  ...{ linearOffsetMm: 93.447, nullPointsMm: [65.998, 120.891], peakDistortionPercent: 0.6214, peakAtMm: 60.325 },
  ...{ rmsDistortionPercent: 0.4008, largestErrorDeg: 2.187 },
};
const place = (more: object = {}): PlaceDocument =>
  ({
    ...{ kind: 'pivoted', criterion: 'none-of-them', rpm: 33.333, limits: null, criteria: [], asItStands: null },
    ...{ pivotChoices: null, moves: [], withheld: [], ...figures },
    groove: { innerMm: 60.325, outerMm: 146.05, name: '12in', source: 'a source', usualRpm: 100 / 3 },
    tolerance: {
      ...{ draws: 1000, seed: 1, mattersMost: 'overhang' },
      peakDistortionPercent: { asSet: 0.6, low: 0.627, high: 1.119, median: 0.8 },
      effects: [
        { setting: 'overhang', tolerance: 0.5, unit: 'mm', peakAtWorstPercent: 0.9 },
        { setting: 'twist', tolerance: 0.5, unit: 'deg', peakAtWorstPercent: 0.85 },
      ],
    },
    ...more,
  }) as unknown as PlaceDocument;
const parts = (more: object = {}) => placeText(place(more)).split('\n\n');

describe('the arm', () => {
  it('is told with its groove, its speed and what tolerances do', () => {
    expect(placeText(place()).split('\n')).toEqual([
      'none-of-them: ',
      'groove 60.325 to 146.05 mm (12in: a source)',
      'second harmonic for 10 cm/s peak lateral velocity at 33.333 rpm',
      '',
      '  spindle to pivot   222.00 mm',
      '  effective length   239.30 mm',
      '  overhang           17.30 mm',
      '  offset             22.99°',
      '  linear offset      93.45 mm',
      '  null points        66.00 and 120.89 mm',
      '  peak distortion    0.621 % at 60.3 mm',
      '  rms distortion     0.401 %',
      '  largest error      2.19°',
      '  as it will be set  peak 0.63 to 1.12 % for 95 settings in 100',
      '',
      'What setting tolerances do',
      '  overhang          ±0.50 mm: peak up to 0.90 %',
      '  twist             ±0.50 °: peak up to 0.85 %',
      '  overhang matters most; all together: peak 0.63 to 1.12 %, middle 0.80 % (1000 draws, seed 1)',
    ]);
  });

  it('that is tangential has no lengths; what is not there is not told', () => {
    const [, arm] = parts({ kind: 'tangential', linearOffsetMm: null, nullPointsMm: [] });
    expect(arm.split('\n').slice(0, 4)).toEqual([
      '  overhang           17.30 mm',
      '  offset             22.99°',
      '  null points        none',
      expect.stringMatching(/^ {2}peak distortion/),
    ]);
  });

  it('that has no tracking error has its null points everywhere, one that is square to no groove nowhere', () => {
    const nulls = (more: object) => /null points +(.*)/.exec(parts({ nullPointsMm: [], ...more })[1])?.[1];
    expect(nulls({ peakDistortionPercent: 0 })).toBe('every radius');
    expect(nulls({})).toBe('none');
    expect(nulls({ nullPointsMm: [90] })).toBe('90.00 mm');
  });

  it('says what its criterion is, and at which speed such discs usually run where another is used', () => {
    expect(parts({ criterion: 'lofgren-a' })[0]).toMatch(/^lofgren-a: the three peaks of distortion/);
    const speed = (rpm: number, usualRpm = 100 / 3) =>
      parts({ rpm, groove: { ...place().groove, usualRpm } })[0].split('\n')[2];
    expect(speed(45)).toMatch(/at 45\.000 rpm \(such discs usually run at 33\.33: --rpm sets it\)$/);
    expect(speed(100 / 3, 45)).toMatch(/\(such discs usually run at 45: --rpm sets it\)$/);
    expect(speed(100 / 3, 78.26)).toMatch(/run at 78\.26: /);
    expect(speed(100 / 3, 16.5)).toMatch(/run at 16\.5: /);
    for (const near of [33.333, 33.1, 33.6]) expect(speed(near)).toMatch(/ rpm$/);
    for (const far of [32.9, 33.8]) expect(speed(far)).toMatch(/sets it\)$/);
  });
});

describe('limits', () => {
  const free = { peakDistortionPercent: 0.6, rmsDistortionPercent: 0.4 };
  const limits = (more: object) =>
    parts({ limits: { heldBy: ['a', 'b'], free, costsPeakPercent: 0.1, costsRmsPercent: 0.05, ...more } });

  it('that hold tell what they cost', () => {
    expect(limits({})[2]).toBe(
      'Best that remains under the exact law, held by a and b:\n  costs 0.100 points of peak and 0.050 of rms distortion against the free optimum (0.600 and 0.400 %)',
    );
    for (const missing of [{ free: null }, { costsPeakPercent: null }, { costsRmsPercent: null }])
      expect(limits(missing)[2]).toMatch(/:\n {2}no free optimum to compare with$/);
  });

  it('that do not hold are not told', () => {
    expect(limits({ heldBy: [] })).toHaveLength(3);
    expect(parts()).toHaveLength(3);
  });

  it('tell what the criterion does not hold within them', () => {
    const told = parts({
      criterion: 'lofgren-b',
      limits: { heldBy: ['a'], free, costsPeakPercent: 0, costsRmsPercent: 0 },
    });
    expect(told[2]).toMatch(/free optimum \(0\.600 and 0\.400 %\)\n {2}\S.*linear offset of A is not held/);
  });
});

it('criteria stand in columns, each with what the exact law changes', () => {
  const exact = { figures: { nullPointsMm: [63.1] }, difference: { overhangMm: 0.0123 } };
  const criteria = [
    { criterion: 'one', closedForm: figures, exact },
    { criterion: 'two', closedForm: { ...figures, effectiveLengthMm: null, nullPointsMm: [] }, exact: null },
    { criterion: 'three', closedForm: figures, exact: { ...exact, difference: { overhangMm: -0.5 } } },
    { criterion: 'four', closedForm: figures, exact: { ...exact, difference: { overhangMm: 0 } } },
  ];
  const [head, ...rows] = parts({ criteria })[2].split('\n').slice(1);
  expect(head).toBe(
    '  criterion  effective  overhang  offset       null points  peak %  rms %  exact law: nulls  overhang',
  );
  expect(rows.map((row) => row.trim().split(/ {2,}/))).toEqual([
    ['one', '239.30', '17.30', '22.99°', '66.00 and 120.89', '0.621', '0.401', '63.10', '+0.012'],
    ['two', '–', '17.30', '22.99°', 'none', '0.621', '0.401', '–', '–'],
    ['three', '239.30', '17.30', '22.99°', '66.00 and 120.89', '0.621', '0.401', '63.10', '−0.500'],
    ['four', '239.30', '17.30', '22.99°', '66.00 and 120.89', '0.621', '0.401', '63.10', '+0.000'],
  ]);
  // figures to the right, names to the left
  expect(new Set(rows.map((row) => row.length))).toEqual(new Set([head.length]));
  expect(rows[0]).toMatch(/^ {2}one {3} /);
});

it('choices with the pivot where it is stand in columns', () => {
  const pivotChoices = [
    { does: 'slide only', figures },
    { does: 'both', figures: { ...figures, effectiveLengthMm: null } },
  ];
  const [title, head, ...rows] = parts({ pivotChoices })[2].split('\n');
  expect(title).toBe('With the pivot where it is');
  expect(head).toBe('  choice      effective  offset  peak %  rms %');
  expect(rows).toEqual([
    '  slide only     239.30  22.99°   0.621  0.401',
    '  both                –  22.99°   0.621  0.401',
  ]);
});

describe('as it is set', () => {
  const of = (value: number) => ({ value, uncertainty: 0.25 });
  const stands = (more: object) => {
    const asItStands = {
      ...{ effectiveLengthMm: of(238), overhangMm: of(16), offsetDeg: of(23), figures: null, disagreement: null },
      ...more,
    };
    return parts({ asItStands })[2].split('\n');
  };

  it('is told as far as it is known', () => {
    const lines = [
      'As it is set',
      '  effective length  238.00 ± 0.25 mm',
      '  overhang          16.00 ± 0.25 mm',
      '  offset            23.00 ± 0.25°',
    ];
    expect(stands({})).toEqual(lines);
    expect(stands({ offsetDeg: null })).toEqual([...lines.slice(0, 3), '  offset            not known']);
    expect(stands({ disagreement: 'They differ.' })).toEqual([...lines, '  note: They differ.']);
  });

  it('has its peak between two bounds, or up to one where it stands under both', () => {
    const peak = (peakDistortionPercent: number) =>
      stands({
        figures: {
          ...{
            figures: { ...figures, peakDistortionPercent },
            peakDistortionFromPercent: 0.7,
            peakDistortionToPercent: 1.2,
          },
        },
      }).slice(4);
    expect(peak(0.8)).toEqual([
      '  null points       66.00 and 120.89 mm',
      '  peak distortion   0.80 % (between 0.70 and 1.20 %)',
    ]);
    expect(peak(0.7)[1]).toBe('  peak distortion   0.70 % (between 0.70 and 1.20 %)');
    expect(peak(0.69)[1]).toBe('  peak distortion   0.69 % (up to 1.20 %)');
  });
});

it('moves, and what is not given with its reason, come before the tolerances', () => {
  const moves = [{ action: 'slide', amount: 1, unit: 'mm', direction: 'forward', predicts: [], why: 'So.' }];
  const withheld = [
    { quantity: 'twist', why: 'Nothing was read.' },
    { quantity: 'moves', why: 'Too far.' },
  ];
  expect(parts({ moves, withheld }).slice(2, -1)).toEqual([
    'What to do\n  slide: 1.00 mm forward\n    So.',
    'Not given: twist: Nothing was read.',
    'Not given: moves: Too far.',
  ]);
});
