/** What was typed off a meter → what the core is asked, or the sentence that is missing. */
import { readingsFromCsv } from '../../../advise/readingsCsv.ts';
import {
  DEFAULT_READING_UNCERTAINTY_DB,
  type MeterAnswer,
  type ReadingAtTilt,
  tiltFromReadings,
  tiltFromTwoReadings,
} from '../../../advise/voltmeter.ts';
import { ratioToDb } from '../../../units/units.ts';
import { readNumber, typedValue } from '../../fields/number.ts';

export type MeterWay = 'db' | 'volts' | 'several';

/** As kept with the job: everything as it was typed. */
export interface MeterTyped {
  way?: MeterWay;
  leftToRight?: string;
  rightToLeft?: string;
  uncertainty?: string;
  /** mV: the left channel on the left-only band, and so on */
  leftOnLeft?: string;
  rightOnLeft?: string;
  leftOnRight?: string;
  rightOnRight?: string;
  rows?: readonly MeterRow[];
}

export interface MeterRow {
  readonly tilt: string;
  readonly leftToRight: string;
  readonly rightToLeft: string;
}

export const SEPARATION = { min: 3, max: 80, unit: 'dB' };
export const READING = { min: 0.01, max: 10, unit: 'dB' };
export const VOLTS = { min: 1e-4, max: 1e5, unit: 'mV' };
export const TILT = { min: -15, max: 15, unit: '°' };

export const emptyRow: MeterRow = { tilt: '', leftToRight: '', rightToLeft: '' };

/** An answer, a sentence about what is not right, or nothing yet to answer. */
export type MeterResult =
  | { readonly kind: 'answer'; readonly answer: MeterAnswer }
  | { readonly kind: 'wrong'; readonly why: string }
  | { readonly kind: 'waiting' };

function guarded(ask: () => MeterAnswer): MeterResult {
  try {
    return { kind: 'answer', answer: ask() };
  } catch (error) {
    if (error instanceof RangeError)
      return { kind: 'wrong', why: `${error.message.replace(/^./, (l) => l.toUpperCase())}.` };
    throw error;
  }
}

const spreadOf = (typed: MeterTyped): number =>
  typedValue(typed.uncertainty, READING) ?? DEFAULT_READING_UNCERTAINTY_DB;

/**
 * Separations from four voltages. Each channel's leak is set against that same channel when driven, so that unequal gains
 * of the two channels fall out: R on the left-only band under R on the right-only band, and likewise for L.
 */
export function separationsFromVolts(volts: {
  leftOnLeft: number;
  rightOnLeft: number;
  leftOnRight: number;
  rightOnRight: number;
}) {
  return {
    leftToRightDb: ratioToDb(volts.rightOnRight / volts.rightOnLeft),
    rightToLeftDb: ratioToDb(volts.leftOnLeft / volts.leftOnRight),
  };
}

/** Rows as typed → readings; a row that is begun and not complete is named. */
function rowsOf(rows: readonly MeterRow[]): { readings: ReadingAtTilt[] } | { why: string } {
  const readings: ReadingAtTilt[] = [];
  for (const [i, row] of rows.entries()) {
    const cells = [
      readNumber(row.tilt, TILT),
      readNumber(row.leftToRight, SEPARATION),
      readNumber(row.rightToLeft, SEPARATION),
    ];
    if (cells.every((cell) => 'empty' in cell)) continue;
    const wrong = cells.find((cell) => 'wrong' in cell);
    if (wrong !== undefined && 'wrong' in wrong) return { why: `Row ${i + 1}: ${wrong.wrong}` };
    const [tilt, across, back] = cells.map((cell) => ('value' in cell ? cell.value : null));
    if (tilt === null || across === null || back === null)
      return { why: `Row ${i + 1} is not complete: tilt and both readings are needed.` };
    readings.push({ tiltDeg: tilt, leftToRightDb: across, rightToLeftDb: back });
  }
  return { readings };
}

export function meterResult(typed: MeterTyped): MeterResult {
  const way = typed.way ?? 'db';
  if (way === 'several') {
    const read = rowsOf(typed.rows ?? []);
    if ('why' in read) return { kind: 'wrong', why: read.why };
    if (read.readings.length === 0) return { kind: 'waiting' };
    return guarded(() => tiltFromReadings(read.readings, spreadOf(typed)));
  }
  let pair: { leftToRightDb: number; rightToLeftDb: number } | null = null;
  if (way === 'db') {
    const across = typedValue(typed.leftToRight, SEPARATION);
    const back = typedValue(typed.rightToLeft, SEPARATION);
    if (across !== null && back !== null) pair = { leftToRightDb: across, rightToLeftDb: back };
  } else {
    const [leftOnLeft, rightOnLeft, leftOnRight, rightOnRight] = (
      ['leftOnLeft', 'rightOnLeft', 'leftOnRight', 'rightOnRight'] as const
    ).map((key) => typedValue(typed[key], VOLTS));
    if (leftOnLeft !== null && rightOnLeft !== null && leftOnRight !== null && rightOnRight !== null) {
      pair = separationsFromVolts({ leftOnLeft, rightOnLeft, leftOnRight, rightOnRight });
    }
  }
  if (pair === null) return { kind: 'waiting' };
  const asked = pair;
  return guarded(() => tiltFromTwoReadings({ ...asked, readingUncertaintyDb: spreadOf(typed) }));
}

/** Pasted text → rows; with or without the header line. */
export function rowsFromPaste(text: string): MeterRow[] {
  const header = /[a-z]/i.test(text.split(/\r\n|\n|\r/, 1)[0] ?? '');
  const separator = ['\t', ';', ','].find((mark) => text.includes(mark)) ?? ',';
  const whole = header ? text : `${['tilt_deg', 'left_to_right_db', 'right_to_left_db'].join(separator)}\n${text}`;
  return readingsFromCsv(whole).map((row) => ({
    tilt: String(row.tiltDeg),
    leftToRight: String(row.leftToRightDb),
    rightToLeft: String(row.rightToLeftDb),
  }));
}
