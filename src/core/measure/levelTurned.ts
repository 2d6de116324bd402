/**
 * Where somebody turned the level while it recorded: two tones that the record file has alike, motion and frequency, play otherwise against what it states of them
 * than an entry's level may. What is held against a level that was read before it says nothing.
 *
 * One wrong velocity in the file looks the same. Tones of other frequencies or motions are not compared: between those lie response, balance and leaks.
 *
 * @checked levelTurned.test.ts
 */
import { type Problem, withheld } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import { CHANNELS } from './channels.ts';
import { heardIn } from './referenceLevel.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { DB_PER_NEPER, sameTone } from './toneLevels.ts';

export interface LevelTurn {
  /** s: the first tone's end and the second one's start, between which it was */
  readonly fromS: number;
  readonly toS: number;
  /** by so much the second plays louder */
  readonly db: number;
}

type Span = Pick<LevelTurn, 'fromS' | 'toS'>;

/** The shortest such spans, in order. @param flat captured without playback equalisation */
export function levelTurns(side: SideReadings, flat: boolean): LevelTurn[] {
  const tones = side.tones.filter(({ cut }) => cut?.peakVelocityCmS !== undefined);
  const all = tones.flatMap((a) =>
    tones.flatMap((b): LevelTurn[] => {
      const isPair = a.endS <= b.startS && a.cut?.motion === b.cut?.motion && sameTone(a.meanHz, b.meanHz);
      const db = isPair ? louder(a, b, flat) : 0;
      return Math.abs(db) > side.assumed.agreement.levelDb ? [{ fromS: a.endS, toS: b.startS, db }] : [];
    }),
  );
  const holdsAnother = ({ fromS, toS }: LevelTurn): boolean =>
    all.some((one) => one.fromS >= fromS && one.toS <= toS && one.toS - one.fromS < toS - fromS);
  return all.filter((turn) => !holdsAnother(turn)).sort((a, b) => a.fromS - b.fromS);
}

function louder(a: ToneBand, b: ToneBand, flat: boolean): number {
  const steps = CHANNELS.flatMap((channel) => {
    const [before, after] = [heardIn(a, channel, flat), heardIn(b, channel, flat)];
    return before === null || after === null ? [] : [DB_PER_NEPER * (after.logLevel - before.logLevel)];
  });
  return steps.length === 0 ? 0 : steps.reduce((sum, step) => sum + step, 0) / steps.length;
}

/** The turn that may lie between any two of some stretches; null where none does. */
export function turnAmong(
  turns: readonly LevelTurn[],
  stretches: readonly { startS: number; endS: number }[],
): LevelTurn | null {
  const fromS = Math.min(...stretches.map(({ endS }) => endS));
  const toS = Math.max(...stretches.map(({ startS }) => startS));
  return fromS < toS ? (turns.find((turn) => overlaps(turn, { fromS, toS })) ?? null) : null;
}

const overlaps = (a: Span, b: Span): boolean => a.fromS < b.toS && b.fromS < a.toS;

export const withheldByTurn = (quantities: readonly string[], { fromS, toS, db }: LevelTurn): Problem[] =>
  quantities.map((quantity) => withheld(quantity, statement('level-turned', { fromS, toS, db })));
