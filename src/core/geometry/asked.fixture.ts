/** What may be asked of the Place station, each part of it at least once. */
import { degToRad } from '../units/units.ts';
import type { Found } from '../words/found.ts';
import { pivotedArm } from './arm.ts';
import { fixedAt } from './constrain.ts';
import type { PlaceDocument } from './document.ts';
import type { PlaceRequest } from './placeRequest.ts';
import { grooveSpan, ownSpan } from './span.ts';

const span = grooveSpan('12in');
const few = { step: 50, tolerance: { draws: 100, points: 3 } } as const;
const pivot = (mm: number) => ({ known: 'spindle-to-pivot', mm }) as const;
const drawnFor = { spindleToPivot: 222, effectiveLength: 239.2962 };

export const asked: Readonly<Record<string, PlaceRequest>> = {
  'a usual arm': { ...few, length: pivot(222), span, criterion: 'lofgren-a' },
  'an effective length at 45 turns': {
    ...few,
    length: { known: 'effective-length', mm: 230 },
    span: grooveSpan('7in'),
    criterion: 'stevenson',
    rpm: 45,
    seed: 3,
  },
  'an overhang, weighted by the music': {
    ...few,
    length: { known: 'overhang', mm: 15 },
    span,
    criterion: 'even-music',
    music: [
      { radius: 60, weight: 3 },
      { radius: 110, weight: 1 },
    ],
    tolerance: { draws: 100, points: 2, tolerances: { overhang: 0.2, twist: degToRad(1), spindleToPivot: 0.2 } },
  },
  'a point read on a sheet': {
    ...few,
    length: pivot(222),
    span,
    criterion: 'lofgren-a',
    readings: {
      spindleToPivotUncertainty: 0.3,
      readings: [{ kind: 'point', radius: 66, along: -1.5, across: 0.2, twist: degToRad(1.5), drawnFor }],
    },
  },
  'two points that contradict one another, slots and shell that end': {
    ...few,
    length: pivot(222),
    span,
    criterion: 'lofgren-b',
    seed: 5,
    readings: {
      readings: [
        { kind: 'point', radius: 66, along: 3, across: 0, twist: degToRad(-4), drawnFor },
        { kind: 'point', radius: 120.9, along: 1, across: 0.5, twist: degToRad(-1), drawnFor },
      ],
      travel: { forward: 2, back: 0.5, turn: degToRad(1) },
      tipAhead: 8,
      slotAngle: degToRad(10),
    },
  },
  'a ruler alone': {
    ...few,
    length: pivot(222),
    span,
    criterion: 'least-squares',
    readings: { readings: [{ kind: 'overhang', overhang: 19.5, uncertainty: { overhang: 1 } }] },
  },
  'a fixed offset, and readings of the arm': {
    ...few,
    length: pivot(222),
    span,
    criterion: 'lofgren-a',
    limits: { offset: fixedAt(degToRad(20)) },
    readings: {
      readings: [
        { kind: 'twist', radius: 66, twist: 0.01 },
        { kind: 'length', effectiveLength: 238 },
      ],
    },
  },
  'a fixed length and a range of offsets': {
    ...few,
    length: pivot(222),
    span,
    criterion: 'stevenson',
    limits: { effectiveLength: fixedAt(238), offset: { least: degToRad(18), most: degToRad(21) } },
    readings: {
      readings: [
        { kind: 'offset', offset: degToRad(19) },
        { kind: 'overhang', overhang: 16 },
      ],
    },
  },
  'slots that end, a pivot that may be moved': {
    ...few,
    length: { known: 'effective-length', mm: 239 },
    span,
    criterion: 'lofgren-b',
    limits: { spindleToPivot: { least: 223, most: 225 } },
  },
  'a pivot that is elsewhere': {
    ...few,
    length: pivot(223.5),
    span,
    criterion: 'lofgren-a',
    makers: pivotedArm(222, 239.2962, 0.401173),
  },
  'a tangential arm whose line misses the spindle': {
    ...few,
    length: { known: 'tangential' },
    span: ownSpan(60, 140),
    criterion: 'lofgren-a',
    limits: { overhang: { least: 1, most: 2 }, offset: { least: 0, most: degToRad(0.5) } },
  },
};

/** All of the first three answers; of the others what those do not hold. */
export function partsOf(name: string, answer: Found<PlaceDocument>): unknown {
  if (!answer.found || Object.keys(asked).indexOf(name) < 3) return answer;
  const { criteria, overlays, curve, tolerance, groove, moves, asItStands, ...others } = answer.value;
  return {
    ...others,
    overlays: overlays.map((overlay) => overlay.name),
    // words are those of the codes
    moves: moves.map(({ why, caution, predicts, cautions, ...move }) => move),
    asItStands,
  };
}
