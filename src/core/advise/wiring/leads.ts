/** Four leads, four pins, and which belongs where. */

export const leads = ['white', 'blue', 'red', 'green'] as const;
export type Lead = (typeof leads)[number];

export const pins = ['left+', 'left-', 'right+', 'right-'] as const;
export type Pin = (typeof pins)[number];

/** Which pin each lead sits on; null: on none. */
export type Wiring = Readonly<Record<Lead, Pin | null>>;

/**
 * Lead colours: white left +, blue left −, red right +, green right −.
 * Common practice; no standard seen.
 */
export const correctWiring: Readonly<Record<Lead, Pin>> = {
  white: 'left+',
  blue: 'left-',
  red: 'right+',
  green: 'right-',
};

export type Side = 'left' | 'right';
export const coilOf = (pin: Pin): Side => (pin.startsWith('left') ? 'left' : 'right');
export const signOf = (pin: Pin): 1 | -1 => (pin.endsWith('+') ? 1 : -1);
export const otherEnd = (pin: Pin): Pin => `${coilOf(pin)}${pin.endsWith('+') ? '-' : '+'}`;

export function leadOn(wiring: Wiring, pin: Pin): Lead | null {
  return leads.find((lead) => wiring[lead] === pin) ?? null;
}
