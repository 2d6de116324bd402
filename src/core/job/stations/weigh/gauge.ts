/** What the gauge showed → the force where the record lies, and what dial and target say to it. */

import type { JudgedFinding } from '../../../advise/document.ts';
import { forceAtRecord, forceFindings, type HeightEffect, type RecordForce } from '../../../advise/weigh.ts';
import { forceAtRise, type SwingingArm } from '../../../mechanics/forceAndHeight.ts';
import {
  calibrateGauge,
  correctReading,
  type GaugeCalibration,
  type GaugeReading,
} from '../../../mechanics/forceGauge.ts';
import { statement } from '../../../words/statement.ts';
import { swingingArmOf } from '../../benchFromParts.ts';
import { type Facts, figuresOf } from '../../fields/benchFacts.ts';
import { mnOfG } from '../../fields/force.ts';
import { type ReadQuantity, readQuantity } from '../../fields/quantity.ts';
import { type Answer, ask, none, unusable } from '../answer.ts';
import type { WeighTyped } from '../weigh.ts';
import type { Spread, Target } from './balance.ts';
import { type EffectKind, forceFields, type GaugeTyped, gaugeFields, type MassRow, massFields } from './weighData.ts';

function digitOf({ digit }: GaugeTyped): number {
  const read = readQuantity(digit, gaugeFields.digit);
  return 'value' in read ? read.value : gaugeFields.digit.usual.value;
}

/** Height of the tip on the gauge over its place on the record, mm; empty is at record height. */
export function heightOf({ height }: GaugeTyped): number | null {
  const read = readQuantity(height, gaugeFields.height);
  return 'value' in read ? read.value : 'empty' in read ? 0 : null;
}

function cells({ mass, within, reading }: MassRow): readonly ReadQuantity[] {
  const known = readQuantity(mass, massFields.mass);
  const own =
    'value' in known && known.uncertainty !== undefined ? { value: known.uncertainty } : { empty: true as const };
  const stated = readQuantity(within, massFields.within);
  return [known, 'empty' in stated ? own : stated, readQuantity(reading, massFields.reading)];
}

export interface Calibrated {
  readonly calibration: GaugeCalibration;
  /** how far the gauge reads over the true mass, per cent; high positive */
  readonly readsHighPercent: Spread;
}

/** The gauge against known masses; null where none was laid on it. */
export function calibrationOf(masses: readonly MassRow[], gauge: GaugeTyped): Answer<Calibrated> | null {
  const rows = masses.map(cells).map((row, i) => ({ row, place: i + 1 }));
  const begun = rows.filter(({ row }) => !row.every((cell) => 'empty' in cell));
  if (begun.length === 0) return null;
  const readings: GaugeReading[] = [];
  for (const { row, place } of begun) {
    const wrong = row.find((cell) => 'wrong' in cell);
    if (wrong !== undefined && 'wrong' in wrong)
      return none(statement('row-wrong', { row: place, why: wrong.wrong }), false);
    const [reference, referenceUncertainty, reading] = row.map((cell) => ('value' in cell ? cell.value : null));
    if (reference === null || referenceUncertainty === null || reading === null) {
      return none(statement('row-lacks-mass', { row: place }));
    }
    readings.push({ reference, referenceUncertainty, reading });
  }
  return ask(() => {
    const calibration = calibrateGauge(readings, digitOf(gauge));
    const { factor, factorStandardUncertainty } = calibration;
    return {
      calibration,
      readsHighPercent: {
        value: 100 * (1 / factor - 1),
        uncertainty: (200 * factorStandardUncertainty) / factor ** 2,
      },
    };
  });
}

/** The arm as it swings at a force, or what is not known of it. */
export const swingingArm = (facts: Facts, forceMn: number): Answer<SwingingArm> => {
  const asked = swingingArmOf(figuresOf(facts), forceMn);
  return asked.found ? { found: true, value: asked.value } : none(asked.why);
};

/** How the force goes with height, as chosen; where nothing was chosen from the arm's balance if that is known. */
export function effectKind(facts: Facts, { effect }: GaugeTyped): EffectKind {
  return effect ?? (swingingArm(facts, 18).found ? 'arm' : 'unknown');
}

function effectOf(facts: Facts, gauge: GaugeTyped, reading: number, heightMm: number, inMn: (g: number) => number) {
  const kind = effectKind(facts, gauge);
  if (kind === 'unknown') return { found: true, value: { kind } } satisfies Answer<HeightEffect>;
  if (kind === 'arm') {
    const arm = swingingArm(facts, inMn(reading));
    return arm.found ? ({ found: true, value: { kind, arm: arm.value } } satisfies Answer<HeightEffect>) : arm;
  }
  const second = readQuantity(gauge.secondReading, gaugeFields.secondReading);
  const height = readQuantity(gauge.secondHeight, gaugeFields.height);
  if ('wrong' in second || 'wrong' in height) return unusable('the second reading');
  if ('empty' in second || 'empty' in height) return none(statement('second-reading-missing'));
  const one = { mm: heightMm, mn: inMn(reading) };
  const other = { mm: height.value, mn: inMn(second.value) };
  const [low, high] = one.mm <= other.mm ? [one, other] : [other, one];
  return {
    found: true,
    value: { kind, lowMm: low.mm, lowMn: low.mn, highMm: high.mm, highMn: high.mn },
  } satisfies Answer<HeightEffect>;
}

export interface Weighed {
  readonly force: RecordForce;
  readonly calibrated: boolean;
}

/** The force at record height from what was typed; `missing` until there is a reading. */
export function weighedOf(data: WeighTyped, facts: Facts): Answer<Weighed> {
  const gauge = data.gauge ?? {};
  const reading = readQuantity(gauge.reading, gaugeFields.reading);
  if ('empty' in reading) return none(statement('nothing-weighed'));
  if ('wrong' in reading) return unusable('the reading');
  const heightMm = heightOf(gauge);
  if (heightMm === null) return unusable('the height');
  if ('wrong' in readQuantity(gauge.digit, gaugeFields.digit)) return unusable('the last digit');
  const calibrated = calibrationOf(data.masses ?? [], gauge);
  if (calibrated !== null && !calibrated.found) return none(calibrated.why, calibrated.missing);
  const calibration = calibrated === null ? undefined : calibrated.value.calibration;
  const inMn = (g: number) => mnOfG(calibration === undefined ? g : correctReading(calibration, g).value);
  const effect: Answer<HeightEffect> =
    heightMm === 0
      ? { found: true, value: { kind: 'unknown' } }
      : effectOf(facts, gauge, reading.value, heightMm, inMn);
  if (!effect.found) return effect;
  return ask(() => ({
    force: forceAtRecord({
      readingG: reading.value,
      resolutionG: digitOf(gauge),
      calibration,
      heightMm,
      effect: effect.value,
    }),
    calibrated: calibration !== undefined,
  }));
}

/** mN on the dial, where it can be used. */
export function dialOf({ dial, forceUnit = 'g' }: WeighTyped): number | null {
  const read = readQuantity(dial, forceFields.dial, forceUnit);
  return 'value' in read ? read.value : null;
}

/** Target, dial and gauge beside one another. */
export function findingsOf(
  data: WeighTyped,
  facts: Facts,
  { force }: Weighed,
  target: Target,
): Answer<readonly JudgedFinding[]> {
  return ask(() =>
    forceFindings({
      targetMn: target.mn,
      dialMn: dialOf(data) ?? undefined,
      atRecord: force,
      leastMn: facts.trackingForceMinMn?.value,
      mostMn: facts.trackingForceMaxMn?.value,
    }),
  );
}

export interface HeightLine {
  /** mm over the record */
  readonly x: readonly number[];
  /** mN */
  readonly y: readonly number[];
}

/** Force against the tip's height, by the arm's own balance, with this force at the record. */
export function forceOverHeight(facts: Facts, forceMn: number, fromMm: number, toMm: number): Answer<HeightLine> {
  const arm = swingingArm(facts, forceMn);
  if (!arm.found) return arm;
  const x = Array.from({ length: 41 }, (_, i) => fromMm + ((toMm - fromMm) * i) / 40);
  return ask(() => ({ x, y: x.map((rise) => 1e3 * forceAtRise(arm.value, rise)) }));
}
