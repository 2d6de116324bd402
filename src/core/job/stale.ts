/**
 * What a move makes stale, as data with the reason in words. A station that was never worked at cannot become stale,
 * and the station at which the move is made looks after itself.
 *
 * Source: [CP] workshop practice ("recheck the force after every move of the cartridge"); the mechanical reasons are in
 * docs/store.md. A dependency whose size can be worked out for this arm carries it (`moveEffects.ts`): under the tolerance
 * it is noted, not marked. One without a size is always marked: loosened screws tell nobody by how much.
 */
import { type EffectOf, effects } from './moveEffects.ts';
import type { MoveName } from './moves.ts';
import { isStationName, type StationName, stationNames } from './station.ts';

export interface StaleMark {
  readonly station: StationName;
  /** one sentence: why what was set or measured there need not hold any more */
  readonly because: string;
}

interface Dependency {
  readonly because: string;
  /** how much, where this arm is known well enough; left out where nothing tells */
  readonly effect?: EffectOf;
}

interface MoveEffect {
  /** what was done, to stand at the head of a reason: "The cartridge was slid in its slots" */
  readonly said: string;
  readonly makesStale: Readonly<Partial<Record<StationName, Dependency>>>;
}

const newFigures = 'the figures of the last run were taken before it';

export const moveEffects: Readonly<Record<MoveName, MoveEffect>> = {
  'change-cartridge': {
    said: 'Another cartridge was fitted',
    makesStale: {
      match: { because: 'its mass, compliance and coils are not those that were matched' },
      fit: { because: 'its pins and mounting holes have to be checked again' },
      weigh: { because: 'its mass differs, and so does the balance' },
      place: { because: 'its tip sits elsewhere under the mounting holes' },
      height: { because: 'its body is taller or lower' },
      tilt: { because: 'its generator has its own angle' },
      run: { because: newFigures },
    },
  },
  'change-stylus': {
    said: 'The stylus was changed',
    makesStale: {
      weigh: { because: 'the new stylus has its own mass and force range' },
      place: { because: 'the new tip need not sit where the old one sat' },
      height: { because: 'the new cantilever has its own angle' },
      tilt: { because: 'the new tip and cantilever have their own angle' },
      run: { because: newFigures },
    },
  },
  'change-arm': {
    said: 'Another arm was fitted',
    makesStale: {
      match: { because: 'its effective mass and its counterweight are not those that were matched' },
      fit: { because: 'its leads and its headshell have to be checked again' },
      weigh: { because: 'its balance is another' },
      place: { because: 'its length and its offset are others' },
      height: { because: 'its pivot is at another height' },
      tilt: { because: 'its headshell is at another angle' },
      run: { because: newFigures },
    },
  },
  'change-hardware': {
    said: 'Headshell, screws or spacer were changed',
    makesStale: {
      match: { because: 'the moving mass is another, and with it the resonance' },
      fit: { because: 'the screws have to reach 3 to 4 threads again' },
      weigh: { because: 'the mass at the front of the arm has changed' },
      place: { because: 'the cartridge was loose in its slots' },
      height: { because: 'the thickness between headshell and cartridge may have changed' },
      tilt: { because: 'the cartridge was loose in its slots' },
      run: { because: newFigures },
    },
  },
  'change-counterweight': {
    said: 'The counterweight was changed',
    makesStale: {
      match: { because: "the arm's effective mass goes with the counterweight's place" },
      weigh: { because: 'the balance is another' },
      run: { because: newFigures },
    },
  },
  slide: {
    said: 'The cartridge was slid in its slots',
    makesStale: {
      weigh: {
        because: 'its weight is nearer to or further from the pivot, so the force has changed',
        effect: effects.slide.force,
      },
      height: {
        because: 'the tip is at another distance from the pivot, so the angle to the groove has changed',
        effect: effects.slide.angle,
      },
      tilt: { because: 'the screws were loose, and the cartridge may have tightened down at another angle' },
      run: { because: newFigures, effect: effects.slide.own },
    },
  },
  twist: {
    said: 'The cartridge was twisted in its slots',
    makesStale: {
      weigh: { because: 'force is weighed again after every move of the cartridge', effect: effects.twist.force },
      tilt: { because: 'the screws were loose, and the cartridge may have tightened down at another angle' },
      run: { because: newFigures, effect: effects.twist.own },
    },
  },
  'turn-shell': {
    said: 'The headshell was turned about the arm',
    makesStale: {
      weigh: { because: 'force is weighed again after every move of the cartridge', effect: effects.turn.force },
      place: {
        because: 'the tip hangs below the axis it was turned about, so it has moved sideways',
        effect: effects.turn.overhang,
      },
      run: { because: newFigures, effect: effects.turn.own },
    },
  },
  shim: {
    said: 'A shim was put under one side of the cartridge',
    makesStale: {
      match: { because: 'the shim adds to the moving mass' },
      fit: { because: 'the screws have to reach through the shim as well', effect: effects.shim.threads },
      weigh: { because: 'the shim adds mass at the front of the arm' },
      place: { because: 'the cartridge was loose in its slots' },
      height: { because: 'the cartridge is further below the headshell', effect: effects.shim.angle },
      run: { because: newFigures, effect: effects.shim.own },
    },
  },
  'set-force': {
    said: 'The tracking force was set anew',
    makesStale: {
      height: {
        because: 'the cantilever is higher or lower under another force, and with it the angle to the groove',
        effect: effects.force.angle,
      },
      run: { because: newFigures, effect: effects.force.own },
    },
  },
  'set-arm-height': {
    said: 'The arm height was changed',
    makesStale: {
      weigh: { because: 'with many arms the force changes with height', effect: effects.height.force },
      place: { because: 'a raised or lowered pivot draws the tip along the arm', effect: effects.height.overhang },
      tilt: {
        because: 'the headshell is at an offset to the bearing, so raising the pivot also tilts it a little',
        effect: effects.height.tilt,
      },
      run: { because: newFigures, effect: effects.height.own },
    },
  },
  'set-skating': { said: 'The anti-skating was changed', makesStale: { run: { because: newFigures } } },
  'set-pivot-distance': {
    said: 'The arm base was moved',
    makesStale: {
      place: {
        because: 'the geometry was solved for another distance between spindle and pivot',
        effect: effects.pivot.own,
      },
      height: { because: 'the base was loose' },
      run: { because: newFigures, effect: effects.pivot.own },
    },
  },
  'level-deck': {
    said: 'The deck was levelled',
    makesStale: {
      weigh: { because: 'an arm balanced by a weight alone swings with the level of the deck' },
      run: { because: newFigures },
    },
  },
  rewire: {
    said: 'The cartridge leads were changed',
    makesStale: {
      fit: { because: 'the colours have to be checked again' },
      tilt: { because: 'polarity and channel order rest on the leads' },
      run: { because: newFigures },
    },
  },
  'set-load': {
    said: 'Load or gain of the preamp was changed',
    makesStale: {
      match: { because: 'the response was worked out for another load' },
      tilt: { because: 'the channel levels were read through other settings' },
      run: { because: newFigures },
    },
  },
  'set-speed': { said: 'The speed was adjusted', makesStale: { run: { because: newFigures } } },
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
  run: ['set-speed', 'set-skating'],
  'hand-over': [],
};

const sheet = 'the report shows what was so before it';

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
    const move = moves.find((name) => moveEffects[name].makesStale[station] !== undefined);
    const reason = move === undefined ? undefined : moveEffects[move].makesStale[station]?.because;
    if (move !== undefined && reason !== undefined) {
      marks.push({ station, because: `${moveEffects[move].said}: ${reason}.` });
    } else if (station === 'hand-over' && marks.length > 0) {
      const [first] = moves;
      marks.push({ station, because: `${moveEffects[first].said}: ${sheet}.` });
    }
  }
  return marks;
}
