/** The unit that bare forces are typed in. */
import { type FactName, factFields } from '../../fields/factFields.ts';
import { type ForceUnit, withUnit } from '../../fields/force.ts';
import type { WeighTyped } from '../weigh.ts';

/** Every bare force gets the unit that it stood for, so that the choice changes nothing that was typed. */
export function inForceUnit(data: WeighTyped, unit: ForceUnit): WeighTyped {
  const was = data.forceUnit ?? 'g';
  const typed = Object.entries(data.facts ?? {}).map(([name, text]) => {
    return [name, factFields[name as FactName]?.unit === 'mN' ? withUnit(text, was) : text];
  });
  return {
    forceUnit: unit,
    facts: Object.fromEntries(typed),
    ...(data.target === undefined ? {} : { target: withUnit(data.target, was) }),
    ...(data.dial === undefined ? {} : { dial: withUnit(data.dial, was) }),
  };
}
