import { expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import { AS_RECEIVED, type Epoch } from './epochs.ts';
import { recordingFacts } from './recording.fixture.ts';
import { type Recording, unfitReasons } from './recordings.ts';
import { epochWords, fittedWords, unfitTold, whyNot, whyNotWords } from './recordingWords.ts';

const first: Epoch = { id: AS_RECEIVED, began: null, changed: null, fitted: { cartridge: 'A' } };
const later: Epoch = { id: 'f', began: 'then', changed: 'cartridge', fitted: { cartridge: 'B', arm: 'long' } };
const recording: Recording = { id: 'c1', kind: 'pass', epoch: first, now: true, counts: true, number: 1 };

it('an epoch is called by what began it', () => {
  expect([first, later, { ...later, changed: 'stylus' as const }].map(fittedWords)).toEqual([
    '',
    'cartridge B',
    'stylus',
  ]);
  expect([first, later].map(epochWords)).toEqual(['as received', 'since the cartridge B was fitted']);
  expect(epochWords({ ...later, changed: null })).toBe('as received');
  expect(epochWords({ ...later, id: AS_RECEIVED })).toBe('as received');
});

it('a recording that counts of what is fitted has nothing against it', () => {
  expect(whyNot(recordingFacts, recording)).toBeNull();
  expect(whyNotWords(recordingFacts, recording)).toBe('');
});

it('why one does not count is told by the strongest reason', () => {
  const practice = { ...recording, kind: 'practice', now: false } as const;
  const unfit = { ...recordingFacts, unfit: 'noise' } as const;
  const setAside = { at: 'then', why: 'wrong deck' };
  expect(whyNotWords({ ...unfit, setAside }, practice)).toBe('Set aside: wrong deck');
  expect(whyNotWords(unfit, practice)).toBe('Noise alone, and no record file to match it with.');
  expect(whyNotWords(recordingFacts, practice)).toBe('Played by the practice deck.');
  expect(whyNotWords(recordingFacts, { ...recording, now: false })).toBe(
    'Heard before what is fitted now: as received.',
  );
});

it('each thing that makes it unfit has its own sentence', () => {
  expect(unfitReasons.map((reason) => say(unfitTold(reason)))).toEqual([
    'It has one channel, or the same in both.',
    'Nothing but silence was heard.',
    'No band was found.',
    'Noise alone, and no record file to match it with.',
    'No figure was read from it.',
  ]);
});
