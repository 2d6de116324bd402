/** The fields of Fit, and what is read out of its leads. */

import type { HardwareMaterial } from '../../../advise/screws.ts';
import { type Lead, leads, type Pin, pins, type Wiring } from '../../../advise/wiring/leads.ts';
import { M2_5_PITCH } from '../../../mechanics/screwLength.ts';
import { benchBounds } from '../../../units/benchBounds.ts';
import { chosen } from '../../fields/chosen.ts';
import { type Fields, fieldOf } from '../../fields/field.ts';
import type { FitTyped } from '../fit.ts';

export type PinsLie = NonNullable<FitTyped['pinsLie']>;
export type MassBy = NonNullable<FitTyped['massBy']>;
export type SetTyped = NonNullable<FitTyped['set']>;

export const stackFields = {
  headshell: fieldOf('Headshell at its slots', benchBounds.headshellThicknessMm),
  spacer: fieldOf('Spacer or plate', benchBounds.spacerThicknessMm),
  washer: fieldOf('Washer under the head', benchBounds.washerThicknessMm),
  flange: fieldOf('Cartridge’s flange', benchBounds.flangeThicknessMm),
  nut: fieldOf('Nut', benchBounds.nutThicknessMm),
  tapDepth: fieldOf('Depth of thread in the body', benchBounds.tapDepthMm),
  pitch: { ...fieldOf('Thread pitch', benchBounds.screwPitchMm), usual: { value: M2_5_PITCH, from: 'usual' } },
} satisfies Fields;
export type StackField = keyof typeof stackFields;

export const fitChoices = {
  pinsLie: chosen('The pins of this cartridge lie', {
    usual: 'as drawn: left at the left, + on top',
    sides: 'left at the right, + on top',
    rows: 'left at the left, + below',
    both: 'left at the right, + below',
  }),
  mounting: chosen('The cartridge has', { 'through-holes': 'through holes, with nuts', tapped: 'thread in its body' }),
  massBy: chosen('Mass of the hardware from', {
    part: 'as the set states',
    weighed: 'weighed',
    calculated: 'calculated from sizes',
  }),
  material: chosen('Material', {
    steel: 'steel',
    brass: 'brass',
    titanium: 'titanium',
    aluminium: 'aluminium',
    nylon: 'nylon',
  } satisfies Record<HardwareMaterial, string>),
};

/** As pins are marked. */
export const pinMarks: Readonly<Record<Pin, string>> = {
  'left+': 'L+',
  'left-': 'L−',
  'right+': 'R+',
  'right-': 'R−',
};

/** The pin that a lead sits on. */
export const leadChoice = (lead: Lead) => chosen(`Lead, ${lead}`, pinMarks);

/** The mass of the hardware as found at Fit. */
export interface HardwareFound {
  readonly massG: number;
  /** k = 2; null where none can be given */
  readonly uncertaintyG: number | null;
  readonly by: MassBy;
}

/** The wiring as it stands; null while no lead was looked at. */
export function wiringOf({ leads: kept }: FitTyped): Wiring | null {
  const looked = leads.filter((lead) => kept !== undefined && lead in kept);
  if (looked.length === 0) return null;
  const pinOf = (lead: Lead): Pin | null => {
    const pin = kept?.[lead];
    return pin !== undefined && pin !== null && pins.includes(pin) ? pin : null;
  };
  return { white: pinOf('white'), blue: pinOf('blue'), red: pinOf('red'), green: pinOf('green') };
}

/** Leads that nobody has looked at yet. */
export const notLooked = ({ leads: kept }: FitTyped): readonly Lead[] =>
  leads.filter((lead) => kept === undefined || !(lead in kept));
