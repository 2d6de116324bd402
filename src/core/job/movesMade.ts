/** Every move of a job that says what it should bring, from all stations, beside what came: the report's one table of moves. */

import type { Advice } from '../advise/document.ts';
import { quantityOf } from '../words/quantities.ts';
import type { AdviceEntry, PredictionCheck } from './api.ts';
import { epochNow, epochsOf } from './epochs.ts';
import { knownElsewhere } from './fields/benchFacts.ts';
import { cameFrom, checkMove, type MoveFigure, type MoveRecord, type MoveStep } from './moveRecord.ts';
import { heardWith } from './recordings.ts';
import type { StationName } from './station.ts';
import type { KnownElsewhere } from './stations/place/armRequest.ts';
import { standsAs } from './stations/place/madeMoves.ts';
import { solved } from './stations/place/solved.ts';
import type { PlaceTyped } from './stations/place.ts';
import type { JobTyped } from './stations/stationModel.ts';

export interface MoveTold {
  readonly at: string;
  readonly station: StationName;
  /** "force 1.5 mN more", "slid 1.2 mm forward" */
  readonly did: string;
  readonly foretold: readonly Pick<MoveFigure, 'quantity' | 'value' | 'unit'>[];
  /** empty while nothing was read after it */
  readonly checks: readonly PredictionCheck[];
}

const what = {
  'set-force': 'force',
  'set-arm-height': 'arm height',
  slide: 'slid',
  twist: 'twisted',
  tilt: 'turned',
  'trial-tilt': 'turned for a trial',
} as const;

/** `clockwise-from-front` → "clockwise, seen from the front" */
const directionWords = (direction: string): string =>
  direction
    .replace(/-from-(front|above)$/, ', seen from $1')
    .replace('from front', 'from the front')
    .replaceAll('-', ' ');

function stepWords({ move, amount, unit, direction }: MoveStep): string {
  const name = what[move as keyof typeof what] ?? move.replaceAll('-', ' ');
  if (amount === null) return `${name} set`;
  return `${name} ${amount.toFixed(1)}${unit === 'deg' ? '°' : ` ${unit}`} ${direction ?? ''}`.trim();
}

/** @param now what was read since, where the record does not keep it yet */
function ofRecord(record: MoveRecord, now: readonly MoveFigure[] | null): MoveTold {
  const { at, station, also = [], foretold, came } = record;
  const did = [record, ...also].map(stepWords).join('; ');
  return { at, station, did, foretold, checks: checkMove(record, came?.figures ?? now) };
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
const advised: Readonly<Record<string, { readonly station: StationName; readonly did?: string }>> = {
  tilt: { station: 'tilt' },
  'trial-tilt': { station: 'tilt' },
  speed: { station: 'run', did: 'speed set' },
  hum: { station: 'run', did: 'hum worked at' },
  'reverse-one-channel': { station: 'fit', did: 'leads of one channel changed over' },
  'swap-channels': { station: 'fit', did: 'left and right changed over' },
  'set-arm-height': { station: 'height' },
};

/** Else where its first figure belongs. */
const stationOf = ({ action, predicts }: Advice): StationName =>
  (Object.hasOwn(advised, action) ? advised[action].station : null) ??
  (predicts.length === 0 ? null : quantityOf(predicts[0].quantity).station) ??
  'run';

/** Moves that their own stations keep a record of. */
const kept = (records: readonly MoveRecord[], { advice, givenAt }: AdviceEntry): boolean =>
  records.some(({ move, at }) => move === advice.action && at >= givenAt);

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
      did: `${advised[advice.action]?.did ?? what[advice.action as keyof typeof what] ?? advice.action.replaceAll('-', ' ')}${amount}${advice.direction === null ? '' : ` ${directionWords(advice.direction)}`}`,
      foretold: advice.predicts,
      checks,
    },
  ];
}

/** Oldest first. */
export function movesMade(job: JobTyped, advice: readonly AdviceEntry[]): readonly MoveTold[] {
  const { stations, fittings } = job;
  const records = [...(stations.weigh.moves ?? []), ...(stations.height.moves ?? [])];
  return [
    ...records.map((record) => ofRecord(record, cameFrom(record, heardWith(job, record.at)))),
    ...ofPlace(stations.place, knownElsewhere(stations), epochNow(epochsOf(fittings)).began),
    ...advice.filter((entry) => !kept(records, entry)).flatMap(ofAdvice),
  ].sort((a, b) => a.at.localeCompare(b.at));
}
