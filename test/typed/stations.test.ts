import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { StationState } from '../../src/core/job/api.ts';
import { benchAt, knownElsewhere } from '../../src/core/job/fields/benchFacts.ts';
import { movesMade } from '../../src/core/job/movesMade.ts';
import { benchOf, limitsOf } from '../../src/core/job/shop.ts';
import { type StationName, stationNames } from '../../src/core/job/station.ts';
import { notLooked, wiringOf } from '../../src/core/job/stations/fit/fitData.ts';
import { findHardware } from '../../src/core/job/stations/fit/hardwareFound.ts';
import { dueOf, dueText } from '../../src/core/job/stations/handOver/due.ts';
import { heightAnswer } from '../../src/core/job/stations/height/heightAnswers.ts';
import {
  checkStation,
  fieldOf,
  labelOf,
  linesOf,
  modelOf,
  readableOf,
  typedOf,
  valueNamed,
} from '../../src/core/job/stations/index.ts';
import { answerMatch } from '../../src/core/job/stations/match/answer.ts';
import { readMatch } from '../../src/core/job/stations/match/matchData.ts';
import { solved } from '../../src/core/job/stations/place/solved.ts';
import type { JobTyped } from '../../src/core/job/stations/stationModel.ts';
import { meterResult } from '../../src/core/job/stations/tilt/meter.ts';
import { startOf, targetOf, travelOf } from '../../src/core/job/stations/weigh/balance.ts';
import { calibrationOf, dialOf, weighedOf } from '../../src/core/job/stations/weigh/gauge.ts';
import { partDevice, pullOverSide, startPull } from '../../src/core/job/stations/weigh/sidePull.ts';
import { acceptedBy } from './acceptedBy.ts';
import { written010 } from './written010.ts';

const at = '2026-03-04T09:30:00.000Z';
const anyStations = fc.record(
  Object.fromEntries(stationNames.map((name) => [name, acceptedBy(modelOf(name).schema)])) as Record<
    StationName,
    fc.Arbitrary<object>
  >,
);

/** What the pages, the report and the command line ask of what was typed, beside the lines of the report. */
const readers: Readonly<Record<string, (job: JobTyped) => unknown>> = {
  facts: ({ stations }) => (['place', 'weigh', 'height', 'match'] as const).map((at) => benchAt(at, stations).facts),
  match: ({ stations }) => answerMatch(readMatch(stations.match).input),
  leads: ({ stations }) => [wiringOf(stations.fit), notLooked(stations.fit)],
  hardware: ({ stations }) => findHardware(stations.fit, readMatch(stations.match).chosen),
  force: ({ stations: { weigh }, stations }) => {
    const { facts } = benchAt('weigh', stations);
    const target = targetOf(weigh, startOf(facts, weigh.temperature));
    const travel = target === null ? null : travelOf(facts, { value: 0, uncertainty: 0 }, target.mn);
    return [
      target,
      travel,
      weighedOf(weigh, facts),
      calibrationOf(weigh.masses ?? [], weigh.gauge ?? {}),
      dialOf(weigh),
    ];
  },
  skating: ({ stations: { weigh }, stations }) => {
    const { facts, match } = benchAt('weigh', stations);
    const side = pullOverSide(facts, match, weigh.skating ?? {}, 18);
    return side.found ? startPull(side.value, weigh.skating ?? {}, partDevice(match)) : side;
  },
  place: ({ stations }) => solved(stations.place, knownElsewhere(stations)),
  height: ({ stations }) => heightAnswer(stations.height, benchAt('height', stations), 18),
  meter: ({ stations }) => meterResult(stations.tilt.meter ?? {}),
  limits: ({ stations: { run, tilt }, shop }) => [limitsOf({ run, shop }), benchOf({ run, tilt, shop })],
  due: ({ stations }) => [dueOf(stations['hand-over']), dueText(stations['hand-over'])],
  moves: (job) => movesMade(job, []),
};

/** Path of a number that is none; null where there is none. */
function faultIn(value: unknown, path = ''): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : path;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const fault = faultIn(inner, `${path}.${key}`);
    if (fault !== null) return fault;
  }
  return null;
}

describe('whatever the store accepts every reader can read', () => {
  it('lines of the report are words, never a figure that is none', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(anyStations, (data) => {
        const stations = Object.fromEntries(
          stationNames.map((name): [string, StationState] => [
            name,
            { status: 'now', data: data[name] as StationState['data'], revision: 1, updatedAt: at },
          ]),
        ) as Record<StationName, StationState>;
        const job = typedOf({ stations, captures: [], practice: false, fittings: [], shop: {} });
        for (const [reader, read] of Object.entries(readers)) {
          expect(faultIn(read(job)), reader).toBe(null);
        }
        for (const name of stationNames) {
          expect(checkStation(name, data[name]), name).toEqual({ found: true, data: data[name] });
          expect(job.stations[name], name).toEqual(data[name]);
          for (const { label, text } of linesOf(name, job)) {
            expect(label, `${name}: ${text}`).not.toBe('');
            expect(text, `${name}: ${label}`).not.toMatch(/NaN|Infinity|undefined|\[object/);
          }
        }
      }),
      { numRuns: 150, seed: 20_261_128 },
    );
  });
});

describe('what is refused', () => {
  it.each([
    ['weigh', { forceUnit: 42 }, 'weigh.forceUnit: '],
    ['weigh', { gauge: 'hello' }, 'weigh.gauge: '],
    ['weigh', { sets: 'nope' }, 'weigh.sets: '],
    ['weigh', { sets: [{ at }] }, 'weigh.sets.0.by: '],
    ['tilt', { notes: 'x'.repeat(10_001) }, 'tilt.notes: '],
    ['run', { invented: 1 }, 'run: '],
    ['intake', null, 'intake: '],
  ] as const)('%s %j', (name, data, why) => {
    const checked = checkStation(name, data);
    expect(checked.found).toBe(false);
    expect(!checked.found && checked.why).toContain(why);
  });
});

describe('whatever one version wrote, the next reads', () => {
  it('anything at all becomes what the schema accepts', () => {
    fc.assert(
      fc.property(fc.constantFrom(...stationNames), fc.jsonValue(), (name, value) => {
        expect(checkStation(name, readableOf(name, value)).found).toBe(true);
      }),
      { numRuns: 300, seed: 20_261_128 },
    );
  });

  it.each(stationNames)('%s of version 0.1.0: all that was typed, without what is worked out now', (name) => {
    // Place's moves are read as the one kind of move record; src/core/job/stations/place/madeMoves.test.ts holds their figures
    // what a gauge reading was typed under was kept as sentences; src/store/olderStores.test.ts holds how they are read
    // Intake's ticks are read as passes; src/core/job/intake.test.ts holds which
    const apart = ({
      forReport: _,
      hardware: __,
      checked: ___,
      inspection: ____,
      readUnder: _____,
      moves,
      ...typed
    }: Record<string, unknown>) => ({
      typed,
      moved: (Array.isArray(moves) ? moves : []).map(({ at }) => at),
    });
    const written = apart(
      // the one value that has another word today
      name === 'fit' ? { ...written010.fit, massBy: 'calculated' } : written010[name],
    );
    expect(apart(readableOf(name, written010[name]))).toEqual(written);
    const checked = checkStation(name, modelOf(name).fromOlder(written010[name] as StationState['data']));
    expect(checked.found && apart(checked.data)).toEqual(written);
  });

  it('keeps everything readable beside what is not', () => {
    expect(
      readableOf('weigh', {
        forceUnit: 42,
        target: '1.8',
        gauge: { reading: '1.82', height: 7 },
        masses: [{ mass: '1', within: '', reading: '1.01' }, { mass: 2 }],
        invented: true,
        notes: 'kept',
      }),
    ).toEqual({
      target: '1.8',
      gauge: { reading: '1.82' },
      masses: [{ mass: '1', within: '', reading: '1.01' }],
      notes: 'kept',
    });
  });
});

interface Described {
  readonly properties?: Readonly<Record<string, Described>>;
  readonly additionalProperties?: Described | boolean;
  readonly anyOf?: readonly Described[];
  readonly enum?: readonly unknown[];
}

/** Every leaf that a station may keep, with the values that it may have where they are few. */
function leavesOf(schema: Described, wholes: readonly (readonly string[])[], path: readonly string[] = []): Leaf[] {
  const whole = wholes.some(
    (pattern) => pattern.length === path.length && pattern.every((key, i) => key === '*' || key === path[i]),
  );
  const options = [schema, ...(schema.anyOf ?? [])];
  const inside = options.find((one) => one.properties !== undefined || typeof one.additionalProperties === 'object');
  if (inside === undefined || whole) return [{ path, values: options.flatMap((one) => one.enum ?? []) }];
  const known = Object.entries(inside.properties ?? {});
  const any = inside.additionalProperties;
  const others = typeof any === 'object' ? [['speed-error', any] as const] : [];
  return [...known, ...others].flatMap(([key, inner]) => leavesOf(inner, wholes, [...path, key]));
}
interface Leaf {
  readonly path: readonly string[];
  readonly values: readonly unknown[];
}

describe('a conflict in plain words', () => {
  it.each(stationNames)('every field of %s has a name, and every value of a few has one', (name) => {
    const { schema, wholes = [] } = modelOf(name);
    const leaves = leavesOf(z.toJSONSchema(schema, { io: 'input' }) as Described, wholes);
    expect(leaves.length).toBeGreaterThan(1);
    const named = new Map<string, string>();
    for (const { path, values } of leaves) {
      const at = path.join('.');
      const label = fieldOf(name, path)?.label ?? '';
      expect(label, at).toMatch(/^[\p{L}0-9]/u);
      expect(named.get(label), `${at} is called as ${named.get(label)} is`).toBeUndefined();
      named.set(label, at);
      for (const value of values)
        if (value !== '') expect(valueNamed(name, path, value), `${at}: ${value}`).toBeDefined();
    }
  });

  it('says the station, the field and what each value is called', () => {
    expect(labelOf('place', ['read', 'outer', 'along'])).toBe('Place: Tip off the cross, forward, outer point');
    expect(labelOf('match', ['typed', 'effectiveMassG'])).toBe('Match: Arm’s effective mass');
    expect(labelOf('run', ['limits', 'own', 'speed-error', 'good'])).toBe('Run: Speed error, good up to');
    expect(valueNamed('tilt', ['meter', 'way'], 'volts')).toBe('four voltages');
    expect(valueNamed('fit', ['leads', 'white'], 'left+')).toBe('L+');
  });
});
