/** A problem's sentence as a person reads it: a withheld quantity by its title instead of its name in the documents. */
import type { Problem } from '../capture/problem.ts';
import { quantityTitle } from './quantityTitles.ts';

/** "azimuth-error is withheld: …" → "Tilt (azimuth error) is withheld: …" */
export function problemWords({ message, quantity }: Problem): string {
  if (quantity === undefined || !message.startsWith(`${quantity} `)) return message;
  return quantityTitle(quantity) + message.slice(quantity.length);
}
