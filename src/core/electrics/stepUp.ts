/** A step-up transformer between coil and input, taken as ideal: its windings and its own resonance are left out. */
import { within } from '../units/bounds.ts';
import type { CoilAndLoad } from './loading.ts';

const ratioBounds = [1, 200] as const;

/**
 * The network as the input sees it: the coil raised by n² behind a source raised by n.
 *
 * @param ratio turns, secondary over primary, 1 for none
 */
export function seenFromInput(network: CoilAndLoad, ratio: number): CoilAndLoad {
  within('ratio', ratio, ...ratioBounds);
  const square = ratio * ratio;
  return {
    ...network,
    coilResistance: network.coilResistance * square,
    coilInductance: network.coilInductance * square,
  };
}

/**
 * The load as the coil sees it: R/n² and C·n².
 *
 * @throws RangeError naming the argument, its value and its bounds
 * @source ideal transformer
 * @checked test/standards/coilAndLoad.test.ts: the same response from either side
 */
export function reflectedLoad(
  loadResistance: number,
  loadCapacitance: number,
  ratio: number,
): { readonly resistance: number; readonly capacitance: number } {
  within('loadResistance', loadResistance, 0.1, 1e8, 'Ω');
  within('loadCapacitance', loadCapacitance, 0, 1e-3, 'F');
  within('ratio', ratio, ...ratioBounds);
  return { resistance: loadResistance / ratio ** 2, capacitance: loadCapacitance * ratio ** 2 };
}
