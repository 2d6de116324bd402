/**
 * How much of a change elsewhere a setting bears before it has to be looked at again. The same figures as the verdicts
 * where there are any; the rest is what a careful hand sets to. Listed with their sources in docs/verdicts.md.
 */
import { usualTolerances } from '../geometry/tolerance.ts';
import { radToDeg } from '../units/units.ts';
import type { DeckClass } from './deckClasses.ts';

export type RecheckQuantity =
  | 'tracking-force'
  | 'overhang'
  | 'offset'
  | 'pivot-distance'
  | 'vertical-angle'
  | 'tilt'
  | 'threads';

export interface RecheckTolerance {
  readonly most: number;
  readonly unit: string;
  readonly source: string;
}

const common = 'common practice';
const house = 'house rule';

export type RecheckTolerances = Readonly<Record<RecheckQuantity, RecheckTolerance>>;

const shop: RecheckTolerances = {
  'tracking-force': { most: 0.2, unit: 'mN', source: `${common}: 0.02 g at a gauge` },
  overhang: { most: usualTolerances.overhang, unit: 'mm', source: `${common}, as at Place` },
  offset: { most: radToDeg(usualTolerances.twist), unit: 'deg', source: `${common}, as at Place` },
  'pivot-distance': { most: usualTolerances.spindleToPivot, unit: 'mm', source: `${common}, as at Place` },
  'vertical-angle': { most: 0.25, unit: 'deg', source: `${common}: about 1 mm at the pivot` },
  tilt: { most: 0.25, unit: 'deg', source: `${common}: what a hand sets by screw or shim` },
  threads: { most: 0.5, unit: '', source: 'half of the 3 to 4 threads that are asked for' },
};

const closer = (quantity: RecheckQuantity, most: number): RecheckTolerance => ({
  ...shop[quantity],
  most,
  source: house,
});

/** By what a deck is for, as the limits of its verdicts; a job and a shop may set their own over them. */
export const RECHECK_CLASSES: Readonly<Record<DeckClass, RecheckTolerances>> = {
  shop,
  studio: {
    ...shop,
    overhang: closer('overhang', 0.4),
    offset: closer('offset', 0.4),
    'vertical-angle': closer('vertical-angle', 0.2),
    tilt: closer('tilt', 0.2),
  },
  archive: {
    ...shop,
    'tracking-force': closer('tracking-force', 0.1),
    overhang: closer('overhang', 0.3),
    offset: closer('offset', 0.3),
    'pivot-distance': closer('pivot-distance', 0.5),
    'vertical-angle': closer('vertical-angle', 0.15),
    tilt: closer('tilt', 0.15),
  },
};

/** How much one thing changes because another was moved; signed, in the unit of its tolerance. */
export interface Effect {
  readonly quantity: RecheckQuantity;
  readonly size: number;
}

/** True where so much change has to be looked at again. */
export const outOfTolerance = ({ quantity, size }: Effect, tolerances: RecheckTolerances): boolean =>
  !(Math.abs(size) <= tolerances[quantity].most);
