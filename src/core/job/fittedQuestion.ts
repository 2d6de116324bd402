/** Whether a part that is picked at Match has to be asked after: fitted, or only looked at. */
import type { CaptureEntry, Job } from './api.ts';
import { epochNow, epochsOf, type FittedKind, fittedKinds } from './epochs.ts';
import type { PartKind } from './partFields.ts';
import { ofWhatIsFitted } from './recordings.ts';
import type { IntakeTyped } from './stations/intake.ts';
import { type MatchData, type Picked, pickedOf } from './stations/match/matchData.ts';
import type { MatchTyped } from './stations/match.ts';

export const isFittedKind = (kind: PartKind): kind is PartKind & FittedKind =>
  (fittedKinds as readonly string[]).includes(kind);

/** What of a kind stands on the deck by name: as fitted, as picked, or as Intake has it; '' where nobody said. */
export function standingName(
  job: Pick<Job, 'fittings'>,
  kind: PartKind,
  match: MatchTyped,
  intake: IntakeTyped,
): string {
  const fitted = isFittedKind(kind) ? epochNow(epochsOf(job.fittings)).fitted[kind] : undefined;
  if (fitted !== undefined) return fitted;
  const picked = pickedOf(match, kind);
  return picked?.part.name ?? (kind === 'cartridge' ? (intake.cartridge?.trim() ?? '') : '');
}

/**
 * A part of another name than what is known to be there is asked after; and the first of its kind once what is on the deck
 * was recorded, since the recording may be of another.
 */
export function asksWhetherFitted(
  job: Pick<Job, 'fittings' | 'practice'> & { readonly captures: readonly CaptureEntry[] },
  kind: PartKind,
  picked: Picked,
  match: MatchTyped,
  intake: IntakeTyped,
): boolean {
  if (!isFittedKind(kind)) return false;
  const standing = standingName(job, kind, match, intake);
  if (standing === picked.part.name) return false;
  return standing !== '' || ofWhatIsFitted(job).length > 0;
}

/** Match's data as the parts looked at would have it. */
export const asLookedAt = (data: Partial<MatchData>): Partial<MatchData> =>
  data.looked === undefined ? data : { ...data, parts: { ...data.parts, ...data.looked } };

/** Figures typed at Match that are the part's own: another part of the kind does not have them. */
export const ownFigures: Readonly<Partial<Record<PartKind, readonly string[]>>> = {
  cartridge: [
    'cartridgeMassG',
    'complianceUmPerMn',
    'complianceLateralUmPerMn',
    'trackingForceMn',
    'trackingForceMinMn',
    'trackingForceMaxMn',
    'trackingForceRecommendedMn',
    'coilResistanceOhm',
    'coilInductanceMh',
    'outputMv',
    'wantedCapacitanceMinPf',
    'wantedCapacitanceMaxPf',
    'wantedLoadOhm',
    'complianceAt',
    'principle',
  ],
  headshell: ['headshellMassG'],
  arm: [
    'effectiveMassG',
    'effectiveMassLateralG',
    'effectiveLengthMm',
    'armMomentGMm',
    'stubFromMm',
    'stubToMm',
    'cartridgeMassMinG',
    'cartridgeMassMaxG',
    'effectiveMassIs',
  ],
  preamp: ['gainDb', 'maxOutputV', 'inputNoiseNvPerRootHz', 'inputNoisePaPerRootHz'],
};

const without = <T extends object>(record: T | undefined, names: readonly string[]): T =>
  Object.fromEntries(Object.entries(record ?? {}).filter(([name]) => !names.includes(name))) as T;

/** Match's data once a part that was looked at is on the deck; figures typed for what it replaces go with that. */
export function onTheDeck(data: Partial<MatchData>, kind: PartKind, picked: Picked | null): Partial<MatchData> {
  const gone = ownFigures[kind] ?? [];
  return {
    parts: { ...data.parts, [kind]: picked },
    looked: without(data.looked, [kind]),
    typed: without(data.typed, gone),
    typical: without(data.typical, gone),
    said: without(data.said, gone),
  };
}
