/** Fit: leads on their pins, what the screw passes, how the hardware's mass was found, which steps are done. */

import { z } from 'zod';
import { leads, pins } from '../../advise/wiring/leads.ts';
import type { StationData } from '../api.ts';
import { fitChoices, leadChoice, stackFields } from './fit/fitData.ts';
import { scaleFields, setFields } from './fit/hardwareFound.ts';
import { fitLines } from './fit/reportLines.ts';
import { readMatch } from './match/matchData.ts';
import {
  doneAt,
  each,
  fieldText,
  MOST_ROWS,
  ofEveryStation,
  oneOf,
  type StationModel,
  type TypedBy,
  without,
} from './stationModel.ts';

const stackNames = ['headshell', 'spacer', 'washer', 'flange', 'nut', 'tapDepth', 'pitch'] as const;
const setNames = ['screws', 'screwLength', 'nuts', 'nutThickness', 'washers', 'washerThickness', 'spacerG'] as const;

const schema = z.strictObject({
  ...ofEveryStation,
  /** the pin that each lead sits on; null: on none; not there: not looked at yet */
  leads: each(leads, z.enum(pins).nullable()).optional(),
  /** how the pins of this cartridge lie against the drawing */
  pinsLie: oneOf(fitChoices.pinsLie).optional(),
  /** mm, over the parts picked at Match */
  stack: each(stackNames, fieldText).optional(),
  mounting: oneOf(fitChoices.mounting, '').optional(),
  massBy: oneOf(fitChoices.massBy).optional(),
  /** g, as the scale shows it */
  weighed: fieldText.optional(),
  /** g, what the scale is good to, k = 2 */
  scale: fieldText.optional(),
  set: each(setNames, fieldText)
    .extend({ material: oneOf(fitChoices.material).optional() })
    .optional(),
  /** ids of the steps that are ticked */
  steps: z.array(z.string().max(80)).max(MOST_ROWS).optional(),
  /** when leads were moved on the deck last; null: taken back */
  rewired: doneAt.nullable().optional(),
});
export type FitTyped = TypedBy<typeof schema>;

/** Earlier versions had another word for a mass that is calculated. */
function fitFromOlder(data: StationData): StationData {
  const rest = without('forReport', 'hardware')(data);
  return rest.massBy === 'reckoned' ? { ...rest, massBy: 'calculated' satisfies FitTyped['massBy'] } : rest;
}

export const fitModel: StationModel<FitTyped> = {
  schema,
  fields: {
    ...scaleFields,
    leads: Object.fromEntries(leads.map((lead) => [lead, leadChoice(lead)])),
    pinsLie: fitChoices.pinsLie,
    stack: stackFields,
    mounting: fitChoices.mounting,
    massBy: fitChoices.massBy,
    set: { ...setFields, material: fitChoices.material },
    steps: { label: 'Order of work' },
    rewired: { label: 'Leads moved on the deck' },
  },
  lines: (typed, { stations }) => fitLines(typed, readMatch(stations.match).chosen),
  fromOlder: fitFromOlder,
};
