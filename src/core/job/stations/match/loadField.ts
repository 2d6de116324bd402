/** The field of loads worth looking at for one coil: round resistances and capacitances around what there is. */
import { OFFERED_RESISTANCES } from '../../../advise/matchLoading.ts';
import { deviationWithin } from '../../../electrics/flattestLoad.ts';
import type { CoilAndLoad } from '../../../electrics/loading.ts';
import { quantityText } from '../../fields/quantity.ts';

const steps = [1, 1.5, 2, 3, 4, 5, 7];
const round = (decade: number): readonly number[] => steps.map((step) => step * decade);
const capacitances = [10, 100, 1000, 10_000].flatMap(round);
const resistances = [10, 100, 1000, 10_000].flatMap(round);

/** `count` values of a list around one value, that value itself in its place among them. */
function around(list: readonly number[], value: number, below: number, above: number): readonly number[] {
  const less = list.filter((one) => one < value * 0.93).slice(-below);
  const more = list.filter((one) => one > value * 1.07).slice(0, above);
  return [...less, value, ...more];
}

/** Capacitances to look at, pF: what there is, two rounds below it and three above. */
export const capacitancesAround = (nowPf: number): readonly number[] => around(capacitances, nowPf, 2, 3);

/** Resistances to look at, Ω: what preamps and plugs offer a moving magnet; for low loads, rounds around what there is. */
export function resistancesAround(nowOhm: number): readonly number[] {
  if (nowOhm < 10_000) return around(resistances, nowOhm, 2, 2);
  return [...new Set([...OFFERED_RESISTANCES, nowOhm])].sort((a, b) => a - b);
}

export interface FieldCell {
  readonly resistance: number;
  readonly capacitancePf: number;
  /** largest departure from 1 kHz within 20 Hz to 20 kHz, dB */
  readonly deviationDb: number;
}

export function loadFieldOf(network: CoilAndLoad): readonly (readonly FieldCell[])[] {
  const columns = capacitancesAround(network.loadCapacitance * 1e12);
  return resistancesAround(network.loadResistance).map((resistance) =>
    columns.map((capacitancePf) => ({
      resistance,
      capacitancePf,
      deviationDb: deviationWithin({
        ...network,
        loadResistance: resistance,
        loadCapacitance: capacitancePf * 1e-12,
      }),
    })),
  );
}

export const ohmText = (ohm: number): string => quantityText(Number(ohm.toPrecision(3)), 'Ω');
export const pfText = (pf: number): string => quantityText(Number(pf.toPrecision(3)), 'pF');
