/** The nine stations of a job, in the order of the work. Screens, commands, report and docs use these names. */
export const stationNames = ['intake', 'match', 'fit', 'weigh', 'place', 'height', 'tilt', 'run', 'hand-over'] as const;

export type StationName = (typeof stationNames)[number];

export interface StationTitle {
  readonly title: string;
  /** what the station is about, in a few words under its heading */
  readonly about: string;
}

export const stationTitles: Readonly<Record<StationName, StationTitle>> = {
  intake: { title: 'Intake', about: 'what came in, and how it measures before anything is touched' },
  match: { title: 'Match', about: 'cartridge, arm, hardware and preamp that go together' },
  fit: { title: 'Fit', about: 'leads, screws and the order of work' },
  weigh: { title: 'Weigh', about: 'balance, and the force at the tip' },
  place: { title: 'Place', about: 'overhang and twist, where the geometry wants them' },
  height: { title: 'Height', about: 'arm height, and the angle the tip meets the groove at' },
  tilt: { title: 'Tilt', about: 'both channels equal, and far apart' },
  run: { title: 'Run', about: 'speed, tracking, response and noise of the whole deck' },
  'hand-over': { title: 'Hand over', about: 'before and after, and the report that goes with the deck' },
};

export const isStationName = (text: string): text is StationName => (stationNames as readonly string[]).includes(text);

/**
 * The station to go on with: the next that is not done, from the first again after the last; null where all others are. Hand over
 * comes when nothing else is open.
 * @checked station.test.ts
 */
export function nextOpen(after: StationName, isDone: (name: StationName) => boolean): StationName | null {
  const at = stationNames.indexOf(after);
  const open = [...stationNames.slice(at + 1), ...stationNames.slice(0, at)].filter((name) => !isDone(name));
  return open.find((name) => name !== 'hand-over') ?? open[0] ?? null;
}
