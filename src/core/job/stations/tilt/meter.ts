/** What was typed off a meter → what the core is asked, or the sentence that is missing. */

import { readingsFromCsv } from '../../../advise/readingsCsv.ts';
import {
  DEFAULT_READING_UNCERTAINTY_DB,
  type MeterAnswer,
  type PairOfReadings,
  type ReadingAtTilt,
  tiltFromReadings,
  tiltFromTwoReadings,
} from '../../../advise/voltmeter.ts';
import { ratioToDb } from '../../../units/units.ts';
import { shownFigure } from '../../../words/figure.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import { chosen } from '../../fields/chosen.ts';
import type { Fields } from '../../fields/field.ts';
import { readQuantity } from '../../fields/quantity.ts';
import type { MoveFigure } from '../../moveRecord.ts';
import type { ReportLine } from '../../reportLines.ts';
import { refusal } from '../answer.ts';
import type { TiltTyped } from '../tilt.ts';

export type MeterTyped = NonNullable<TiltTyped['meter']>;
export type MeterRow = NonNullable<MeterTyped['rows']>[number];

const separation = { unit: 'dB', min: 3, max: 80 };
const mono = { unit: 'dB', min: -12, max: 6 };
const volts = { unit: 'mV', min: 1e-4, max: 1e5 };

export const meterFields = {
  leftToRight: { label: 'Left into right', ...separation, help: 'Left-only band: right under left' },
  rightToLeft: { label: 'Right into left', ...separation, help: 'Right-only band: left under right' },
  leftMono: { label: 'Mono sum, left-only band', ...mono, help: 'Where read: re the left channel' },
  rightMono: { label: 'Mono sum, right-only band', ...mono, help: 'Where read: re the right channel' },
  uncertainty: {
    label: 'Each reading is good to',
    unit: 'dB',
    min: 0.01,
    max: 10,
    help: 'k = 2',
    usual: { value: DEFAULT_READING_UNCERTAINTY_DB, from: 'common practice' },
  },
  leftOnLeft: { label: 'Left channel', ...volts },
  rightOnLeft: { label: 'Right channel (the leak)', ...volts },
  leftOnRight: { label: 'Left channel (the leak)', ...volts },
  rightOnRight: { label: 'Right channel', ...volts },
} as const satisfies Fields<Exclude<keyof MeterTyped, 'way' | 'rows'>>;

export const meterWays = chosen('What was read', {
  db: 'two readings in dB',
  volts: 'four voltages',
  several: 'readings at several tilts',
});

/** Columns of readings at several tilts. */
export const rowFields = {
  tilt: { label: 'Tilt', unit: '°', min: -15, max: 15 },
  leftToRight: { label: 'Left into right', ...separation },
  rightToLeft: { label: 'Right into left', ...separation },
} as const satisfies Fields<keyof MeterRow>;

export const emptyRow: MeterRow = { tilt: '', leftToRight: '', rightToLeft: '' };

/** An answer, what is not right, or nothing yet to answer. */
export type MeterResult =
  | { readonly kind: 'answer'; readonly answer: MeterAnswer }
  | { readonly kind: 'wrong'; readonly why: Statement }
  | { readonly kind: 'waiting' };

function guarded(ask: () => MeterAnswer): MeterResult {
  try {
    return { kind: 'answer', answer: ask() };
  } catch (error) {
    return { kind: 'wrong', why: refusal(error) };
  }
}

function readingOf(name: keyof typeof meterFields, typed: MeterTyped): number | null {
  const read = readQuantity(typed[name], meterFields[name]);
  return 'value' in read ? read.value : null;
}

/** undefined where nothing was typed: each kind of reading then has its own */
const spreadOf = (typed: MeterTyped): number | undefined => readingOf('uncertainty', typed) ?? undefined;

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
function rowsOf(rows: readonly MeterRow[]): { readings: ReadingAtTilt[] } | { why: Statement } {
  const readings: ReadingAtTilt[] = [];
  for (const [i, row] of rows.entries()) {
    const cells = [
      readQuantity(row.tilt, rowFields.tilt),
      readQuantity(row.leftToRight, rowFields.leftToRight),
      readQuantity(row.rightToLeft, rowFields.rightToLeft),
    ];
    if (cells.every((cell) => 'empty' in cell)) continue;
    const wrong = cells.find((cell) => 'wrong' in cell);
    if (wrong !== undefined && 'wrong' in wrong)
      return { why: statement('row-wrong', { row: i + 1, why: wrong.wrong }) };
    const [tilt, across, back] = cells.map((cell) => ('value' in cell ? cell.value : null));
    if (tilt === null || across === null || back === null)
      return { why: statement('row-lacks-reading', { row: i + 1 }) };
    readings.push({ tiltDeg: tilt, leftToRightDb: across, rightToLeftDb: back });
  }
  return { readings };
}

/** Both separations where the cartridge stands; null while one is missing, and of readings at several tilts. */
function pairRead(typed: MeterTyped): { leftToRightDb: number; rightToLeftDb: number } | null {
  const { way = 'db' } = typed;
  if (way === 'db') {
    const [across, back] = [readingOf('leftToRight', typed), readingOf('rightToLeft', typed)];
    return across === null || back === null ? null : { leftToRightDb: across, rightToLeftDb: back };
  }
  const [leftOnLeft, rightOnLeft, leftOnRight, rightOnRight] = (
    ['leftOnLeft', 'rightOnLeft', 'leftOnRight', 'rightOnRight'] as const
  ).map((key) => readingOf(key, typed));
  if (way === 'several' || leftOnLeft === null || rightOnLeft === null || leftOnRight === null || rightOnRight === null)
    return null;
  return separationsFromVolts({ leftOnLeft, rightOnLeft, leftOnRight, rightOnRight });
}

/** The separations as the meter shows them, as figures before or after a turn; null where they are not read. */
export function separationsRead(typed: MeterTyped): readonly MoveFigure[] | null {
  const pair = meterResult(typed).kind === 'answer' ? pairRead(typed) : null;
  if (pair === null) return null;
  const uncertainty = spreadOf(typed) ?? DEFAULT_READING_UNCERTAINTY_DB;
  const of = (quantity: string, value: number): MoveFigure => ({ quantity, value, unit: 'dB', uncertainty });
  return [of('separation-left-to-right', pair.leftToRightDb), of('separation-right-to-left', pair.rightToLeftDb)];
}

export function meterResult(typed: MeterTyped): MeterResult {
  const way = typed.way ?? 'db';
  if (way === 'several') {
    const read = rowsOf(typed.rows ?? []);
    if ('why' in read) return { kind: 'wrong', why: read.why };
    if (read.readings.length === 0) return { kind: 'waiting' };
    return guarded(() => tiltFromReadings(read.readings, spreadOf(typed)));
  }
  const pair = pairRead(typed);
  if (pair === null) return { kind: 'waiting' };
  const [leftMonoDb, rightMonoDb] = [readingOf('leftMono', typed), readingOf('rightMono', typed)];
  if (way === 'db' && (leftMonoDb === null) !== (rightMonoDb === null)) {
    return { kind: 'wrong', why: statement('mono-sum-alone') };
  }
  const mono = way === 'db' && leftMonoDb !== null && rightMonoDb !== null ? { leftMonoDb, rightMonoDb } : undefined;
  const asked: PairOfReadings = { ...pair, mono, readingUncertaintyDb: spreadOf(typed) };
  return guarded(() => tiltFromTwoReadings(asked));
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

/** What the meter said, for the report: the tilt as read, the record's own with it. */
export function meterLines(typed: MeterTyped): readonly ReportLine[] {
  const result = meterResult(typed);
  if (result.kind !== 'answer' || !result.answer.found) return [];
  const { angleDeg, uncertaintyDeg, predictedLeftToRightDb, predictedRightToLeftDb } = result.answer;
  const after = [predictedLeftToRightDb, predictedRightToLeftDb].map((db) =>
    shownFigure(db, 'dB', spreadOf(typed) ?? DEFAULT_READING_UNCERTAINTY_DB),
  );
  return [
    {
      label: 'Tilt, from a meter, as read',
      text: `${shownFigure(angleDeg, 'deg', uncertaintyDeg, true)}, clockwise seen from its face positive; turned back, separations of ${after.join(' and ')} are expected`,
    },
  ];
}
