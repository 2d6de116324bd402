/** The figures by which a chain is watched, and where to look first when one of them leaves its limits. */
import type { Code } from '../../words/catalogue.ts';

/**
 * Quantity → the statement of where to look. In the order in which they are shown.
 *
 * @source common practice
 */
export const chainFigures = {
  'speed-error': 'look-speed',
  'wow-flutter-weighted': 'look-wow',
  'wow-flutter-weighted-deck': 'look-wow',
  'reference-level': 'look-level',
  'channel-balance': 'look-balance',
  'separation-left-to-right': 'look-separation',
  'separation-right-to-left': 'look-separation',
  'azimuth-error': 'look-tilt',
  'arm-resonance-lateral': 'look-resonance',
  'arm-resonance-vertical': 'look-resonance',
  hum: 'look-hum',
  'rumble-weighted': 'look-rumble',
  'noise-a-weighted': 'look-noise',
} as const satisfies Readonly<Record<string, Code>>;

export type ChainQuantity = keyof typeof chainFigures;

export const chainQuantities = Object.keys(chainFigures) as readonly ChainQuantity[];

export const isChainQuantity = (quantity: string): quantity is ChainQuantity => Object.hasOwn(chainFigures, quantity);
