/**
 * Figures that were typed for a part which is no longer on the deck: put aside into the epoch that ended, so that no answer
 * for the new part rests on them, and shown there as what they are.
 */
import type { StationData } from './api.ts';
import type { FittedKind } from './epochs.ts';
import { ownFigures } from './fittedQuestion.ts';
import { atPath, type LeafPath, leafChanges, withPath } from './leafPaths.ts';
import type { StationName } from './station.ts';
import { type EarlierTyped, MOST_EARLIER } from './stations/stationModel.ts';

type Paths = Readonly<Partial<Record<StationName, readonly LeafPath[]>>>;

/** Typed off the gauge, the template and the meter: of whatever hung on the arm. */
const readings: Paths = {
  weigh: [['gauge', 'reading'], ['gauge', 'secondReading'], ['dial'], ['ticked']],
  place: [
    ['read', 'inner'],
    ['read', 'outer'],
  ],
  tilt: [['meter'], ['setByMirror']],
};

const joined = (...some: readonly Paths[]): Paths => {
  const stations = new Set(some.flatMap((paths) => Object.keys(paths) as StationName[]));
  return Object.fromEntries([...stations].map((name) => [name, some.flatMap((paths) => paths[name] ?? [])]));
};

const typedAtMatch = (kind: keyof typeof ownFigures): Paths => ({
  match: (ownFigures[kind] ?? []).flatMap((figure) => [
    ['typed', figure],
    ['said', figure],
  ]),
});
const facts = (...names: readonly string[]): readonly LeafPath[] => names.map((name) => ['facts', name]);
const forces = facts('cartridgeMassG', 'trackingForceMinMn', 'trackingForceMaxMn', 'trackingForceRecommendedMn');
const ofArm = facts(
  'effectiveLengthMm',
  'spindleToPivotMm',
  'offsetDeg',
  'counterweightMassG',
  'threadPitchMm',
  'dialPerTurnMn',
  'armMomentGMm',
  'stubFromMm',
  'stubToMm',
  'movingMassG',
  'centreBelowPivotMm',
  'pivotAboveTipMm',
);

/** What of a station belongs to a part: it goes when the part goes. */
const goesWith: Readonly<Record<FittedKind, Paths>> = {
  cartridge: joined(typedAtMatch('cartridge'), readings, {
    fit: [['leads'], ['stack', 'flange'], ['stack', 'tapDepth'], ['mounting'], ['steps']],
    weigh: [...forces, ...facts('verticalAngleDeg'), ['target']],
    height: [...forces, ...facts('verticalAngleDeg')],
  }),
  stylus: readings,
  headshell: joined(typedAtMatch('headshell'), readings, { fit: [['stack', 'headshell'], ['steps']] }),
  arm: joined(typedAtMatch('arm'), readings, {
    fit: [['steps']],
    weigh: [...ofArm, ['floatsAt']],
    height: [...ofArm, ['rise'], ['mark'], ['squareTo']],
    place: [['arm']],
  }),
  preamp: typedAtMatch('preamp'),
};

/** Leaves below a path that hold what a person typed: texts that are not empty, and lists of them. */
function leavesAt(data: StationData, path: LeafPath): EarlierTyped['kept'] {
  const value = atPath(data, path);
  if (value === undefined) return [];
  return leafChanges({}, withPath({}, path, value)).flatMap(({ path: leaf, is }): EarlierTyped['kept'][number][] => {
    if (typeof is === 'string') return is.trim() === '' || is.length > 200 ? [] : [{ path: [...leaf], is }];
    const texts = Array.isArray(is) && is.length > 0 && is.every((one) => typeof one === 'string');
    return texts ? [{ path: [...leaf], is: is as string[] }] : [];
  });
}

/** A station's data once another part is fitted. @param was what the figures were typed for, as it is called */
export function withEarlier(
  station: StationName,
  data: StationData,
  { id, kind, was }: { readonly id: string; readonly kind: FittedKind; readonly was: string },
): StationData {
  const paths = goesWith[kind][station] ?? [];
  const kept = paths.flatMap((path) => leavesAt(data, path));
  const left = paths.reduce<StationData>((rest, path) => withPath(rest, path, undefined) as StationData, data);
  if (kept.length === 0) return left;
  const earlier = [...((data.earlier ?? []) as unknown as EarlierTyped[]), { fitting: id, name: was, kept }];
  return { ...left, earlier: earlier.slice(-MOST_EARLIER) } as unknown as StationData;
}

/** The fitting is taken back: what was put aside for it stands again, where nothing was typed since. */
export function withoutEarlier(data: StationData, fitting: string): StationData {
  const all = (data.earlier ?? []) as unknown as readonly EarlierTyped[];
  const back = all.filter((one) => one.fitting === fitting).flatMap(({ kept }) => kept);
  const rest = all.filter((one) => one.fitting !== fitting);
  const { earlier: _, ...without } = data;
  const start = (rest.length === 0 ? without : { ...without, earlier: rest }) as StationData;
  return back.reduce<StationData>((document, { path, is }) => {
    const now = atPath(document, path);
    return now === undefined || now === ''
      ? (withPath(document, path, typeof is === 'string' ? is : [...is]) as StationData)
      : document;
  }, start);
}
