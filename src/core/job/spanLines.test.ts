import { expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import { sayAll, statement } from '../words/statement.ts';
import { spanLines } from './spanLines.ts';

const found = (quantity: string, band: number, channel?: 'left' | 'right'): JudgedFinding => ({
  quantity,
  value: 0.5,
  unit: 'dB',
  uncertainty: 0.2,
  bands: [band],
  ...(channel === undefined ? {} : { channel }),
  verdict: 'info',
  note: '',
  notes: [statement('span-by-house')],
});

it('gathers left, right and difference by span and band; every finding is in one place, none is lost', () => {
  const whole = found('frequency-response-deviation', 5, 'left');
  const twice = found('channel-difference-100-10000', 5);
  const all = [
    found('frequency-response-deviation-100-10000', 5, 'left'),
    whole,
    found('frequency-response-deviation-100-10000', 5, 'right'),
    found('channel-difference-100-10000', 5),
    found('channel-difference-40-12500', 5),
    found('frequency-response-deviation-100-10000', 7, 'left'),
    twice,
  ];
  const { spans, rest } = spanLines(all);
  expect(rest).toEqual([whole, twice]);
  expect(
    spans.map(({ span, bands, left, right, difference, whose }) => [span, bands, left, right, difference, whose]),
  ).toEqual([
    ['100 Hz to 10 kHz', [5], all[0], all[2], all[3], 'The span is a house rule.'],
    ['40 Hz to 12.5 kHz', [5], undefined, undefined, all[4], 'The span is a house rule.'],
    ['100 Hz to 10 kHz', [7], all[5], undefined, undefined, 'The span is a house rule.'],
  ]);
});

it('only figures over a stated span are gathered, told whose span it is where that is said', () => {
  const spanned = (more: object, quantity = 'channel-difference-100-10000') =>
    ({ ...found(quantity, 5), ...more }) as JudgedFinding;
  const bare = spanned({ notes: undefined });
  expect(spanLines([bare])).toEqual({
    spans: [{ span: '100 Hz to 10 kHz', bands: [5], whose: '', difference: bare }],
    rest: [],
  });
  const other = spanned({ notes: [{ code: 'record-distortion-in-it', values: {} }, statement('span-by-din')] });
  expect(spanLines([other]).spans[0].whose).toBe(sayAll([statement('span-by-din')]));
  const rest = [
    spanned({}, 'x-channel-difference-100-10000'),
    spanned({}, 'channel-difference-100-10000-x'),
    spanned({}, 'frequency-response-deviation-100-10000'),
    spanned({ channel: 'left' }, 'channel-balance'),
  ];
  expect(spanLines(rest)).toEqual({ spans: [], rest });
  const wide = [spanned({ bands: [1, 2] }), spanned({ bands: [1] })];
  expect(spanLines(wide).spans.map(({ bands }) => bands)).toEqual([[1, 2], [1]]);
});
