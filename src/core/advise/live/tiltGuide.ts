/**
 * From live readings of the tilt to the next movement of the hand: turn on, wait, inside once, good enough.
 *
 * A reading has settled when its band is over and its ± from the signal is small enough. Two settled readings inside the limit, one
 * after the other, are good enough: one alone may be luck. They must be two readings: a band that was played once counts once, though
 * it tells the tilt with its partner before it and again with the one after it.
 *
 * @checked tiltGuide.test.ts
 */
import { type Statement, statement } from '../../words/statement.ts';
import type { Advice, SideDocument } from '../document.ts';
import { isTurn, signedTurn } from '../turn.ts';

export interface TiltReading {
  /** deg, clockwise seen from the cartridge's face positive */
  readonly tiltDeg: number;
  /** deg, k = 2, with what the record may hide; null where there is none */
  readonly uncertaintyDeg: number | null;
  /** deg, k = 2, of the signal alone: what shrinks while a band plays */
  readonly spreadDeg: number | null;
  /** a turn would not be worth it */
  readonly inside: boolean;
  /** deg to turn, clockwise positive; 0 where none is advised */
  readonly turnDeg: number;
  /** of the advised turn: separations that it should bring, dB */
  readonly predicts: Advice['predicts'];
}

/** A reading whose band is over. */
export interface SettledTilt extends TiltReading {
  /** names of the bands that it rests on, each playing its own */
  readonly bands: readonly string[];
}

type Told = Pick<SideDocument, 'findings' | 'advice'>;

/** @returns null where the figures hold no tilt */
export function tiltReading({ findings, advice }: Told): TiltReading | null {
  const tilt = findings.find(({ quantity }) => quantity === 'azimuth-error');
  if (tilt === undefined || typeof tilt.value !== 'number') return null;
  const turn = advice.find(isTurn);
  return {
    tiltDeg: tilt.value,
    uncertaintyDeg: tilt.uncertainty,
    spreadDeg: tilt.repeatability ?? null,
    inside: turn === undefined,
    turnDeg: turn === undefined ? 0 : signedTurn(turn),
    predicts: turn?.predicts ?? [],
  };
}

export type GuideState = 'waiting' | 'settling' | 'turn' | 'good-once' | 'good-enough';

export interface Guide {
  readonly state: GuideState;
  readonly says: Statement;
}

/** k = 2, deg: wider than this the hand waits for the reading to settle */
const SETTLED_DEG = 0.15;

export const hasSettled = ({ spreadDeg }: TiltReading): boolean => spreadDeg !== null && spreadDeg <= SETTLED_DEG;

/** Readings inside the limit up to the newest, none of them on a band of another. @param settled oldest first */
function insideInARow(settled: readonly SettledTilt[]): number {
  const used = new Set<string>();
  let count = 0;
  for (const { inside, bands } of settled.toReversed()) {
    if (!inside) break;
    if (bands.some((band) => used.has(band))) continue;
    for (const band of bands) used.add(band);
    count += 1;
  }
  return count;
}

/**
 * @param now while a band plays; null between bands
 * @param settled oldest first
 */
export function guideTilt(now: TiltReading | null, settled: readonly SettledTilt[]): Guide {
  const last = settled.at(-1);
  const reading = now ?? last;
  if (reading === undefined) return { state: 'waiting', says: statement('guide-both-bands') };
  if (!hasSettled(reading)) return { state: 'settling', says: statement('guide-wait') };
  if (!reading.inside) {
    const way = reading.turnDeg > 0 ? 'clockwise' : 'anticlockwise';
    return { state: 'turn', says: statement('guide-turn', { way, by: Math.abs(reading.turnDeg) }) };
  }
  return insideInARow(settled) >= 2
    ? { state: 'good-enough', says: statement('guide-good-enough') }
    : { state: 'good-once', says: statement('guide-good-once') };
}
