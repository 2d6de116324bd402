/** What is done at Place: kept with the station, and told to the job as moves. */

import type { Job } from '../../../core/job/api.ts';
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { withMove } from '../../../core/job/moveRecord.ts';
import {
  baseMove,
  type Did,
  placeMove,
  predictedAfter,
  slideWords,
  standsAs,
  twistWords,
} from '../../../core/job/stations/place/madeMoves.ts';
import { emptied } from '../../../core/job/stations/place/readRequest.ts';
import type { Solved } from '../../../core/job/stations/place/solved.ts';
import type { PlaceTyped } from '../../../core/job/stations/place.ts';
import { makeMove, undoMove } from '../../jobState.ts';
import type { Station } from '../../useStation.ts';

type PlaceAnswer = Extract<Solved, { kind: 'place' }>;

export function placeActs(job: Pick<Job, 'id' | 'fittings'>, { data, set }: Station<PlaceTyped>) {
  const moves = data.moves ?? [];
  return {
    moved({ place, request }: PlaceAnswer, did: Did): void {
      const [stands, before, foretold] = [place.asItStands, standsAs(place), predictedAfter(place, request, did)];
      if (stands === null || before === null || foretold === null) return;
      const slideMm = did.slide ? stands.slideMm.value : null;
      const twistDeg = did.twist && stands.twistDeg !== null ? stands.twistDeg.value : null;
      const at = new Date().toISOString();
      set({
        moves: withMove(
          moves,
          placeMove({ slideMm, twistDeg }, { at, before, foretold, reading: data.read ?? {} }),
          epochNow(epochsOf(job.fittings)).began,
        ),
        read: emptied(data.read ?? {}),
      });
      const step = { station: 'place', step: at } as const;
      if (slideMm !== null) makeMove(job.id, { move: 'slide', ...step, note: slideWords(slideMm), by: slideMm });
      if (twistDeg !== null) makeMove(job.id, { move: 'twist', ...step, note: twistWords(twistDeg), by: twistDeg });
    },
    /** The whole base: how far it went nobody measures, so that it always marks. */
    baseMoved({ place }: PlaceAnswer): void {
      const at = new Date().toISOString();
      const known = data.arm?.known ?? 'spindle-to-pivot';
      const move = baseMove(place, known, { at, reading: data.read ?? {} });
      if (move === null) return;
      set({ moves: withMove(moves, move, epochNow(epochsOf(job.fittings)).began), read: emptied(data.read ?? {}) });
      makeMove(job.id, { move: 'set-pivot-distance', station: 'place', step: at });
    },
    takenBack(): void {
      const last = moves.at(-1);
      if (last === undefined) return;
      set({ moves: moves.slice(0, -1), read: last.reading });
      undoMove(job.id, last.at);
    },
  };
}
