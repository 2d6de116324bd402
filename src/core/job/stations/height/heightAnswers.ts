/** Angle over height for this arm, and what a measured angle asks for; every figure is the core's. */

import type { Advice, JudgedFinding } from '../../../advise/document.ts';
import { type HeightArm, type HeightSheet, heightAdvice, heightSheet } from '../../../advise/height.ts';
import { ASSUMED } from '../../../advise/matchLimits.ts';
import { expanded } from '../../../advise/propagate.ts';
import type { BearingSquareTo } from '../../../mechanics/armHeight.ts';
import type { Statement } from '../../../words/statement.ts';
import type { CaptureEntry, Job } from '../../api.ts';
import type { Bench, Facts } from '../../fields/benchFacts.ts';
import { type QuantityBounds, readQuantity } from '../../fields/quantity.ts';
import { ofWhatIsFitted } from '../../recordings.ts';
import { type Answer, ask, none, notKnown, unusable } from '../answer.ts';
import type { HeightTyped } from '../height.ts';
import type { MatchReading } from '../match/matchData.ts';
import { type Spread, standardOf } from '../weigh/balance.ts';
import { swingingArm } from '../weigh/gauge.ts';
import { heightFields, OTHER_THICKNESS_MM, USUAL_THICKNESS_MM } from './heightData.ts';

/** A field's number; `usual` while it is empty; null where what is typed cannot be used. */
function numberOr(text: string | undefined, bounds: QuantityBounds, usual: number): number | null {
  const read = readQuantity(text, bounds);
  if ('value' in read) return read.value;
  return 'empty' in read ? usual : null;
}

export const riseOf = (data: HeightTyped): number | null => numberOr(data.rise, heightFields.rise, 0);
export const thicknessOf = (data: HeightTyped): number | null =>
  numberOr(data.thickness, heightFields.thickness, USUAL_THICKNESS_MM);

/** What the vertical bearing is square to: as said here, else as the arm's part says. */
export const bearingOf = ({ squareTo }: HeightTyped, { chosen }: MatchReading): BearingSquareTo | undefined =>
  squareTo || chosen.arm?.bearingSquareTo;

/** What of the arm decides how height turns the cartridge; null without its length. */
export function heightArm(data: HeightTyped, facts: Facts, match: MatchReading): HeightArm | null {
  const { effectiveLengthMm } = facts;
  return effectiveLengthMm === undefined ? null : armOfLength(effectiveLengthMm.value, data, facts, match);
}

const armOfLength = (
  effectiveLengthMm: number,
  data: HeightTyped,
  { offsetDeg }: Facts,
  match: MatchReading,
): HeightArm => ({ effectiveLengthMm, offsetDeg: offsetDeg?.value, squareTo: bearingOf(data, match) });

export interface HeightAnswer {
  readonly sheet: HeightSheet;
  readonly degPerMm: Spread;
  readonly mmPerDeg: Spread;
  readonly riseMm: number;
  readonly thicknessMm: number;
  /** why the force over height is left out; null where it is there */
  readonly forceLeftOut: Statement | null;
}

/** @param forceMn at the tip, for the change of force; null where it is not known */
export function heightAnswer(
  data: HeightTyped,
  { facts, match }: Pick<Bench, 'facts' | 'match'>,
  forceMn: number | null,
): Answer<HeightAnswer> {
  const length = facts.effectiveLengthMm;
  if (length === undefined) return none(notKnown(['the effective length']));
  const riseMm = riseOf(data);
  if (riseMm === null) return unusable('how far the arm is over level');
  const thicknessMm = thicknessOf(data);
  if (thicknessMm === null) return unusable('the record’s thickness');
  const other = readQuantity(data.other, heightFields.other);
  if ('wrong' in other) return unusable('the other record’s thickness');
  const others = [...new Set([...OTHER_THICKNESS_MM, ...('value' in other ? [other.value] : [])])].sort(
    (a, b) => a - b,
  );
  const arm = forceMn === null ? none(notKnown(['the force at the tip'])) : swingingArm(facts, forceMn);
  const sheetFor = (effectiveLengthMm: number) =>
    heightSheet({
      ...armOfLength(effectiveLengthMm, data, facts, match),
      setOnThicknessMm: thicknessMm,
      otherThicknessMm: others,
      verticalAngleDeg: facts.verticalAngleDeg?.value,
      riseMm,
      arm: arm.found ? arm.value : undefined,
    });
  // what length and kind of bearing leave open
  const spread = (figure: (sheet: HeightSheet) => number, apart: (bearings: readonly number[]) => number): Spread => {
    const { bearings } = sheetFor(length.value);
    const halfApart = apart(bearings.map(({ mmPerDeg }) => mmPerDeg));
    const ofLength = expanded<'length'>((x) => figure(sheetFor(x.length)), {
      length: { value: length.value, standard: standardOf(length, ASSUMED.lengthMm) },
    });
    return { value: figure(sheetFor(length.value)), uncertainty: Math.hypot(ofLength ?? 0, halfApart) };
  };
  const half = (values: readonly number[]): number => (Math.max(...values) - Math.min(...values)) / 2;
  return ask(() => ({
    sheet: sheetFor(length.value),
    degPerMm: spread(
      (sheet) => sheet.degPerMm,
      (mm) => half(mm.map((one) => 1 / one)),
    ),
    mmPerDeg: spread((sheet) => sheet.mmPerDeg, half),
    riseMm,
    thicknessMm,
    forceLeftOut: arm.found ? null : arm.why,
  }));
}

export interface MeasuredAngle {
  readonly finding: JudgedFinding;
  readonly errorDeg: number;
  readonly capture: CaptureEntry;
}

/** The vertical tracking error of the last recording of what is fitted that holds one; null where none does. */
export function measuredAngle(job: Job): MeasuredAngle | null {
  for (const capture of [...ofWhatIsFitted(job)].reverse()) {
    const finding = capture.findings.find(({ quantity }) => quantity === 'vertical-tracking-error');
    if (finding !== undefined && typeof finding.value === 'number') {
      return { finding, errorDeg: finding.value, capture };
    }
  }
  return null;
}

/** What the measured angle asks for on this arm. */
export function measuredAdvice(
  data: HeightTyped,
  { facts, match }: Pick<Bench, 'facts' | 'match'>,
  measured: MeasuredAngle,
): Answer<Advice> {
  const arm = heightArm(data, facts, match);
  if (arm === null) return none(notKnown(['the effective length']));
  const [down, up] = [
    readQuantity(data.slackDown, heightFields.slackDown),
    readQuantity(data.slackUp, heightFields.slackUp),
  ];
  const slack = 'value' in down && 'value' in up ? { down: down.value, up: up.value } : undefined;
  return ask(() => heightAdvice(measured.errorDeg, measured.finding.uncertainty, arm, slack));
}
