/** What a bench knows of arm and cartridge, as tests of Weigh and Height write it: figures by name, all typed. */
import type { Facts } from '../../fields/benchFacts.ts';
import type { FactName } from '../../fields/factFields.ts';
import { type MatchData, type MatchReading, readMatch } from '../match/matchData.ts';

export const knownAs = (figures: Readonly<Partial<Record<FactName, number>>>): Facts =>
  Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, { value, from: 'typed here' }]));

/** A nine-inch arm with its counterweight, and how it swings. */
export const armFigures = {
  effectiveLengthMm: 240,
  spindleToPivotMm: 223,
  counterweightMassG: 100,
  movingMassG: 215,
  centreBelowPivotMm: 4,
  pivotAboveTipMm: 18,
} as const;
export const swinging = knownAs(armFigures);

export const nothingMatched: MatchReading = readMatch({});
export const matched = (data: Partial<MatchData>): MatchReading => readMatch(data);
