/** Just in and just out of what may be measured. */
import { describe, expect, it } from 'vitest';
import { type Problem, problem, withheld } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import { madeBand } from './handMade.fixture.ts';
import { trustedBands, withoutFalsePairs } from './trusted.ts';

const band = (startS: number, endS: number) => madeBand({ index: 4, startS, endS });
const part = (startS: number, endS: number, ...spoiled: [number, number][]) => {
  const { bands } = trustedBands(
    [band(startS, endS)],
    spoiled.map(([from, to]) => ({ startS: from, endS: to })),
  );
  return bands.map((one) => [one.startS, one.endS]);
};
const near = (from: number, to: number) => [[expect.closeTo(from, 9), expect.closeTo(to, 9)]];

describe('the clean part of a band', () => {
  it('what only touches its ends spoils nothing', () => {
    expect(part(10, 20, [8, 10], [20, 22])).toEqual([[10, 20]]);
    expect(part(10, 20, [8, 10.01])).toEqual(near(10.11, 20));
    expect(part(10, 20, [19.99, 22])).toEqual(near(10, 19.89));
  });

  it('lasts two seconds at least', () => {
    expect(part(10, 20, [12.1, 30])).toEqual(near(10, 12));
    expect(part(10, 20, [12.09, 30])).toEqual([]);
    expect(part(10, 20, [5, 17.9])).toEqual(near(18, 20));
    expect(part(10, 20, [5, 17.91])).toEqual([]);
  });

  it('is the longest of all, the first of two alike', () => {
    expect(part(0, 30, [5, 6], [20, 21])).toEqual(near(6.1, 19.9));
    expect(part(0, 30, [20, 21], [5, 6])).toEqual(near(6.1, 19.9));
    expect(part(0, 30, [5, 6], [10, 11])).toEqual(near(11.1, 30));
    expect(part(0, 20, [9, 11])).toEqual(near(0, 8.9));
  });

  it('a short stretch inside a long one does not end it sooner', () => {
    expect(part(0, 30, [5, 20], [6, 7])).toEqual(near(20.1, 30));
  });
});

it('a band that is left out is named with its place', () => {
  const { problems } = trustedBands([band(10, 20)], [{ startS: 0, endS: 40 }]);
  expect(problems).toEqual([problem('band-spoiled', { band: 5, leastS: 2 }, { startS: 10, endS: 20 })]);
});

describe('where there are no two channels', () => {
  const pairs = [
    'channel-balance',
    'separation-left-to-right',
    'separation-right-to-left',
    'azimuth-error',
    'polarity',
    'channel-order',
  ];
  const seldom = [
    'absolute-polarity',
    'effective-tip-radius',
    'stylus-skew',
    'tracking-error',
    'vertical-tracking-error',
    'overhang-heard',
    'channel-difference',
    'channel-difference-40-12500',
    'channel-difference-100-10000',
    'channel-difference-315-6300',
  ];
  const finding = (quantity: string) => ({ quantity, value: 1, unit: '', uncertainty: 1, bands: [], notes: [] });
  const findings = [...pairs, ...seldom, 'speed-error'].map(finding);

  it.each([
    ['mono', 'one-channel'],
    ['identical-channels', 'same-signal'],
    ['dead-channel', 'one-dead'],
  ] as const)('%s leaves out what compares them, with the reason', (code, why) => {
    const found = { code, severity: 'warning', message: '' } as Problem;
    const other = { ...found, code: 'clipping' };
    expect(withoutFalsePairs(findings, [other, found])).toEqual({
      findings: [finding('speed-error')],
      problems: pairs.map((quantity) => withheld(quantity, statement(why))),
      pair: false,
    });
  });

  it('what else is wrong with the capture leaves out nothing', () => {
    const other = { code: 'toString', severity: 'warning', message: '' } as Problem;
    expect(withoutFalsePairs(findings, [other])).toEqual({ findings, problems: [], pair: true });
  });
});
