/** Every move of a job that says what it should bring, from all stations, beside what came: the report's one table of moves. */

import type { Advice } from '../advise/document.ts';
import { quantityOf } from '../words/quantities.ts';
import { type Followed, followed } from './adviceMoves.ts';
import type { AdviceEntry, PredictionCheck } from './api.ts';
import { epochNow, epochsOf } from './epochs.ts';
import { knownElsewhere } from './fields/benchFacts.ts';
import { cameFrom, checkMove, type MoveFigure, type MoveRecord, moveWords } from './moveRecord.ts';
import { heardWith } from './recordings.ts';
import type { StationName } from './station.ts';
import type { KnownElsewhere } from './stations/place/armRequest.ts';
import { standsAs } from './stations/place/madeMoves.ts';
import { solved } from './stations/place/solved.ts';
import type { PlaceTyped } from './stations/place.ts';
import type { JobTyped } from './stations/stationModel.ts';
import { separationsRead } from './stations/tilt/meter.ts';
import type { TurnMove } from './stations/tilt/meterMove.ts';

export interface MoveTold {
  readonly at: string;
  readonly station: StationName;
  /** "force 1.5 mN more", "slid 1.2 mm forward" */
  readonly did: string;
  readonly foretold: readonly Pick<MoveFigure, 'quantity' | 'value' | 'unit'>[];
  /** empty while nothing was read after it */
  readonly checks: readonly PredictionCheck[];
}

/** `clockwise-from-front` → "clockwise, seen from the front" */
const directionWords = (direction: string): string =>
  direction
    .replace(/-from-(front|above)$/, ', seen from $1')
    .replace('from front', 'from the front')
    .replaceAll('-', ' ');

/** @param now what was read since, where the record does not keep it yet */
function ofRecord(record: MoveRecord, now: readonly MoveFigure[] | null): MoveTold {
  const { at, station, foretold, came } = record;
  return { at, station, did: moveWords(record), foretold, checks: checkMove(record, came?.figures ?? now) };
}

/** @param since ISO time from which what is fitted now is on the deck; null: from the beginning */
function ofPlace(place: PlaceTyped, known: KnownElsewhere, since: string | null): MoveTold[] {
  const { moves = [] } = place;
  if (moves.length === 0) return [];
  const answer = solved(place, known);
  const stands = answer.kind === 'place' ? standsAs(answer.place) : null;
  // a reading of what is fitted now says nothing of a move made with another cartridge
  const read = (move: MoveRecord) => (since === null || move.at >= since ? stands : null);
  return moves.map((move, i) => ofRecord(move, i === moves.length - 1 ? read(move) : null));
}

/** Where a move that a recording asks for is made, and how it is called once it was. */
const advised: Readonly<Record<string, Pick<Followed, 'station' | 'did'>>> = {
  ...followed,
  tilt: { station: 'tilt', did: 'turned' },
  'trial-tilt': { station: 'tilt', did: 'turned for a trial' },
};

/** Else where its first figure belongs. */
const stationOf = ({ action, predicts }: Advice): StationName =>
  (Object.hasOwn(advised, action) ? advised[action].station : null) ??
  (predicts.length === 0 ? null : quantityOf(predicts[0].quantity).station) ??
  'run';

/** It was answered by the move that was made then. */
const answeredBy = ({ at }: MoveRecord, { outcome }: AdviceEntry): boolean =>
  outcome.did === 'done' && outcome.at === at;

/** Moves that their own stations keep a record of. */
const kept = (records: readonly MoveRecord[], entry: AdviceEntry): boolean =>
  records.some(
    (record) =>
      answeredBy(record, entry) ||
      (record.at >= entry.givenAt && [record, ...(record.also ?? [])].some(({ move }) => move === entry.advice.action)),
  );

/** A turn; where a recording advised it, what came of it is kept with the advice. */
function ofTurn(record: TurnMove, read: readonly MoveFigure[] | null, advice: readonly AdviceEntry[]): MoveTold {
  const told = ofRecord(record, read);
  const entry = record.reading === undefined ? advice.find((one) => answeredBy(record, one)) : undefined;
  if (entry === undefined) return told;
  return {
    ...told,
    did: entry.advice.action === 'trial-tilt' ? `${told.did}, for a trial` : told.did,
    checks: entry.checks.length > 0 ? entry.checks : told.checks,
  };
}

/** A turn or another move that a recording asked for and that was made; its checks are kept with the advice. */
function ofAdvice({ advice, outcome, givenAt, checks }: AdviceEntry): MoveTold[] {
  // advice to leave a thing as it is moves nothing
  if (outcome.did !== 'done' || advice.action.startsWith('leave-')) return [];
  const amount =
    advice.amount === null ? '' : ` ${advice.amount.toFixed(2)}${advice.unit === 'deg' ? '°' : ` ${advice.unit}`}`;
  return [
    {
      at: outcome.at ?? givenAt,
      station: stationOf(advice),
      did: `${advised[advice.action]?.did ?? advice.action.replaceAll('-', ' ')}${amount}${advice.direction === null ? '' : ` ${directionWords(advice.direction)}`}`,
      foretold: advice.predicts,
      checks,
    },
  ];
}

/** Oldest first. */
export function movesMade(job: JobTyped, advice: readonly AdviceEntry[]): readonly MoveTold[] {
  const { stations, fittings } = job;
  const { weigh, place, height, tilt } = stations;
  const turned = tilt.moves ?? [];
  const records: readonly MoveRecord[] = [...(weigh.moves ?? []), ...(height.moves ?? [])];
  const own = [...records, ...turned, ...(place.moves ?? [])];
  const heard = (record: MoveRecord) => cameFrom(record, heardWith(job, record.at));
  // the form was emptied when the last turn by a meter was made: what it shows was read after it
  const lastByMeter = turned.filter(({ reading }) => reading !== undefined).at(-1);
  const byMeter = separationsRead(tilt.meter ?? {});
  return [
    ...records.map((record) => ofRecord(record, heard(record))),
    ...turned.map((record) => ofTurn(record, (record === lastByMeter ? byMeter : null) ?? heard(record), advice)),
    ...ofPlace(place, knownElsewhere(stations), epochNow(epochsOf(fittings)).began),
    ...advice.filter((entry) => !kept(own, entry)).flatMap(ofAdvice),
  ].sort((a, b) => a.at.localeCompare(b.at));
}
