/** What was typed about the arm and its records → what core/geometry is asked: the same request that `place` makes. */
import { pivotedArm } from '../../../geometry/arm.ts';
import { fixedAt, type Limits, type Range } from '../../../geometry/constrain.ts';
import type { PlaceRequest } from '../../../geometry/document.ts';
import { musicWeight } from '../../../geometry/music.ts';
import { type GrooveSpan, grooveSpan, ownSpan } from '../../../geometry/span.ts';
import { usualTolerances } from '../../../geometry/tolerance.ts';
import { degToRad } from '../../../units/units.ts';
import { neededField, optionalField, Unusable } from './fieldValue.ts';
import {
  type ArmTyped,
  LENGTH,
  OFFSET,
  OVERHANG,
  PIVOT,
  RADIUS,
  RPM,
  type Speed,
  TOLERANCE_OVERHANG,
  TOLERANCE_PIVOT,
  TOLERANCE_TWIST,
  WEIGHT,
} from './typed.ts';

const rpmOf: Readonly<Record<Exclude<Speed, 'own'>, number>> = { '33': 100 / 3, '45': 45, '78': 78.26 };

/** The speed that is asked for; where none was chosen the one that such records usually run at. */
export function speedOf(typed: ArmTyped, span: GrooveSpan): Speed {
  if (typed.speed !== undefined) return typed.speed;
  return span.usualRpm > 60 ? '78' : span.usualRpm > 40 ? '45' : '33';
}

/** @throws Unusable; RangeError from the core where inner and outer do not make a span */
export function spanOf(typed: ArmTyped): GrooveSpan {
  if (typed.grooves !== 'own') return grooveSpan(typed.grooves ?? '12in');
  return ownSpan(
    neededField('Innermost groove', typed.inner, RADIUS),
    neededField('Outermost groove', typed.outer, RADIUS),
  );
}

function lengthOf(typed: ArmTyped): PlaceRequest['length'] {
  switch (typed.known ?? 'spindle-to-pivot') {
    case 'spindle-to-pivot':
      return { known: 'spindle-to-pivot', mm: neededField('Spindle to pivot', typed.spindleToPivot, PIVOT) };
    case 'effective-length':
      return { known: 'effective-length', mm: neededField('Effective length', typed.effectiveLength, LENGTH) };
    case 'overhang':
      return { known: 'overhang', mm: neededField('Overhang', typed.overhang, OVERHANG) };
    case 'tangential':
      return { known: 'tangential' };
  }
}

const inRadians = ({ least, most }: Range): Range => ({ least: degToRad(least), most: degToRad(most) });

function rangeOf(least: number, most: number, what: string, unit: string): Range {
  if (!(least <= most)) {
    throw new Unusable(`${what}: ${least} to ${most} ${unit} was typed. The first must not be over the second.`, false);
  }
  return { least, most };
}

function limitsOf(typed: ArmTyped, known: PlaceRequest['length']['known']): Limits | undefined {
  if (known === 'tangential') {
    const overhang = optionalField('Overhang', typed.heldOverhang, OVERHANG);
    const twist = optionalField('Twist', typed.heldTwist, OFFSET);
    return {
      ...(overhang === undefined ? {} : { overhang: fixedAt(overhang) }),
      ...(twist === undefined ? {} : { offset: fixedAt(degToRad(twist)) }),
    };
  }
  const movable = typed.movable ?? 'both';
  const offset = () => ({ offset: fixedAt(degToRad(neededField('Fixed offset', typed.heldOffset, OFFSET))) });
  const length = () => ({ effectiveLength: fixedAt(neededField('Fixed effective length', typed.heldLength, LENGTH)) });
  if (movable === 'slide') return offset();
  if (movable === 'both' || known !== 'spindle-to-pivot') return undefined;
  if (movable === 'twist') return length();
  if (movable === 'nothing') return { ...length(), ...offset() };
  const shortest = neededField('Shortest effective length', typed.slotsShortest, LENGTH);
  const longest = neededField('Longest effective length', typed.slotsLongest, LENGTH);
  const least = optionalField('Least offset', typed.turnLeast, OFFSET);
  const most = optionalField('Largest offset', typed.turnMost, OFFSET);
  if ((least === undefined) !== (most === undefined)) {
    throw new Unusable(least === undefined ? 'Least offset' : 'Largest offset', true);
  }
  return {
    effectiveLength: rangeOf(shortest, longest, 'Effective lengths that the slots allow', 'mm'),
    ...(least === undefined || most === undefined
      ? {}
      : { offset: inRadians(rangeOf(least, most, 'Offsets that the shell allows', '°')) }),
  };
}

/** What the tolerances are, each k = 2: typed, or common practice. */
export function tolerancesOf(typed: ArmTyped) {
  const twist = optionalField('Twist to within', typed.toleranceTwist, TOLERANCE_TWIST);
  return {
    overhang:
      optionalField('Overhang to within', typed.toleranceOverhang, TOLERANCE_OVERHANG) ?? usualTolerances.overhang,
    twist: twist === undefined ? usualTolerances.twist : degToRad(twist),
    spindleToPivot:
      optionalField('Spindle to pivot to within', typed.tolerancePivot, TOLERANCE_PIVOT) ??
      usualTolerances.spindleToPivot,
  };
}

/**
 * @throws Unusable where a field is empty or out of its bounds
 * @throws RangeError from the core where fields contradict one another
 */
export function armRequest(typed: ArmTyped): Omit<PlaceRequest, 'readings'> {
  const length = lengthOf(typed);
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
            { radius: span.inner, weight: neededField('Weight at the inner groove', typed.weightInner, WEIGHT) },
            { radius: span.outer, weight: neededField('Weight at the outer groove', typed.weightOuter, WEIGHT) },
          ])
        : undefined,
    rpm: speed === 'own' ? neededField('Turns a minute', typed.rpm, RPM) : rpmOf[speed],
    limits: limitsOf(typed, length.known),
    makers: elsewhere
      ? pivotedArm(
          neededField('Maker’s spindle to pivot', typed.makersPivot, PIVOT),
          neededField('Maker’s effective length', typed.makersLength, LENGTH),
          degToRad(neededField('Maker’s offset', typed.makersOffset, OFFSET)),
        )
      : undefined,
    tolerance: { tolerances: tolerancesOf(typed) },
  };
}
