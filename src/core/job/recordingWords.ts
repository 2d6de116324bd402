/** What a recording is, why it does not count, and what was fitted, in words. */
import type { Code } from '../words/catalogue.ts';
import { type Statement, say, statement } from '../words/statement.ts';
import { AS_RECEIVED, type Epoch, type FittedKind } from './epochs.ts';
import type { Recording, RecordingFacts, RecordingKind, UnfitReason } from './recordings.ts';

export const recordingKindWords: Readonly<Record<RecordingKind, string>> = {
  'as-received': 'as received',
  pass: 'pass',
  after: 'after',
  practice: 'practice',
};

const unfitCodes = {
  'one-channel': 'recording-one-channel',
  'nothing-heard': 'recording-silent',
  'no-bands': 'recording-no-bands',
  noise: 'recording-noise',
  'no-figures': 'recording-no-figures',
} as const satisfies Readonly<Record<UnfitReason, Code>>;
export const unfitTold = (reason: UnfitReason): Statement => statement(unfitCodes[reason]);

export const fittedKindWords: Readonly<Record<FittedKind, string>> = {
  cartridge: 'cartridge',
  stylus: 'stylus',
  headshell: 'headshell',
  arm: 'arm',
  preamp: 'preamp',
};

/** "cartridge B": what an epoch began with; empty for the deck as received */
export const fittedWords = ({ changed, fitted }: Epoch): string =>
  changed === null ? '' : [fittedKindWords[changed], fitted[changed] ?? ''].filter((one) => one !== '').join(' ');

/** "as received", "since the cartridge B was fitted" */
export const epochWords = (epoch: Epoch): string =>
  epoch.id === AS_RECEIVED || epoch.changed === null ? 'as received' : `since the ${fittedWords(epoch)} was fitted`;

/** Why a recording's figures stand for nothing; null where they stand for what is fitted. */
export function whyNot(facts: RecordingFacts, recording: Recording): Statement | null {
  if (facts.setAside !== null) return statement('recording-set-aside', { why: facts.setAside.why });
  if (facts.unfit !== null) return unfitTold(facts.unfit);
  if (recording.kind === 'practice') return statement('recording-practice');
  if (!recording.now) return statement('recording-before', { when: epochWords(recording.epoch) });
  return null;
}

/** The same in words; empty where they stand for what is fitted. */
export function whyNotWords(facts: RecordingFacts, recording: Recording): string {
  const why = whyNot(facts, recording);
  return why === null ? '' : say(why);
}
