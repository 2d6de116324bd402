/**
 * What a move makes stale, as data with the reason in words. A station that was never worked at cannot become stale,
 * and the station at which the move is made looks after itself.
 *
 * Source: [CP] workshop practice ("recheck the force after every move of the cartridge"); the mechanical reasons are in
 * docs/store.md. The amounts are small or large with the deck; the table says what to look at again, not by how much.
 */
import type { MoveName } from './moves.ts';
import { isStationName, type StationName, stationNames } from './station.ts';

export interface StaleMark {
  readonly station: StationName;
  /** one sentence: why what was set or measured there need not hold any more */
  readonly because: string;
}

interface MoveEffect {
  /** what was done, to stand at the head of a reason: "The cartridge was slid in its slots" */
  readonly said: string;
  readonly makesStale: Readonly<Partial<Record<StationName, string>>>;
}

const newFigures = 'the figures of the last run were taken before it';

export const moveEffects: Readonly<Record<MoveName, MoveEffect>> = {
  'change-cartridge': {
    said: 'Another cartridge was fitted',
    makesStale: {
      match: 'its mass, compliance and coils are not those that were matched',
      fit: 'its pins and mounting holes have to be gone over again',
      weigh: 'its mass differs, and so does the balance',
      place: 'its tip sits elsewhere under the mounting holes',
      height: 'its body is taller or lower',
      tilt: 'its generator has its own angle',
      run: newFigures,
    },
  },
  'change-stylus': {
    said: 'The stylus was changed',
    makesStale: {
      weigh: 'the new stylus has its own mass and force range',
      place: 'the new tip need not sit where the old one sat',
      height: 'the new cantilever has its own angle',
      tilt: 'the new tip and cantilever have their own angle',
      run: newFigures,
    },
  },
  'change-hardware': {
    said: 'Headshell, screws or spacer were changed',
    makesStale: {
      match: 'the moving mass is another, and with it the resonance',
      fit: 'the screws have to reach 3 to 4 threads again',
      weigh: 'the mass at the front of the arm has changed',
      place: 'the cartridge was loose in its slots',
      height: 'the thickness between shell and cartridge may have changed',
      tilt: 'the cartridge was loose in its slots',
      run: newFigures,
    },
  },
  'change-counterweight': {
    said: 'The counterweight was changed',
    makesStale: {
      match: "the arm's effective mass goes with the counterweight's place",
      weigh: 'the balance is another',
      run: newFigures,
    },
  },
  slide: {
    said: 'The cartridge was slid in its slots',
    makesStale: {
      weigh: 'its weight stands nearer to or further from the pivot, so the force has changed',
      height: 'the tip stands at another distance from the pivot, so the angle to the groove has changed',
      tilt: 'the screws were loose, and the cartridge may have tightened down at another angle',
      run: newFigures,
    },
  },
  twist: {
    said: 'The cartridge was twisted in its slots',
    makesStale: {
      weigh: 'force is weighed again after every move of the cartridge',
      tilt: 'the screws were loose, and the cartridge may have tightened down at another angle',
      run: newFigures,
    },
  },
  'turn-shell': {
    said: 'The headshell was turned about the arm',
    makesStale: {
      weigh: 'force is weighed again after every move of the cartridge',
      place: 'the tip hangs below the axis it was turned about, so it has moved sideways',
      run: newFigures,
    },
  },
  shim: {
    said: 'A shim was put under one side of the cartridge',
    makesStale: {
      match: 'the shim adds to the moving mass',
      fit: 'the screws have to reach through the shim as well',
      weigh: 'the shim adds mass at the front of the arm',
      place: 'the cartridge was loose in its slots',
      height: 'the cartridge stands further below the shell',
      run: newFigures,
    },
  },
  'set-force': {
    said: 'The tracking force was set anew',
    makesStale: {
      height: 'the cantilever stands higher or lower under another force, and with it the angle to the groove',
      run: newFigures,
    },
  },
  'set-arm-height': {
    said: 'The arm height was changed',
    makesStale: {
      weigh: 'with many arms the force changes with height',
      place: 'a raised or lowered pivot draws the tip along the arm',
      tilt: 'the shell stands at an offset to the bearing, so raising the pivot also tilts it a little',
      run: newFigures,
    },
  },
  'set-skating': { said: 'The skating compensation was changed', makesStale: { run: newFigures } },
  'set-pivot-distance': {
    said: 'The arm base was moved',
    makesStale: {
      place: 'the geometry was solved for another distance between spindle and pivot',
      height: 'the base was loose',
      run: newFigures,
    },
  },
  'level-deck': {
    said: 'The deck was levelled',
    makesStale: {
      weigh: 'an arm balanced by a weight alone swings with the level of the deck',
      run: newFigures,
    },
  },
  rewire: {
    said: 'The cartridge leads were changed',
    makesStale: {
      fit: 'the colours have to be checked again',
      tilt: 'polarity and channel order rest on the leads',
      run: newFigures,
    },
  },
  'set-load': {
    said: 'Load or gain of the preamp was changed',
    makesStale: {
      match: 'the response was worked out for another load',
      tilt: 'the channel levels were read through other settings',
      run: newFigures,
    },
  },
  'set-speed': { said: 'The speed was adjusted', makesStale: { run: newFigures } },
};

/** The moves that are made at a station; none at Intake and Hand over. */
export const movesAtStation: Readonly<Record<StationName, readonly MoveName[]>> = {
  intake: [],
  match: ['change-cartridge', 'change-hardware', 'change-counterweight', 'set-load'],
  fit: ['change-cartridge', 'change-stylus', 'change-hardware', 'rewire'],
  weigh: ['set-force', 'change-counterweight', 'level-deck'],
  place: ['slide', 'twist', 'set-pivot-distance'],
  height: ['set-arm-height'],
  tilt: ['turn-shell', 'shim'],
  run: ['set-speed', 'set-skating'],
  'hand-over': [],
};

const sheet = 'the sheet shows what stood before it';

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
    const reason = move === undefined ? undefined : moveEffects[move].makesStale[station];
    if (move !== undefined && reason !== undefined) {
      marks.push({ station, because: `${moveEffects[move].said}: ${reason}.` });
    } else if (station === 'hand-over' && marks.length > 0) {
      const [first] = moves;
      marks.push({ station, because: `${moveEffects[first].said}: ${sheet}.` });
    }
  }
  return marks;
}
