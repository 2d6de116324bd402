/** The mass of screws, nuts, washers and spacer: weighed, calculated from sizes, or as the set picked states it. */

import { type HardwareMaterial, hardwareMass } from '../../../advise/screws.ts';
import { benchBounds } from '../../../units/benchBounds.ts';
import { type Found, none } from '../../../words/found.ts';
import { statement } from '../../../words/statement.ts';
import { valuesOf } from '../../fields/chosen.ts';
import { type Fields, fieldOf } from '../../fields/field.ts';
import { readQuantity } from '../../fields/quantity.ts';
import type { ChosenParts } from '../../matchFromParts.ts';
import type { FitTyped } from '../fit.ts';
import { fitChoices, type HardwareFound, type SetTyped } from './fitData.ts';
import { choiceFor, mountingOf, stackFromParts, stackOf } from './screwStack.ts';

/** g, k = 2, where nothing is said of the scale: the last digit of one that shows tenths. */
const USUAL_SCALE_G = 0.1;

export const setFields = {
  screws: { label: 'Screws', unit: '', min: 0, max: 20 },
  screwLength: fieldOf('Length of the screws', benchBounds.screwLengthMm),
  nuts: { label: 'Nuts', unit: '', min: 0, max: 20 },
  nutThickness: fieldOf('Thickness of the nuts', benchBounds.nutThicknessMm),
  washers: { label: 'Washers', unit: '', min: 0, max: 40 },
  washerThickness: fieldOf('Thickness of the washers', benchBounds.washerThicknessMm),
  spacerG: fieldOf('Spacer, weighed', benchBounds.hardwareMassG),
} satisfies Fields<Exclude<keyof SetTyped, 'material'>>;
export type SetField = keyof typeof setFields;

export const scaleFields = {
  weighed: fieldOf('The scale shows', benchBounds.hardwareMassG, 'All of it together'),
  scale: {
    label: 'The scale is good to',
    unit: 'g',
    min: 0.001,
    max: 5,
    help: 'k = 2',
    usual: { value: USUAL_SCALE_G, from: 'usual' },
  },
} satisfies Fields<'weighed' | 'scale'>;

/** What is taken for a size that is not typed: two screws as long as chosen, a nut for each through hole. */
export function usualSet(data: FitTyped, chosen: ChosenParts): Readonly<Record<SetField, number>> {
  const choice = choiceFor(stackOf(data, chosen));
  const said = stackFromParts(chosen);
  return {
    screws: 2,
    screwLength: chosen.hardware?.screwLengthMm ?? (choice.found ? choice.lengthMm : 8),
    nuts: mountingOf(data, chosen) === 'tapped' ? 0 : 2,
    nutThickness: said.nut ?? 2,
    washers: (said.washer ?? 0) > 0 ? 2 : 0,
    washerThickness: said.washer ?? 0.5,
    spacerG: 0,
  };
}

export const materialOf = ({ set }: FitTyped, { hardware }: ChosenParts): HardwareMaterial => {
  const named = hardware?.material?.trim().toLowerCase();
  return set?.material ?? valuesOf(fitChoices.material).find((one) => one === named) ?? 'steel';
};

export function findHardware(data: FitTyped, chosen: ChosenParts): Found<HardwareFound> {
  const by = data.massBy ?? 'part';
  if (by === 'part') {
    const massG = chosen.hardware?.massG;
    if (massG === undefined) return none(statement('no-set-with-mass'));
    return { found: true, value: { massG, uncertaintyG: null, by } };
  }
  if (by === 'weighed') {
    const read = readQuantity(data.weighed, scaleFields.weighed);
    const scale = readQuantity(data.scale, scaleFields.scale);
    if (!('value' in read)) return none(statement('scale-not-typed'));
    if ('wrong' in scale) return none(statement('not-usable', { what: 'what the scale is good to' }));
    return {
      found: true,
      value: { massG: read.value, uncertaintyG: 'value' in scale ? scale.value : USUAL_SCALE_G, by },
    };
  }
  const usual = usualSet(data, chosen);
  const size: Record<string, number> = {};
  for (const [field, about] of Object.entries(setFields) as [SetField, (typeof setFields)[SetField]][]) {
    const read = readQuantity(data.set?.[field], about);
    if ('wrong' in read) return none(statement('not-usable', { what: `the ${about.label.toLowerCase()}` }));
    size[field] = 'value' in read ? read.value : usual[field];
  }
  const { massG, uncertaintyG } = hardwareMass({
    material: materialOf(data, chosen),
    screws: size.screws,
    screwLengthMm: size.screwLength,
    nuts: size.nuts,
    nutThicknessMm: size.nutThickness,
    washers: size.washers,
    washerThicknessMm: size.washerThickness,
    spacerG: size.spacerG,
  });
  return { found: true, value: { massG, uncertaintyG, by } };
}

/** What Weigh is told: only what was found here; a set's own statement reaches it by Match. */
export function hardwareForWeigh(data: FitTyped, chosen: ChosenParts): HardwareFound | null {
  const found = findHardware(data, chosen);
  return found.found && found.value.by !== 'part' ? found.value : null;
}
