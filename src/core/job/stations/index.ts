/** The models of the nine stations, and the ways to read what a store holds by them. */
import type { z } from 'zod';
import type { CaptureEntry, StationData } from '../api.ts';
import { checkSentence } from '../checkSentence.ts';
import type { Fitting } from '../epochs.ts';
import { fieldAt, type Named } from '../fields/declared.ts';
import { type LeafPath, leafWords } from '../leafPaths.ts';
import type { ReportLine } from '../reportLines.ts';
import type { Shop } from '../shop.ts';
import { type StationName, stationNames, stationTitles } from '../station.ts';
import { fitModel } from './fit.ts';
import { handOverModel } from './handOver.ts';
import { heightModel } from './height.ts';
import { intakeModel } from './intake.ts';
import { matchModel } from './match.ts';
import { placeModel } from './place.ts';
import { runModel } from './run.ts';
import type { EarlierTyped, JobTyped, StationModel } from './stationModel.ts';
import type { StationTyped } from './stationTyped.ts';
import { tiltModel } from './tilt.ts';
import { weighModel } from './weigh.ts';

const stationModels: { readonly [Name in StationName]: StationModel<StationTyped[Name]> } = {
  intake: intakeModel,
  match: matchModel,
  fit: fitModel,
  weigh: weighModel,
  place: placeModel,
  height: heightModel,
  tilt: tiltModel,
  run: runModel,
  'hand-over': handOverModel,
};

/** The one model of a name that is only known when it runs. */
export const modelOf = (name: StationName): StationModel<object> => stationModels[name] as StationModel<object>;

export type StationChecked =
  | { readonly found: true; readonly data: StationData }
  /** what, where, and what was expected, as one clause */
  | { readonly found: false; readonly why: string };

/** Whether a station may keep this. */
export function checkStation(name: StationName, data: unknown): StationChecked {
  const parsed = modelOf(name).schema.safeParse(data);
  if (parsed.success) return { found: true, data: parsed.data as StationData };
  const why = checkSentence(parsed.error);
  return { found: false, why: parsed.error.issues[0].path.length === 0 ? `${name}: ${why}` : `${name}.${why}` };
}

/** Where it keeps something that it may not keep: paths of the values; empty where there is none. */
export const faultsOf = (name: StationName, data: unknown): readonly LeafPath[] =>
  pathsOf(modelOf(name).schema.safeParse(data).error);

const pathsOf = (error: z.ZodError | undefined): readonly LeafPath[] =>
  error?.issues.flatMap((issue) => {
    const path = issue.path.map(String);
    return issue.code === 'unrecognized_keys' ? issue.keys.map((key) => [...path, key]) : [path];
  }) ?? [];

/**
 * What a store or a file of an earlier version holds, as far as it can still be read; what cannot be is left out.
 * Never fails, whatever is given.
 */
export function readableOf(name: StationName, data: unknown): StationData {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return {};
  const { schema, fromOlder } = modelOf(name);
  let kept = fromOlder(data as StationData);
  for (;;) {
    const parsed = schema.safeParse(kept);
    if (parsed.success) return parsed.data as StationData;
    const [first] = pathsOf(parsed.error);
    if (first.length === 0) return {};
    kept = withoutPath(kept, first) as StationData;
  }
}

/** A copy without what stands at `path`; a row of a list goes whole, since a row without one of its cells is none. */
function withoutPath(value: unknown, [step, ...rest]: readonly string[]): unknown {
  if (Array.isArray(value)) return value.filter((_, place) => String(place) !== step);
  if (typeof value !== 'object' || value === null) return undefined;
  const entries = Object.entries(value).flatMap(([key, inner]) => {
    if (key !== step) return [[key, inner]];
    const left = rest.length === 0 ? undefined : withoutPath(inner, rest);
    return left === undefined ? [] : [[key, left]];
  });
  return Object.fromEntries(entries);
}

/** Everything typed in a job, by the stations' own types. */
export function typedOf(job: {
  readonly stations: Readonly<Record<StationName, { readonly data: unknown }>>;
  readonly captures: readonly CaptureEntry[];
  readonly practice: boolean;
  readonly fittings: readonly Fitting[];
  readonly shop: Shop;
}): JobTyped {
  const stations = Object.fromEntries(stationNames.map((name) => [name, readableOf(name, job.stations[name].data)]));
  const { captures, practice, fittings, shop } = job;
  return { stations: stations as unknown as StationTyped, captures, practice, fittings, shop };
}

/** The lines of one station in the report, worked out now. */
export const linesOf = (name: StationName, job: JobTyped): readonly ReportLine[] => [
  ...modelOf(name).lines(job.stations[name], job),
  ...earlierLines(name, job.stations[name]),
];

/** What was typed for a part that is no longer on the deck, a line each. */
export const earlierLines = (
  name: StationName,
  { earlier = [] }: { readonly earlier?: readonly EarlierTyped[] | undefined },
): readonly ReportLine[] =>
  earlier.flatMap((one) => {
    const texts = one.kept.flatMap(({ path, is }) => {
      const field = fieldOf(name, path);
      // a list is a list of steps that were ticked: no figure
      if (typeof is !== 'string' || field === undefined) return [];
      return [`${field.label} ${field.options?.[is] ?? is}`];
    });
    return texts.length === 0
      ? []
      : [{ label: `Of ${one.name === '' ? 'the earlier part' : one.name}`, text: texts.join('; ') }];
  });

/** A field's name for people, with its station. */
export const labelOf = (name: StationName, path: LeafPath): string =>
  `${stationTitles[name].title}: ${fieldOf(name, path)?.label ?? leafWords(path)}`;

/** What a value of a field is called where it is one of a few; undefined where it is none of them. */
export function valueNamed(name: StationName, path: LeafPath, value: unknown): string | undefined {
  const options = fieldOf(name, path)?.options ?? {};
  return typeof value === 'string' && Object.hasOwn(options, value) ? options[value] : undefined;
}

/** The field at a path as its station declares it. */
export const fieldOf = (name: StationName, path: LeafPath): Named | undefined =>
  fieldAt(
    { notes: { label: 'Notes' }, earlier: { label: 'Typed for an earlier part' }, ...modelOf(name).fields },
    path,
  );
