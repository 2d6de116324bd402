import { expect, it } from 'vitest';
import { bandMark } from './beforeAfter.ts';
import { type DeckReading, deckFigures } from './deckHistory.ts';
import { readingText } from './historyWords.ts';
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
