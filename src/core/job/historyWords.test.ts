import { expect, it } from 'vitest';
import { bandMark } from './beforeAfter.ts';
import { type DeckReading, deckFigures } from './deckHistory.ts';
import { driftText, dueWhen, limitText, readingText, stylusName } from './historyWords.ts';
import { straightSide } from './side.fixture.ts';

const reading: DeckReading = {
  ...{ job: 1, at: '2026-03-04', when: 'received', verdict: 'undecided', cartridge: '', drift: null },
  ...{ value: 30.3, uncertainty: 8.1 },
};
const figure = { quantity: 'separation-left-to-right', unit: 'dB' };

it('a separation of a deck’s history is said as an interval, open where nothing bounds it', () => {
  expect(readingText(figure, { ...reading, low: 25.3, high: 38.4 })).toBe('25.3 to 38.4 dB');
  expect(readingText(figure, { ...reading, uncertainty: null, low: 25.3, high: null })).toBe('at least 25.3 dB');
  expect(readingText(figure, { ...reading, uncertainty: 0.08 })).toBe('30.30 ± 0.08 dB');
});

it('the history keeps the interval that the recording told', () => {
  const bandMarks = straightSide.bands.map(bandMark);
  const findings = straightSide.findings.map((f) => ({ ...f, low: 20, high: null, uncertainty: null }));
  const capture = { id: 'c', sha256: 'e', bandMarks, findings, heardAt: '2026-03-04' };
  const visit = { number: 1, cartridge: { received: '', left: '' }, received: [capture], since: [] };
  const [first] = deckFigures([visit], {});
  expect(first.readings[0]).toMatchObject({ low: 20, high: null });
});

it('a drift is said with its sign, and whether it is beyond its uncertainty where that is known', () => {
  const drift = (change: number, uncertainty: number | null, beyond: boolean | null) =>
    driftText(figure, { ...reading, drift: { change, uncertainty, beyond } });
  expect(drift(0.4, 0.2, true)).toBe('+0.40 ± 0.20 dB, beyond the uncertainty');
  expect(drift(-0.1, 0.2, false)).toBe('−0.10 ± 0.20 dB, within the uncertainty');
  expect(drift(0.4, null, null)).toBe('+0.40 dB');
  expect(driftText(figure, reading)).toBeNull();
});

it('a limit is said by which way is good', () => {
  const limit = (sense: 'above' | 'below', good: number, bad: number) =>
    limitText({ unit: 'dB', limit: { sense, good, bad } });
  expect(limit('below', 0.3, 1)).toBe('good up to 0.30 dB, bad beyond 1.00 dB');
  expect(limit('above', 25, 20)).toBe('good from 25.0 dB, bad under 20.0 dB');
  expect(limitText({ unit: 'dB', limit: null })).toBe('');
});

it('a stylus is called by its cartridge, and by its own name where it has one', () => {
  expect(stylusName({ cartridge: 'A', stylus: '' })).toBe('A');
  expect(stylusName({ cartridge: 'A', stylus: 'tip 2' })).toBe('tip 2 (A)');
  expect(stylusName({ cartridge: '', stylus: '' })).toBe('cartridge not named');
  expect(stylusName({ cartridge: '', stylus: 'tip 2' })).toBe('tip 2 (cartridge not named)');
});

it('a check is due at so many hours, on a day, or both', () => {
  expect(dueWhen({ date: '2027-03-01', hours: 500, stylusHours: 320 })).toBe(
    'at 500 stylus hours (320 noted) or on 2027-03-01',
  );
  expect(dueWhen({ date: null, hours: 500, stylusHours: null })).toBe('at 500 stylus hours (none noted)');
  expect(dueWhen({ date: '2027-03-01', hours: null, stylusHours: 3 })).toBe('on 2027-03-01');
  expect(dueWhen({ date: null, hours: null, stylusHours: null })).toBe('');
});
