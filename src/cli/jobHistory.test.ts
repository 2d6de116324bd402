/** A deck's history, stylus hours and what is due, as a terminal shows them, line by line. */
import { expect, it } from 'vitest';
import type { DeckHistory, DeckReading } from '../core/job/deckHistory.ts';
import type { DueList } from '../core/job/dueList.ts';
import type { StylusLedger } from '../core/job/stylusHours.ts';
import { deckHistoryText, dueListText, stylusLedgerText } from './jobHistory.ts';

const reading = (more: Partial<DeckReading>): DeckReading => ({
  ...{ job: 1, at: '2026-03-04T09:00:00.000Z', when: 'received', value: 30.3, uncertainty: 0.1 },
  ...{ verdict: 'adjust', cartridge: 'A', drift: null },
  ...more,
});
const job = (number: number) => ({ id: `j${number}`, number, title: '', begun: '' });

it('a history has a table for each figure, its limits in its heading', () => {
  const history: DeckHistory = {
    deck: { id: 'd', name: 'studio\ndeck', description: '' },
    jobs: [job(1), job(2)],
    older: 3,
    figures: [
      {
        ...{ quantity: 'separation-left-to-right', unit: 'dB', limit: { good: 28, bad: 20, sense: 'above' } },
        readings: [
          reading({}),
          reading({
            ...{ job: 12, when: 'left', value: 28.3, cartridge: '' },
            drift: { change: -2, uncertainty: 0.15, beyond: true },
          }),
        ],
      },
      { quantity: 'hum', channel: 'left', unit: 'dB', limit: null, readings: [reading({ value: 60 })] },
    ],
  };
  expect(deckHistoryText(history).split('\n')).toEqual([
    'studio deck: 2 jobs, 3 older ones not gone through',
    '',
    'Separation, left into right: good from 28.0 dB, bad under 20.0 dB',
    '  job     day         when         figure           verdict  since it left                            cartridge',
    '  job 1   2026-03-04  as received  30.30 ± 0.10 dB  adjust                                            A',
    '  job 12  2026-03-04  as it left   28.30 ± 0.10 dB  adjust   −2.00 ± 0.15 dB, beyond the uncertainty',
    '',
    expect.stringMatching(/^Hum.* \(left\)$/),
    '  job    day         when         figure           verdict  since it left  cartridge',
    '  job 1  2026-03-04  as received  60.00 ± 0.10 dB  adjust                  A',
    '',
  ]);
  const one = { ...history, jobs: [job(1)], older: 0, figures: [] };
  expect(deckHistoryText(one)).toBe('studio deck: 1 job\nNothing was measured in them.\n');
});

it('styli are listed with where they are, their hours and each note', () => {
  const note = (more: object) => ({
    job: 1,
    at: '2026-03-04T09:00:00.000Z',
    what: 'received' as const,
    hours: 120,
    ...more,
  });
  const ledger: StylusLedger = {
    styli: [
      {
        ...{ deck: { id: 'd', name: 'studio deck' }, cartridge: 'A', stylus: 'S', fitted: true, hours: 150 },
        notes: [note({}), note({ job: 2, at: '2026-04-04T09:00:00.000Z', hours: null })],
      },
      { deck: { id: 'e', name: 'e' }, cartridge: '', stylus: '', fitted: false, hours: null, notes: [note({})] },
    ],
  };
  expect(stylusLedgerText(ledger).split('\n')).toEqual([
    '  stylus               deck         now          hours      noted',
    '  S (A)                studio deck  on the deck  150 h      2026-03-04 job 1: 120 h; 2026-04-04 job 2',
    '  cartridge not named  e            taken off    not known  2026-03-04 job 1: 120 h',
    '',
  ]);
  expect(stylusLedgerText({ styli: [] })).toBe('No job says anything of a stylus yet.\n');
});

it('what is due is listed by its state', () => {
  const row = {
    ...{ deck: { id: 'd', name: 'studio deck' }, owner: 'C-9', job: { id: 'j', number: 1 }, stylusHours: 320 },
    ...{ date: '2027-03-01', hours: 500, expected: '2027-03-01', state: 'due' },
  };
  const due = [row, { ...row, state: 'by-hours', expected: null, date: null, owner: '' }] as unknown as DueList['due'];
  expect(dueListText({ due } as DueList).split('\n')).toEqual([
    '  state            expected    deck         owner  job    next check',
    '  due              2027-03-01  studio deck  C-9    job 1  at 500 stylus hours (320 noted) or on 2027-03-01',
    '  by stylus hours              studio deck         job 1  at 500 stylus hours (320 noted)',
    '',
  ]);
  expect(dueListText({ due: [] } as unknown as DueList)).toBe('No next check is set; Hand over sets one.\n');
});
