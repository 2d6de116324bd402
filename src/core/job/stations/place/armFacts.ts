/** What Place's own solution tells the other stations of the arm. */
import { radToDeg } from '../../../units/units.ts';
import type { Known } from '../../fields/benchFacts.ts';
import type { PlaceTyped } from '../place.ts';
import type { KnownElsewhere } from './armRequest.ts';
import { aimedArm, standingArm } from './arms.ts';
import { solved } from './solved.ts';

/** Whether anything was typed of the arm or read off a template: else the solution rests on what Match has and on the usual aim. */
export const isPlaceBegun = ({ arm, read }: PlaceTyped): boolean =>
  [arm, read].some((typed) => Object.values(typed ?? {}).some((value) => value !== '' && value !== undefined));

/** Length and offset of the arm as it was read at Place, else as Place aims at it; null where Place has no answer. */
export function armFacts(
  place: PlaceTyped,
  elsewhere: KnownElsewhere,
): Readonly<Record<'effectiveLengthMm' | 'offsetDeg', Known>> | null {
  const answer = solved(place, elsewhere);
  if (answer.kind !== 'place') return null;
  const read = standingArm(answer.place);
  const arm = read ?? aimedArm(answer.place);
  if (arm === null) return null;
  const from = read === null ? 'as Place aims at it' : 'as read at Place';
  return {
    effectiveLengthMm: { value: arm.effectiveLength, from },
    offsetDeg: { value: radToDeg(arm.offset), from },
  };
}
