/** Whether the newest recording that says something of a station still asks for a move there. */
import { isTurn } from '../advise/turn.ts';
import { followed } from './adviceMoves.ts';
import type { AdviceEntry, Job } from './api.ts';
import { ofWhatIsFitted } from './recordings.ts';
import type { StationName } from './station.ts';

/** Where a hand follows it; null for advice that moves nothing. */
function stationOf({ advice }: AdviceEntry): StationName | null {
  if (isTurn(advice)) return 'tilt';
  return Object.hasOwn(followed, advice.action) ? followed[advice.action].station : null;
}

/** A later recording that tells this takes the place of what earlier ones advised. */
const toldBy: Partial<Record<StationName, string>> = {
  place: 'overhang-heard',
  height: 'vertical-tracking-error',
  tilt: 'azimuth-error',
};

/** Of recordings that count of what is fitted now: the newest that speaks of this station advises a move that nobody answered yet. */
export function isMoveAsked(job: Job, station: StationName): boolean {
  const here = job.advice.filter((entry) => stationOf(entry) === station);
  const newest = ofWhatIsFitted(job).findLast(
    ({ id, findings }) =>
      findings.some(({ quantity }) => quantity === toldBy[station]) || here.some(({ captureId }) => captureId === id),
  );
  return here.some(({ captureId, outcome }) => captureId === newest?.id && outcome.did === 'open');
}
