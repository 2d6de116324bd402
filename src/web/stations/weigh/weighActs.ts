/** What is done at Weigh: kept with the station, and told to the job as moves. */
import type { AntiSkatingSetting } from '../../../core/advise/skatingSide.ts';
import { forceWords } from '../../../core/job/fields/force.ts';
import type { MoveName } from '../../../core/job/moves.ts';
import { forceMove } from '../../../core/job/stations/weigh/forceMove.ts';
import type { ForceStanding } from '../../../core/job/stations/weigh/forceStanding.ts';
import { keptSetting, reasonAtWeigh, settingNote } from '../../../core/job/stations/weigh/kept.ts';
import type { ForceSet } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { makeMove, undoMove } from '../../jobState.ts';
import type { Station } from '../../useStation.ts';

const MOST_SETS = 30;

/** The reading that the force was set by, unless another was typed since; moved again since, it no longer holds. */
function asBefore({ before }: ForceSet, { gauge, movedHere }: WeighTyped): WeighTyped {
  if (before === undefined || (gauge?.reading ?? '').trim() !== '') return {};
  const { reading, secondReading, readUnder, movedHere: moved } = before;
  return {
    gauge: { ...gauge, reading, secondReading },
    readUnder,
    movedHere: movedHere ?? moved,
  };
}

export function weighActs(jobId: string, station: Station<WeighTyped>, { target, now, nowMn, dialMn }: ForceStanding) {
  const { data, status, set } = station;
  const sets = data.sets ?? [];
  const last = sets.at(-1);
  const { alsoMoved = [] } = data;
  const lastMoved = alsoMoved.filter(({ at }) => at > (last?.at ?? '')).at(-1);
  return {
    /** @param left it stays as it was found */
    setForce(by: ForceSet['by'], left: boolean): void {
      const mn = by === 'gauge' ? nowMn?.value : dialMn;
      if (mn === undefined || mn === null || target === null) return;
      const entry: ForceSet = {
        at: new Date().toISOString(),
        by,
        mn,
        uncertaintyMn: by === 'gauge' ? (nowMn?.uncertainty ?? null) : null,
        targetMn: target.mn,
        dialMn,
        calibrated: now?.calibrated === true,
        left,
        before: {
          reading: data.gauge?.reading ?? '',
          secondReading: data.gauge?.secondReading ?? '',
          ...(data.readUnder === undefined ? {} : { readUnder: data.readUnder }),
          movedHere: data.movedHere ?? null,
        },
      };
      // the reading now stands with the force that was left; the next one is typed anew
      set({
        sets: [...sets, entry].slice(-MOST_SETS),
        ...(left ? {} : { moves: [...(data.moves ?? []), forceMove(entry, last)].slice(-MOST_SETS) }),
        gauge: { ...data.gauge, reading: '', secondReading: '' },
        movedHere: null,
      });
      station.setStatus('done');
      const size = last === undefined ? {} : { by: mn - last.mn };
      if (!left)
        makeMove(jobId, { move: 'set-force', station: 'weigh', note: forceWords(mn), step: entry.at, ...size });
    },
    undoSet(): void {
      if (last === undefined) return;
      set({
        sets: sets.slice(0, -1),
        moves: (data.moves ?? []).filter(({ at }) => at !== last.at),
        ...asBefore(last, data),
      });
      station.setStatus('now');
      if (!last.left) undoMove(jobId, last.at);
    },
    moved(move: MoveName): void {
      // a move made here does not make Weigh itself stale in the job: its page looks after that
      const at = new Date().toISOString();
      const entry = { move, at, wasDone: status === 'done' };
      set({
        movedHere: reasonAtWeigh(move) === undefined ? null : { move, at },
        alsoMoved: [...alsoMoved, entry].slice(-MOST_SETS),
      });
      if (status === 'done') station.setStatus('now');
      makeMove(jobId, { move, station: 'weigh', step: at });
    },
    /** the newest move made here since the force was set; undefined where there is none to take back */
    lastMoved,
    undoMoved(): void {
      if (lastMoved === undefined) return;
      const rest = alsoMoved.slice(0, -1);
      const before = rest.filter(({ at }) => at > (last?.at ?? '')).at(-1);
      set({ movedHere: before === undefined ? null : { move: before.move, at: before.at }, alsoMoved: rest });
      if (lastMoved.wasDone && status === 'now') station.setStatus('done');
      undoMove(jobId, lastMoved.at);
    },
    setSkating(setting: AntiSkatingSetting): void {
      const at = new Date().toISOString();
      set({ skatingSet: { at, setting: keptSetting(setting.says) } });
      makeMove(jobId, { move: 'set-skating', station: 'weigh', note: settingNote(setting), step: at });
    },
    undoSkating(): void {
      if (data.skatingSet === undefined || data.skatingSet === null) return;
      set({ skatingSet: null });
      undoMove(jobId, data.skatingSet.at);
    },
  };
}
