/**
 * The job that stands open at the first start: an invented deck in an invented shop, half way through its stations, so
 * that a newcomer sees every state a station can be in. Built with the same functions as any job.
 */
import type { SideDocument } from '../advise/document.ts';
import { fitSteps } from '../advise/orderOfWork.ts';
import { adviceEntries, linkAdvice } from './adviceHistory.ts';
import type { OpenStatus, StationData } from './api.ts';
import { demoParts } from './demoParts.ts';
import { JOB_FILE_SCHEMA, type JobFile } from './jobFile.ts';
import { leafChanges } from './leafPaths.ts';
import { stationsAfterMove } from './marks.ts';
import type { StationName } from './station.ts';
import { changeStation, freshStations, type Stations } from './stationState.ts';

export interface DemoSide {
  readonly document: SideDocument;
  readonly station: StationName;
  /** ISO time */
  readonly heardAt: string;
}

export interface DemoJobOptions {
  /** ISO time of the first start */
  readonly at: string;
  readonly madeBy: string;
  /** sides already heard, oldest first; each brings its advice */
  readonly sides?: readonly DemoSide[];
}

/** The demo parts that were matched, as Match keeps them. */
const matched = Object.fromEntries(
  [
    'bench deck 3',
    'bench arm, nine inch, removable headshell',
    'bench headshell',
    'bench moving magnet',
    'light screws and nuts',
    'bench counterweight',
    'bench cable, with the arm’s wiring',
    'bench preamp, moving-magnet input',
  ]
    .map((name) => demoParts.find((part) => part.name === name))
    .filter((part) => part !== undefined)
    .map((part) => [part.kind, { id: null, revision: 0, part }]),
) as StationData;

/** What was typed at each station. */
const kept: Readonly<Partial<Record<StationName, StationData>>> = {
  intake: {
    cartridge: 'bench moving magnet',
    stylusHours: '900',
    inspection: {
      guard: { grade: 'pass' },
      cantilever: { grade: 'pass' },
      tip: { grade: 'fault', note: 'worn flat on one side' },
      bearings: { grade: 'pass' },
      leads: { grade: 'pass' },
      platter: { grade: 'pass' },
      level: { grade: 'pass' },
    },
    notes: 'Came in for a new stylus. Belt drive, arm with a removable headshell, lid and mat there.',
  },
  match: {
    parts: matched,
    notes: 'Arm of middle mass, cartridge of middle compliance; screws of 8 mm with nuts.',
  },
  fit: {
    leads: { white: 'left+', blue: 'left-', red: 'right+', green: 'right-' },
    steps: fitSteps.map(({ id }) => id),
    notes: 'White, blue, red, green checked twice against the pins. Guard on until the force was set.',
  },
  weigh: { notes: 'Floated, ring to zero, then set against the gauge at record height.' },
  place: {
    arm: { spindleToPivot: '226.5' },
    notes: 'The tip stood behind both points of the grid; slid 1.2 mm forward and squared up.',
  },
  height: { notes: 'Arm tube level on a record of ordinary thickness.' },
};

/**
 * "Job 41 · bench deck 3", as a job file.
 *
 * Match, Fit, Height and Intake are done, Tilt is being worked at; sliding the cartridge at Place came after the force
 * was set, so Weigh is stale, and Height was looked at again since.
 */
export function demoJob({ at, madeBy, sides = [] }: DemoJobOptions): JobFile {
  const stations: Stations = freshStations(at);
  const close = (station: StationName, status: OpenStatus): void => {
    const before = stations[station];
    const data = kept[station] ?? {};
    const changes = leafChanges(before.data, data);
    const changed = changeStation(station, before, { changes, status: { was: before.status, is: status } }, at);
    if (changed.outcome !== 'changed') throw new RangeError(`the demo job cannot keep this at ${station}`);
    stations[station] = changed.state;
  };
  for (const station of ['intake', 'match', 'fit', 'weigh', 'height', 'place'] as const) close(station, 'done');
  Object.assign(stations, stationsAfterMove(stations, { move: 'slide', station: 'place', note: '1.2 mm forward' }, at));
  close('height', 'done');
  close('tilt', 'now');
  const captures = sides.map((side, place) => ({
    id: `side-${place + 1}`,
    heardAt: side.heardAt,
    storedAt: at,
    station: side.station,
    document: side.document,
    practice: true,
    saidKind: null,
    saidEpoch: null,
    setAside: null,
  }));
  const heard = captures.map(({ id, heardAt, document }) => ({
    id,
    heardAt,
    sha256: document.capture.sha256,
    findings: document.findings,
  }));
  const advice = captures
    .flatMap(({ id, heardAt, document }) =>
      adviceEntries(document, id, heardAt, (place) => `${id}-advice-${place + 1}`),
    )
    .map((entry) => ({ ...entry, ...linkAdvice(entry, heard) }));

  return {
    schema: JOB_FILE_SCHEMA,
    kind: 'platterside-job',
    madeBy,
    exportedAt: at,
    job: {
      id: 'demo',
      number: 41,
      title: 'Job 41 · bench deck 3',
      deck: {
        id: 'bench-deck-3',
        name: 'bench deck 3',
        description:
          'Invented deck for learning: belt drive, 33⅓ and 45, spindle to pivot 226.5 mm, arm with a removable headshell.',
      },
      customer: 'the shop’s own',
      notes: 'A practice job. Everything in it is invented; change what you like.',
      createdAt: at,
      updatedAt: at,
      revision: 0,
      practice: true,
      setAside: null,
      recordFile: '',
      fittings: [],
      stations,
    },
    captures,
    advice,
    photographs: [],
  };
}
