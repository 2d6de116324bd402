/** Every move of a job that says what it should bring, from all stations, beside what came: the report's one table of moves. */
import type { AdviceEntry, CaptureEntry, PredictionCheck } from './api.ts';
import { cameFrom, checkMove, type MoveFigure, type MoveRecord } from './moveRecord.ts';
import type { StationName } from './station.ts';
import { checkMove as checkPlaceMove, doneWords, named, standsAs } from './stations/place/madeMoves.ts';
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

const what = { 'set-force': 'force', 'set-arm-height': 'arm height' } as const;

function ofRecord(record: MoveRecord, captures: readonly CaptureEntry[]): MoveTold {
  const { at, station, move, amount, unit, direction, foretold } = record;
  const name = what[move as keyof typeof what] ?? move.replaceAll('-', ' ');
  const by = amount === null ? 'set' : `${amount.toFixed(1)} ${unit} ${direction ?? ''}`.trim();
  const came = record.came?.figures ?? cameFrom(record, captures);
  return { at, station, did: `${name} ${by}`, foretold, checks: checkMove(record, came) };
}

function ofPlace(place: PlaceTyped): MoveTold[] {
  const { moves = [] } = place;
  if (moves.length === 0) return [];
  const now = solved(place);
  const stands = now.kind === 'place' ? standsAs(now.place) : null;
  return moves.map((move, i) => {
    const read = move.read ?? (i === moves.length - 1 ? stands : null);
    return {
      at: move.at,
      station: 'place' as const,
      did: doneWords(move),
      foretold: named(move.predicted),
      checks: read === null ? [] : checkPlaceMove(move, read),
    };
  });
}

/** A turn or another move that a recording asked for and that was made; its checks are kept with the advice. */
function ofAdvice({ advice, outcome, givenAt, checks }: AdviceEntry): MoveTold[] {
  if (outcome.did !== 'done') return [];
  const amount =
    advice.amount === null ? '' : ` ${advice.amount.toFixed(2)}${advice.unit === 'deg' ? '°' : ` ${advice.unit}`}`;
  return [
    {
      at: outcome.at ?? givenAt,
      station: 'tilt',
      did: `${advice.action.replaceAll('-', ' ')}${amount}${advice.direction === null ? '' : ` ${advice.direction.replaceAll('-', ' ')}`}`,
      foretold: advice.predicts,
      checks,
    },
  ];
}

/** Oldest first. */
export function movesMade({ stations, captures }: JobTyped, advice: readonly AdviceEntry[]): readonly MoveTold[] {
  const records = [...(stations.weigh.moves ?? []), ...(stations.height.moves ?? [])];
  return [
    ...records.map((record) => ofRecord(record, captures)),
    ...ofPlace(stations.place),
    ...advice.flatMap(ofAdvice),
  ].sort((a, b) => a.at.localeCompare(b.at));
}
