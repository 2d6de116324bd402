/** What the screw passes: as typed, else as the parts picked at Match state it; and how the set's own screws do in it. */

import { type ScrewChoice, screwChoice } from '../../../advise/screws.ts';
import { type ScrewStack, screwLengths, threadsEngaged } from '../../../mechanics/screwLength.ts';
import { type Found, none } from '../../../words/found.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import { screwStackOf } from '../../benchFromParts.ts';
import { readQuantity } from '../../fields/quantity.ts';
import type { ChosenParts } from '../../matchFromParts.ts';
import type { FitTyped } from '../fit.ts';
import { type StackField, stackFields } from './fitData.ts';

/** What the parts say of each thickness, mm. */
export function stackFromParts({ headshell, hardware, cartridge }: ChosenParts): Partial<Record<StackField, number>> {
  return {
    headshell: headshell?.thicknessMm,
    spacer: hardware?.spacerThicknessMm,
    washer: hardware?.washerThicknessMm,
    nut: hardware?.nutThicknessMm,
    pitch: hardware?.threadPitchMm,
    flange: cartridge?.flangeThicknessMm,
    tapDepth: cartridge?.tapDepthMm,
  };
}

export const mountingOf = (data: FitTyped, chosen: ChosenParts): 'through-holes' | 'tapped' | undefined =>
  data.mounting || chosen.cartridge?.mounting;

/** A figure typed that cannot be used counts as not known. */
export function stackOf(data: FitTyped, chosen: ChosenParts): Found<ScrewStack> {
  const said = stackFromParts(chosen);
  const mm = (field: StackField): number | undefined => {
    const read = readQuantity(data.stack?.[field], stackFields[field]);
    return 'value' in read ? read.value : 'empty' in read ? said[field] : undefined;
  };
  const part = { schema: 1, name: 'as typed' } as const;
  const wrong = (['spacer', 'washer', 'pitch'] as const).find(
    (field) => 'wrong' in readQuantity(data.stack?.[field], stackFields[field]),
  );
  if (wrong !== undefined) {
    return none(statement('not-usable', { what: `the ${stackFields[wrong].label.toLowerCase()}` }));
  }
  return screwStackOf({
    headshell: { ...part, kind: 'headshell', thicknessMm: mm('headshell') },
    cartridge: {
      ...part,
      kind: 'cartridge',
      mounting: mountingOf(data, chosen),
      flangeThicknessMm: mm('flange'),
      tapDepthMm: mm('tapDepth'),
    },
    hardware: {
      ...part,
      kind: 'hardware',
      spacerThicknessMm: mm('spacer'),
      washerThicknessMm: mm('washer'),
      nutThicknessMm: mm('nut'),
      threadPitchMm: mm('pitch'),
    },
  });
}

export interface OwnScrews {
  readonly lengthMm: number;
  readonly threads: number;
  readonly fits: boolean;
  /** begins small: it stands behind a colon */
  readonly says: Statement;
}

/** How screws of a given length would do. */
export function ownScrews(stack: ScrewStack, lengthMm: number): OwnScrews | null {
  const range = screwLengths(stack);
  if (!range.found) return null;
  const threads = threadsEngaged(stack, lengthMm);
  const short = lengthMm < range.shortest - 1e-9;
  const long = lengthMm > range.longest + 1e-9;
  const over = lengthMm - range.longest;
  const says = short
    ? statement('screw-short', { threads })
    : !long
      ? statement('screw-fits', { threads })
      : stack.into.kind === 'tapped'
        ? statement('screw-bottoms', { over })
        : statement('screw-long', { over });
  return { lengthMm, threads, fits: !short && !long, says };
}

/** The screw to take; or why there is none yet. */
export const choiceFor = (asked: Found<ScrewStack>): ScrewChoice => (asked.found ? screwChoice(asked.value) : asked);
