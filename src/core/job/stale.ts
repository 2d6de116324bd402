/**
 * What a move makes stale, as data with the reason as a statement. A station that was never worked at cannot become stale,
 * and the station at which the move is made looks after itself.
 *
 * Source: [CP] workshop practice ("recheck the force after every move of the cartridge"); the mechanical reasons are in
 * docs/store.md. A dependency whose size can be worked out for this arm carries it (`moveEffects.ts`): under the tolerance
 * it is noted, not marked. One without a size is always marked: loosened screws tell nobody by how much.
 */

import type { movedLabels, staleReasons } from '../words/moved.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type EffectOf, effects } from './moveEffects.ts';
import type { MoveName } from './moves.ts';
import { isStationName, type StationName, stationNames } from './station.ts';

export interface StaleMark {
  readonly station: StationName;
  /** what was done, and why what was set or measured there need not hold any more */
  readonly moved: Statement;
  readonly reason: Statement;
}

interface Dependency {
  readonly because: keyof typeof staleReasons;
  /** how much, where this arm is known well enough; left out where nothing tells */
  readonly effect?: EffectOf;
}

interface MoveEffect {
  /** what was done, to stand at the head of a reason: "The cartridge was slid in its slots" */
  readonly said: keyof typeof movedLabels;
  readonly makesStale: Readonly<Partial<Record<StationName, Dependency>>>;
}

export const moveEffects: Readonly<Record<MoveName, MoveEffect>> = {
  'change-cartridge': {
    said: 'cartridge-was-fitted',
    makesStale: {
      match: { because: 'cartridge-not-matched' },
      fit: { because: 'cartridge-pins' },
      weigh: { because: 'cartridge-mass' },
      place: { because: 'cartridge-tip' },
      height: { because: 'cartridge-body' },
      tilt: { because: 'cartridge-generator' },
      run: { because: 'run-before-it' },
    },
  },
  'change-stylus': {
    said: 'stylus-was-changed',
    makesStale: {
      weigh: { because: 'stylus-mass' },
      place: { because: 'stylus-tip' },
      height: { because: 'stylus-cantilever' },
      tilt: { because: 'stylus-tilt' },
      run: { because: 'run-before-it' },
    },
  },
  'change-arm': {
    said: 'arm-was-fitted',
    makesStale: {
      match: { because: 'arm-not-matched' },
      fit: { because: 'arm-leads' },
      weigh: { because: 'arm-balance' },
      place: { because: 'arm-length' },
      height: { because: 'arm-pivot-height' },
      tilt: { because: 'arm-headshell' },
      run: { because: 'run-before-it' },
    },
  },
  'change-hardware': {
    said: 'hardware-was-changed',
    makesStale: {
      match: { because: 'hardware-mass' },
      fit: { because: 'hardware-threads' },
      weigh: { because: 'front-mass-changed' },
      place: { because: 'cartridge-was-loose' },
      height: { because: 'hardware-thickness' },
      tilt: { because: 'cartridge-was-loose' },
      run: { because: 'run-before-it' },
    },
  },
  'change-counterweight': {
    said: 'counterweight-was-changed',
    makesStale: {
      match: { because: 'counterweight-moves-mass' },
      weigh: { because: 'balance-is-another' },
      run: { because: 'run-before-it' },
    },
  },
  slide: {
    said: 'cartridge-was-slid',
    makesStale: {
      weigh: {
        because: 'weight-moved-along',
        effect: effects.slide.force,
      },
      height: {
        because: 'tip-moved-along',
        effect: effects.slide.angle,
      },
      tilt: { because: 'screws-were-loose' },
      run: { because: 'run-before-it', effect: effects.slide.own },
    },
  },
  twist: {
    said: 'cartridge-was-twisted',
    makesStale: {
      weigh: { because: 'force-after-every-move', effect: effects.twist.force },
      tilt: { because: 'screws-were-loose' },
      run: { because: 'run-before-it', effect: effects.twist.own },
    },
  },
  'turn-shell': {
    said: 'headshell-was-turned',
    makesStale: {
      weigh: { because: 'force-after-every-move', effect: effects.turn.force },
      place: {
        because: 'tip-moved-sideways',
        effect: effects.turn.overhang,
      },
      run: { because: 'run-before-it', effect: effects.turn.own },
    },
  },
  shim: {
    said: 'shim-was-put',
    makesStale: {
      match: { because: 'shim-mass' },
      fit: { because: 'shim-threads', effect: effects.shim.threads },
      weigh: { because: 'shim-front-mass' },
      place: { because: 'cartridge-was-loose' },
      height: { because: 'shim-lower', effect: effects.shim.angle },
      run: { because: 'run-before-it', effect: effects.shim.own },
    },
  },
  'set-force': {
    said: 'force-was-set',
    makesStale: {
      // set at another station, where nobody weighs it; at Weigh itself it marks nothing there
      weigh: { because: 'force-not-weighed' },
      height: {
        because: 'cantilever-by-force',
        effect: effects.force.angle,
      },
      run: { because: 'run-before-it', effect: effects.force.own },
    },
  },
  'set-arm-height': {
    said: 'height-was-changed',
    makesStale: {
      weigh: { because: 'force-by-height', effect: effects.height.force },
      place: { because: 'pivot-draws-tip', effect: effects.height.overhang },
      tilt: {
        because: 'height-tilts-headshell',
        effect: effects.height.tilt,
      },
      run: { because: 'run-before-it', effect: effects.height.own },
    },
  },
  'set-skating': {
    said: 'skating-was-changed',
    makesStale: {
      // as the force: at Weigh itself it marks nothing there
      weigh: { because: 'skating-not-as-set' },
      run: { because: 'run-before-it' },
    },
  },
  'set-pivot-distance': {
    said: 'base-was-moved',
    makesStale: {
      place: {
        because: 'solved-for-other-pivot',
        effect: effects.pivot.own,
      },
      height: { because: 'base-was-loose' },
      run: { because: 'run-before-it', effect: effects.pivot.own },
    },
  },
  'level-deck': {
    said: 'deck-was-levelled',
    makesStale: {
      weigh: { because: 'level-swings-arm' },
      run: { because: 'run-before-it' },
    },
  },
  rewire: {
    said: 'leads-were-changed',
    makesStale: {
      fit: { because: 'colours-again' },
      tilt: { because: 'order-rests-on-leads' },
      run: { because: 'run-before-it' },
    },
  },
  'set-load': {
    said: 'load-was-changed',
    makesStale: {
      match: { because: 'response-other-load' },
      tilt: { because: 'levels-other-settings' },
      run: { because: 'run-before-it' },
    },
  },
  'set-earth': { said: 'earth-was-changed', makesStale: { run: { because: 'run-before-it' } } },
  'set-speed': { said: 'speed-was-adjusted', makesStale: { run: { because: 'run-before-it' } } },
};

/** The moves that are made at a station; none at Intake and Hand over. */
export const movesAtStation: Readonly<Record<StationName, readonly MoveName[]>> = {
  intake: [],
  match: ['change-cartridge', 'change-arm', 'change-hardware', 'change-counterweight', 'set-load'],
  fit: ['change-cartridge', 'change-stylus', 'change-hardware', 'rewire'],
  weigh: ['set-force', 'change-counterweight', 'level-deck'],
  place: ['slide', 'twist', 'set-pivot-distance'],
  height: ['set-arm-height'],
  tilt: ['turn-shell', 'shim'],
  run: ['set-speed', 'set-earth', 'set-skating'],
  'hand-over': [],
};

/**
 * Which stations to look at again after a move, in the order of the work, each with its reason.
 *
 * Given a station, it is everything that any move made there may touch. That station itself is left out.
 * Whatever makes another station stale makes Hand over stale as well.
 */
export function whatMoveMakesStale(moveOrStation: MoveName | StationName): readonly StaleMark[] {
  const atStation = isStationName(moveOrStation) ? moveOrStation : null;
  const moves = isStationName(moveOrStation) ? movesAtStation[moveOrStation] : [moveOrStation];
  const marks: StaleMark[] = [];
  for (const station of stationNames) {
    if (station === atStation) continue;
    const [touched] = moves.flatMap((name) => {
      const { said, makesStale } = moveEffects[name];
      const because = makesStale[station]?.because;
      return because === undefined ? [] : [{ station, moved: statement(said), reason: statement(because) }];
    });
    if (touched !== undefined) marks.push(touched);
    else if (station === 'hand-over' && marks.length > 0) {
      const moved = statement(moveEffects[moves[0]].said);
      marks.push({ station, moved, reason: statement('report-before-it') });
    }
  }
  return marks;
}

/** "The cartridge was slid in its slots: its weight is nearer to or further from the pivot, so the force has changed." */
export const markTold = ({ moved, reason }: Pick<StaleMark, 'moved' | 'reason'>): Statement =>
  statement('mark', { moved, reason });
