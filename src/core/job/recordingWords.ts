/** What a recording is, why it does not count, and what was fitted, in words. */
import { AS_RECEIVED, type Epoch, type FittedKind } from './epochs.ts';
import type { Recording, RecordingFacts, RecordingKind, UnfitReason } from './recordings.ts';

export const recordingKindWords: Readonly<Record<RecordingKind, string>> = {
  'as-received': 'as received',
  pass: 'pass',
  after: 'after',
  practice: 'practice',
};

export const unfitWords: Readonly<Record<UnfitReason, string>> = {
  'one-channel': 'Both channels carry one content.',
  'nothing-heard': 'Nothing but silence was heard.',
  'no-bands': 'No band was found.',
  noise: 'Noise alone, and no record file to match it with.',
  'no-figures': 'No figure was read from it.',
};

export const fittedKindWords: Readonly<Record<FittedKind, string>> = {
  cartridge: 'cartridge',
  stylus: 'stylus',
  headshell: 'headshell',
  arm: 'arm',
  preamp: 'preamp',
};

/** "as received", "since cartridge B was fitted" */
export function epochWords({ id, changed, fitted }: Epoch): string {
  if (id === AS_RECEIVED || changed === null) return 'as received';
  return `since ${fittedKindWords[changed]} ${fitted[changed] ?? ''} was fitted`.replace(/ +/g, ' ');
}

/** Why a recording's figures stand for nothing; null where they stand for what is fitted. */
export function whyNot(facts: RecordingFacts, recording: Recording): string | null {
  if (facts.setAside !== null) return `Set aside: ${facts.setAside.why}`;
  if (facts.unfit !== null) return unfitWords[facts.unfit];
  if (recording.kind === 'practice') return 'Played by the practice deck.';
  if (!recording.now) return `Heard before what is fitted now: ${epochWords(recording.epoch)}.`;
  return null;
}
