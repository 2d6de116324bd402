/** The fields of Place, each declared once: label, unit and bounds, help, what is used while nothing is typed. */
import { usualReadingUncertainty } from '../../../geometry/readings.ts';
import { USUAL_TIP_AHEAD } from '../../../geometry/slide.ts';
import { usualTolerances } from '../../../geometry/tolerance.ts';
import { type BenchBound, benchBounds } from '../../../units/benchBounds.ts';
import { radToDeg } from '../../../units/units.ts';
import { factFields } from '../../fields/factFields.ts';
import { type Field, type Fields, fieldOf } from '../../fields/field.ts';

const bound = (unit: string, min: number, max: number): BenchBound => ({ unit, min, max });
const { spindleToPivotMm: pivot, effectiveLengthMm: length, overhangMm: overhang, offsetDeg: offset } = benchBounds;
const radius = benchBounds.grooveRadiusMm;
const common = 'common practice';

const withUsual = (field: Field, value: number, from = common): Field => ({ ...field, usual: { value, from } });

export const armFields = {
  spindleToPivot: factFields.spindleToPivotMm,
  effectiveLength: factFields.effectiveLengthMm,
  overhang: fieldOf('Overhang', overhang, 'How far the tip swings past the spindle'),
  heldOffset: fieldOf('Fixed offset', offset, 'Cartridge against the line pivot to tip'),
  heldLength: fieldOf('Fixed effective length', length),
  slotsShortest: fieldOf('Shortest effective length', length, 'Cartridge fully back'),
  slotsLongest: fieldOf('Longest effective length', length, 'Cartridge fully forward'),
  turnLeast: fieldOf('Least offset', offset, 'Both empty where the headshell turns freely'),
  turnMost: fieldOf('Largest offset', offset),
  heldOverhang: fieldOf('Overhang that cannot be changed', overhang, 'Empty where it can be set'),
  heldTwist: fieldOf('Twist that cannot be changed', offset, 'Clockwise from above positive; empty where settable'),
  makersPivot: fieldOf('Maker’s spindle to pivot', pivot),
  makersLength: fieldOf('Maker’s effective length', length),
  makersOffset: fieldOf('Maker’s offset', offset),
  inner: fieldOf('Innermost groove', radius, 'Radius; 60.325 is the usual 12-inch one'),
  outer: fieldOf('Outermost groove', radius, 'Radius; 146.05 is the usual 12-inch one'),
  weightInner: fieldOf('Weight at the inner groove', bound('', 0, 1000), 'Any scale; straight between the two'),
  weightOuter: fieldOf('Weight at the outer groove', bound('', 0, 1000), 'Lower where music lies further in'),
  rpm: fieldOf('Turns a minute', bound('rpm', 8, 120)),
  toleranceOverhang: withUsual(fieldOf('Overhang to within ±', bound('mm', 0, 10)), usualTolerances.overhang),
  toleranceTwist: withUsual(fieldOf('Twist to within ±', bound('deg', 0, 10)), radToDeg(usualTolerances.twist)),
  tolerancePivot: withUsual(
    fieldOf('Spindle to pivot to within ±', bound('mm', 0, 20)),
    usualTolerances.spindleToPivot,
  ),
} as const satisfies Fields;

/** What of the arm is ticked or picked from a longer list. */
export const armNotes = {
  grooves: { label: 'Which grooves?' },
  elsewhere: { label: 'The pivot is not where the arm’s maker wants it' },
};

export const readFields = {
  sheetPivot: fieldOf('Template’s spindle to pivot', pivot),
  sheetLength: fieldOf('Template’s effective length', length),
  squareFirst: fieldOf('First radius', radius, 'From the centre of the spindle'),
  squareSecond: fieldOf('Second radius', radius),
  rulerOverhang: fieldOf('Overhang by ruler', overhang, 'Tip past the spindle’s centre, arm over it'),
  rulerTwist: fieldOf(
    'Twist at a point of the template',
    bound('deg', -30, 30),
    'Empty where not read; clockwise positive',
  ),
  rulerRadius: fieldOf('Radius of that point', radius),
  statedLength: fieldOf('Effective length as it is set', length),
  statedOffset: fieldOf('Offset as it is set', offset),
  withinMm: withUsual(
    fieldOf('Lengths to within ±', bound('mm', 0.01, 10)),
    usualReadingUncertainty.along,
    'an eye with a lens on a 1 mm grid',
  ),
  withinDeg: withUsual(fieldOf('Angles to within ±', bound('deg', 0.01, 25)), 0.5),
  withinPivot: withUsual(
    fieldOf('Spindle to pivot known to within ±', bound('mm', 0.01, 50)),
    usualReadingUncertainty.spindleToPivot,
  ),
  slotsForward: fieldOf('Slot left forward', bound('mm', 0, 90), 'From where it is now; empty: enough'),
  slotsBack: fieldOf('Slot left back', bound('mm', 0, 90)),
  turnLeft: fieldOf('Turn left, either way', bound('deg', 0, 30)),
  tipAhead: withUsual(
    fieldOf('Tip ahead of the screws', bound('mm', 0, 30), 'Measure the cartridge'),
    USUAL_TIP_AHEAD,
    'from memory',
  ),
  slotAngle: fieldOf('Angle of the slots', offset, 'Against line pivot to tip; empty: cartridge’s'),
} as const satisfies Fields;

/** Of one point of a template. */
export const pointFields = {
  along: fieldOf('Tip off the cross, forward', bound('mm', -30, 30), 'Along the long lines; minus: behind the cross'),
  across: fieldOf('Tip off the cross, outward', bound('mm', -15, 15), 'Towards the rim; minus: towards the spindle'),
  twist: fieldOf('Cartridge turned clockwise', bound('deg', -30, 30), 'Against the long lines; minus: anticlockwise'),
} as const satisfies Fields;

/** Radius of a point; its label names the point. */
export const pointRadius = (which: 'inner' | 'outer'): Field => fieldOf(`Radius of the ${which} point`, radius);

/** What the printer made of 100 mm. */
export const sheetFields = {
  madeAcross: fieldOf('100 mm across came out as', bound('mm', 95, 105), 'Empty at the first print'),
  madeDown: fieldOf('100 mm down came out as', bound('mm', 95, 105), 'Empty: as across'),
} as const satisfies Fields;
