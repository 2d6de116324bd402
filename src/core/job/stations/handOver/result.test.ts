import { expect, test } from 'vitest';
import { named, resultText } from './result.ts';
import { job, received, row } from './rows.fixture.ts';

const text = (...rows: ReturnType<typeof row>[]) => resultText(job(), rows);

test('nothing measured, or nothing that has a limit', () => {
  expect(resultText(job())).toBe('Nothing has been measured yet.');
  expect(text(row('hum', 'info'))).toBe('The deck was measured; none of these figures has a limit.');
});

test('all within their limits; a figure without one is not counted', () => {
  expect(text(row('hum'), row('polarity', 'info'))).toBe('The one figure with a limit is within it.');
  expect(text(row('hum'), row('speed-error'))).toBe('All figures with a limit are within their limits.');
});

test('what is open, the gravest first, each kind named', () => {
  expect(
    text(row('hum', 'undecided'), row('speed-error', 'bad'), row('channel-balance', 'adjust'), row('polarity')),
  ).toBe(
    '1 of 4 figures is within its limit; outside limits: speed error; worth adjusting: channel balance; undecided: hum in the groove.',
  );
  expect(text(row('hum', 'adjust'), row('speed-error'), row('polarity'), row('azimuth-error', 'info'))).toBe(
    '2 of 3 figures are within their limits; worth adjusting: hum in the groove.',
  );
});

test('what shows in several rows is named under the gravest of their verdicts, not under two', () => {
  expect(
    text(
      row('frequency-response-deviation', 'adjust', 'left'),
      row('frequency-response-deviation-100-10000', 'adjust', 'right'),
      row('frequency-response-deviation-40-12500', 'undecided', 'right'),
      row('separation-left-to-right', 'undecided'),
      row('separation-right-to-left', 'bad'),
      row('vertical-tracking-error', 'undecided'),
      row('polarity'),
    ),
  ).toBe(
    '1 of 7 figures is within its limit; outside limits: separation; worth adjusting: response; undecided: vertical tracking error.',
  );
});

test('figures are named once without channel or side, three at most', () => {
  expect(named([row('hum')])).toBe('hum in the groove');
  expect(named([])).toBe('');
  expect(named([row('separation-left-to-right'), row('separation-right-to-left'), row('hum', 'good', 'left')])).toBe(
    'separation, hum in the groove',
  );
  expect(named([row('hum'), row('speed-error'), row('polarity')])).toBe('hum in the groove, speed error, polarity');
  expect(named([row('hum'), row('speed-error'), row('polarity'), row('second-harmonic'), row('hum')])).toBe(
    'hum in the groove, speed error, polarity and 1 more',
  );
});

test('a deck that was heard as received only is told as such, and what was fitted since as not measured', () => {
  const one = job({ captures: [received('a', 'hum')] });
  expect(resultText(one)).toBe(
    'The one figure with a limit is within it. These are the figures as received: nothing was measured after.',
  );
  const fitting = {
    id: 'f',
    at: '2026-02-01T10:00:00.000Z',
    station: 'match',
    kind: 'cartridge',
    name: 'bench moving coil',
    was: '',
    hours: null,
  };
  const captures = [received('a', 'hum')];
  expect(resultText(job({ captures, fittings: [fitting] }))).toBe(
    'Nothing was measured since the cartridge bench moving coil was fitted. Every figure is as received, of what was on the deck before.',
  );
  expect(resultText(job({ fittings: [fitting] }), [row('hum')])).toBe('The one figure with a limit is within it.');
  const before = { ...row('hum'), before: row('hum').after, after: null };
  expect(resultText(one, [before, row('speed-error')])).toBe('All figures with a limit are within their limits.');
});
