/**
 * What Fit keeps with the job, as it was typed.
 *
 * Under the station `fit`:
 *
 *   leads     {white: 'left+', blue: null, …}: the pin that each lead sits on; null: on none; not there: not looked at yet
 *   pinsLie   how the pins of this cartridge lie against the drawing
 *   stack     {headshell: '2,5', …}: thicknesses of what the screw passes, over those of the parts picked at Match
 *   mounting  `through-holes` or `tapped`, over the cartridge's
 *   hardware  {massG, uncertaintyG, by}: the mass of screws, nuts, washers and spacer as found here, for Weigh;
 *             `uncertaintyG` (k = 2) is null where a sheet states the mass without one
 *   massBy, weighed, scale, set: how that mass was found
 *   steps     ids of the steps of the work that are ticked
 */

import type { HardwareMaterial } from '../../../core/advise/screws.ts';
import { type Lead, leads, type Pin, pins, type Wiring } from '../../../core/advise/wiring.ts';

export type PinsLie = 'usual' | 'sides' | 'rows' | 'both';
export type MassBy = 'part' | 'weighed' | 'reckoned';

export const stackFields = {
  headshell: { label: 'Headshell at its slots', unit: 'mm', min: 0, max: 20 },
  spacer: { label: 'Spacer or plate', unit: 'mm', min: 0, max: 20 },
  washer: { label: 'Washer under the head', unit: 'mm', min: 0, max: 5 },
  flange: { label: 'Cartridge’s flange', unit: 'mm', min: 0, max: 20 },
  nut: { label: 'Nut', unit: 'mm', min: 0, max: 10 },
  tapDepth: { label: 'Depth of thread in the body', unit: 'mm', min: 0, max: 20 },
  pitch: { label: 'Thread pitch', unit: 'mm', min: 0.2, max: 1.5 },
} as const;
export type StackField = keyof typeof stackFields;

export interface SetTyped {
  readonly material?: HardwareMaterial;
  readonly screws?: string;
  readonly screwLength?: string;
  readonly nuts?: string;
  readonly nutThickness?: string;
  readonly washers?: string;
  readonly washerThickness?: string;
  readonly spacerG?: string;
}

/** The mass of the hardware as found at Fit. */
export interface HardwareFound {
  readonly massG: number;
  /** k = 2; null where none can be given */
  readonly uncertaintyG: number | null;
  readonly by: MassBy;
}

export interface FitData {
  leads: Readonly<Partial<Record<Lead, Pin | null>>>;
  pinsLie: PinsLie;
  stack: Readonly<Partial<Record<StackField, string>>>;
  mounting: 'through-holes' | 'tapped' | '';
  massBy: MassBy;
  weighed: string;
  /** what the scale is good to, k = 2 */
  scale: string;
  set: SetTyped;
  hardware: HardwareFound | null;
  steps: readonly string[];
  forReport: readonly { readonly label: string; readonly text: string }[];
}

/** The hardware's mass that Fit found, or null where it found none; for Weigh, which takes it before Match's. */
export function hardwareFromFit({ hardware }: Partial<FitData>): HardwareFound | null {
  if (hardware === null || hardware === undefined) return null;
  const { massG, uncertaintyG, by } = hardware;
  const sound = 0 <= massG && massG <= 50 && (uncertaintyG === null || (0 <= uncertaintyG && uncertaintyG <= 50));
  return sound ? { massG, uncertaintyG, by } : null;
}

/** The wiring as it stands; null while no lead was looked at. */
export function wiringOf({ leads: kept }: Partial<FitData>): Wiring | null {
  const looked = leads.filter((lead) => kept !== undefined && lead in kept);
  if (looked.length === 0) return null;
  const pinOf = (lead: Lead): Pin | null => {
    const pin = kept?.[lead];
    return pin !== undefined && pin !== null && pins.includes(pin) ? pin : null;
  };
  return { white: pinOf('white'), blue: pinOf('blue'), red: pinOf('red'), green: pinOf('green') };
}

/** Leads that nobody has looked at yet. */
export const notLooked = ({ leads: kept }: Partial<FitData>): readonly Lead[] =>
  leads.filter((lead) => kept === undefined || !(lead in kept));
