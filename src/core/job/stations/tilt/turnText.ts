/** What a card shows large of an advised turn, and what is left to be said below. */
import type { Advice } from '../../../advise/document.ts';
import { type Shim, shim, sidesStatement, turnCodes } from '../../../advise/turn.ts';
import { say, sayAll } from '../../../words/statement.ts';

export interface TurnText {
  readonly way: 'clockwise' | 'anticlockwise';
  /** which side goes up, which down */
  readonly sides: string;
  readonly shim: Shim;
  /** a tube that turns behind the headshell; empty in documents that an earlier version wrote */
  readonly tube: string;
  /** what to look at before anything is turned; empty where nothing speaks against the turn */
  readonly first: string;
  /** what it brings, and what it risks; empty where no record could tell */
  readonly brings: string;
  /** sentences that belong to this case: a hidden tilt, an assumption */
  readonly more: string;
}

const MIRROR_FIRST = 'mirror-first';
const BRINGS = 'turn-benefit';
const elsewhere: readonly string[] = [MIRROR_FIRST, BRINGS, ...turnCodes];

/** @param tiltDeg tilt present, clockwise seen from the cartridge's face positive */
export function turnText(tiltDeg: number, advice: Advice): TurnText {
  const { reasons = [] } = advice;
  return {
    way: advice.direction?.startsWith('anticlockwise') ? 'anticlockwise' : 'clockwise',
    sides: say(sidesStatement(tiltDeg)),
    shim: shim(tiltDeg),
    tube: sayAll(reasons.filter(({ code }) => code === 'turn-tube')),
    first: sayAll(reasons.filter(({ code }) => code === MIRROR_FIRST)),
    brings: sayAll(reasons.filter(({ code }) => code === BRINGS)),
    more: sayAll(reasons.filter(({ code }) => !elsewhere.includes(code))),
  };
}

/** dB; separations closer than this look alike on a meter */
const ALIKE_DB = 1;

/** The bench's usual rule would see nothing wrong here. */
export const looksEqual = (leftToRightDb: number, rightToLeftDb: number): boolean =>
  Math.abs(leftToRightDb - rightToLeftDb) < ALIKE_DB;
