/** Match in words: the gist of an advice, of the whole, and of a figure that is left out. */

import type { Advice, Verdict } from '../../../advise/document.ts';
import { mnToGramForce } from '../../../units/units.ts';
import type { Code } from '../../../words/catalogue.ts';
import { showNumber } from '../../../words/number.ts';
import { quantityTitle } from '../../../words/quantities.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import { quantityText } from '../../fields/quantity.ts';

/** What to do, in the fewest words; its reason stands below it. */
export function adviceGist({ action, amount, unit, direction }: Advice): string {
  const about = (decimals: number): string => (amount === null ? '' : `${showNumber(amount, decimals)} ${unit}`);
  switch (action) {
    case 'add-mass':
      return amount === null ? 'Add mass at the headshell' : `Add ${about(1)} at the headshell`;
    case 'remove-mass':
      return `Take ${about(1)} off at the headshell`;
    case 'other-arm':
      return 'Another arm or another cartridge';
    case 'change-counterweight':
      return `A ${direction} counterweight, about ${about(0)}`;
    case 'set-force':
      return `Set ${about(1)} (${amount === null ? '' : showNumber(mnToGramForce(amount), 2)} g)`;
    case 'set-load-capacitance':
      return direction === 'add' ? `Add ${about(0)} at the input` : `${about(0)} less in cable and input`;
    case 'lower-gain':
      return `Lower the gain by ${about(1)}`;
    case 'raise-gain':
      return amount === null ? 'More gain behind this stage' : `${about(0)} more gain`;
    case 'raise-load':
      return `A load of ${amount === null ? '' : quantityText(amount, unit)} or more at the input`;
    case 'lower-noise':
      return 'Less noise';
    default:
      return action.replaceAll('-', ' ');
  }
}

/** What the gravest verdict says of the whole. */
export const wholeTold = (gravest: Verdict, anyWithheld: boolean): Statement =>
  statement(gravest === 'good' && anyWithheld ? 'match-good-so-far' : wholeCodes[gravest]);

const wholeCodes = {
  good: 'match-good',
  adjust: 'match-adjust',
  bad: 'match-bad',
  undecided: 'match-undecided',
  info: 'match-info',
} as const satisfies Readonly<Record<Verdict, Code>>;

/** A quantity's title within a sentence: "electrical response at 20 kHz". */
export function titleWithin(quantity: string): string {
  const title = quantityTitle(quantity);
  return title.charAt(0).toLowerCase() + title.slice(1);
}

/** "Headroom, noise of coil and load" */
export const titlesOf = ([first, ...rest]: readonly string[]): string =>
  [quantityTitle(first), ...rest.map(titleWithin)].join(', ');
