/** What was typed about the arm and its records → what core/geometry is asked: the same request that `place` makes. */

import { pivotedArm } from '../../../geometry/arm.ts';
import { fixedAt, type Limits, type Range } from '../../../geometry/constrain.ts';
import { musicWeight } from '../../../geometry/music.ts';
import type { PlaceRequest } from '../../../geometry/placeRequest.ts';
import { type GrooveSpan, grooveSpan, ownSpan } from '../../../geometry/span.ts';
import { usualTolerances } from '../../../geometry/tolerance.ts';
import { degToRad } from '../../../units/units.ts';
import { statement } from '../../../words/statement.ts';
import { armFields } from './fields.ts';
import { missingField, neededField, optionalField, Unusable } from './fieldValue.ts';
import type { ArmTyped, Speed } from './typed.ts';

const rpmOf: Readonly<Record<Exclude<Speed, 'own'>, number>> = { '33': 100 / 3, '45': 45, '78': 78.26 };

/** The speed that is asked for; where none was chosen the one that such records usually run at. */
export function speedOf(typed: ArmTyped, span: GrooveSpan): Speed {
  if (typed.speed !== undefined) return typed.speed;
  return span.usualRpm > 60 ? '78' : span.usualRpm > 40 ? '45' : '33';
}

/** @throws Unusable; RangeError from the core where inner and outer do not make a span */
export function spanOf(typed: ArmTyped): GrooveSpan {
  if (typed.grooves !== 'own') return grooveSpan(typed.grooves ?? '12in');
  return ownSpan(neededField(armFields.inner, typed.inner), neededField(armFields.outer, typed.outer));
}

/** What other stations know of the arm: taken while the field here is empty. */
export interface KnownElsewhere {
  readonly spindleToPivotMm?: number | undefined;
  readonly effectiveLengthMm?: number | undefined;
}

function lengthOf(typed: ArmTyped, elsewhere: KnownElsewhere): PlaceRequest['length'] {
  const own = (name: 'spindleToPivot' | 'effectiveLength', known: number | undefined): number =>
    optionalField(armFields[name], typed[name]) ?? known ?? neededField(armFields[name], typed[name]);
  switch (typed.known ?? 'spindle-to-pivot') {
    case 'spindle-to-pivot':
      return { known: 'spindle-to-pivot', mm: own('spindleToPivot', elsewhere.spindleToPivotMm) };
    case 'effective-length':
      return { known: 'effective-length', mm: own('effectiveLength', elsewhere.effectiveLengthMm) };
    case 'overhang':
      return { known: 'overhang', mm: neededField(armFields.overhang, typed.overhang) };
    case 'tangential':
      return { known: 'tangential' };
  }
}

const inRadians = ({ least, most }: Range): Range => ({ least: degToRad(least), most: degToRad(most) });

function rangeOf(least: number, most: number, what: string, unit: string): Range {
  if (!(least <= most)) {
    throw new Unusable(statement('range-turned', { what, least, most, unit }), false);
  }
  return { least, most };
}

function limitsOf(typed: ArmTyped, known: PlaceRequest['length']['known']): Limits | undefined {
  if (known === 'tangential') {
    const overhang = optionalField(armFields.heldOverhang, typed.heldOverhang);
    const twist = optionalField(armFields.heldTwist, typed.heldTwist);
    return {
      ...(overhang === undefined ? {} : { overhang: fixedAt(overhang) }),
      ...(twist === undefined ? {} : { offset: fixedAt(degToRad(twist)) }),
    };
  }
  const movable = typed.movable ?? 'both';
  const offset = () => ({ offset: fixedAt(degToRad(neededField(armFields.heldOffset, typed.heldOffset))) });
  const length = () => ({ effectiveLength: fixedAt(neededField(armFields.heldLength, typed.heldLength)) });
  if (movable === 'slide') return offset();
  if (movable === 'both' || known !== 'spindle-to-pivot') return undefined;
  if (movable === 'twist') return length();
  if (movable === 'nothing') return { ...length(), ...offset() };
  const shortest = neededField(armFields.slotsShortest, typed.slotsShortest);
  const longest = neededField(armFields.slotsLongest, typed.slotsLongest);
  const least = optionalField(armFields.turnLeast, typed.turnLeast);
  const most = optionalField(armFields.turnMost, typed.turnMost);
  if ((least === undefined) !== (most === undefined)) {
    throw missingField(armFields[least === undefined ? 'turnLeast' : 'turnMost'].label);
  }
  return {
    effectiveLength: rangeOf(shortest, longest, 'Effective lengths that the slots allow', 'mm'),
    ...(least === undefined || most === undefined
      ? {}
      : { offset: inRadians(rangeOf(least, most, 'Offsets that the headshell allows', '°')) }),
  };
}

/** What the tolerances are, each k = 2: typed, or common practice. */
function tolerancesOf(typed: ArmTyped) {
  const twist = optionalField(armFields.toleranceTwist, typed.toleranceTwist);
  return {
    overhang: optionalField(armFields.toleranceOverhang, typed.toleranceOverhang) ?? usualTolerances.overhang,
    twist: twist === undefined ? usualTolerances.twist : degToRad(twist),
    spindleToPivot: optionalField(armFields.tolerancePivot, typed.tolerancePivot) ?? usualTolerances.spindleToPivot,
  };
}

/**
 * @throws Unusable where a field is empty or out of its bounds
 * @throws RangeError from the core where fields contradict one another
 */
export function armRequest(typed: ArmTyped, known: KnownElsewhere = {}): Omit<PlaceRequest, 'readings'> {
  const length = lengthOf(typed, known);
  const span = spanOf(typed);
  const criterion = typed.criterion ?? 'lofgren-a';
  const speed = speedOf(typed, span);
  const elsewhere = typed.elsewhere === true && length.known === 'spindle-to-pivot';
  return {
    length,
    span,
    criterion,
    music:
      criterion === 'even-music'
        ? musicWeight([
            { radius: span.inner, weight: neededField(armFields.weightInner, typed.weightInner) },
            { radius: span.outer, weight: neededField(armFields.weightOuter, typed.weightOuter) },
          ])
        : undefined,
    rpm: speed === 'own' ? neededField(armFields.rpm, typed.rpm) : rpmOf[speed],
    limits: limitsOf(typed, length.known),
    makers: elsewhere
      ? pivotedArm(
          neededField(armFields.makersPivot, typed.makersPivot),
          neededField(armFields.makersLength, typed.makersLength),
          degToRad(neededField(armFields.makersOffset, typed.makersOffset)),
        )
      : undefined,
    tolerance: { tolerances: tolerancesOf(typed) },
  };
}
