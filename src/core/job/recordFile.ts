/**
 * A record file as the library keeps it and as it is typed: one text for each figure, the reader's own bounds behind them.
 * Keys that the reader does not know stay where they are.
 */

import {
  MOST_BANDS,
  parseSheet,
  type RecordSheet,
  recordBounds,
  recordMotions,
  sweepCuts,
  sweepLaws,
  verticalAngleKinds,
} from '../record/sheet.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { Field } from './fields/field.ts';
import { readQuantity } from './fields/quantity.ts';
import { isObject, type Json, type JsonObject } from './json.ts';

/** What a record file is called among the parts of the library. */
export const RECORD_KIND = 'record';

const field = (label: string, name: keyof typeof recordBounds, help?: string): Field => ({
  label,
  ...recordBounds[name],
  ...(help === undefined ? {} : { help }),
});

export const recordFields = {
  rpm: field('Speed', 'rpm', '33⅓, 45, 78.26'),
  referenceVelocityCmS: field('Reference velocity', 'referenceVelocityCmS', 'Peak; what 0 dB means on this record'),
} as const satisfies Readonly<Record<string, Field>>;

/** The record's own certificate: what is cut, against what is stated. */
export const certificateFields = {
  verticalAngleDeg: field('Vertical cutting angle', 'verticalAngleDeg'),
  tiltDeg: field('Tilt of the cut', 'tiltDeg', 'Clockwise from the front: plus'),
  tiltUncertaintyDeg: field('± of the tilt', 'tiltUncertaintyDeg'),
  separationDb: field('Separation of the cut', 'separationDb'),
  leakDb: field('Leak of the cut', 'leakDb', 'Each way, tilt included: −40'),
  speedUncertaintyPercent: field('± of the tones’ frequency', 'speedUncertaintyPercent'),
  zenithDeg: field('Twist of the cut', 'zenithDeg', 'Clockwise from above: plus'),
  zenithUncertaintyDeg: field('± of the twist', 'zenithUncertaintyDeg'),
  levelUncertaintyDb: field('± of the levels', 'levelUncertaintyDb'),
  radiusUncertaintyMm: field('± of the radii', 'radiusUncertaintyMm'),
  warpMm: field('Flat to', 'warpMm', 'Rise and fall in a turn, half of top to bottom'),
} as const satisfies Readonly<Record<string, Field>>;

export const bandSignals = ['tone', 'two-tone', 'sweep', 'noise', 'silent-groove'] as const;
export type BandSignalTyped = (typeof bandSignals)[number];

const tone = field('Frequency', 'frequencyHz');
/** Figures of a band; the two of a two-tone band are kept as one list. */
export const bandFields = {
  frequencyHz: tone,
  lowerHz: { ...tone, label: 'Lower tone' },
  upperHz: { ...tone, label: 'Upper tone' },
  ratio: field('Lower over upper', 'ratio', 'Amplitudes: 4 for 4:1'),
  fromHz: { ...tone, label: 'From' },
  toHz: { ...tone, label: 'To' },
  peakVelocityCmS: field('Velocity', 'peakVelocityCmS', 'Peak, along the motion'),
  radiusMm: field('Radius', 'radiusMm', 'In the middle of the band'),
  durationS: field('Length', 'durationS'),
  levelCorrectionDb: field('Level correction', 'levelCorrectionDb', 'Cut minus stated'),
} as const satisfies Readonly<Record<string, Field>>;
export type BandFieldName = keyof typeof bandFields;

const ofEveryBand = ['peakVelocityCmS', 'radiusMm', 'durationS', 'levelCorrectionDb'] as const;
const ofSignal: Readonly<Record<BandSignalTyped, readonly BandFieldName[]>> = {
  tone: ['frequencyHz'],
  'two-tone': ['lowerHz', 'upperHz', 'ratio'],
  sweep: ['fromHz', 'toHz'],
  noise: [],
  'silent-groove': [],
};
/** The figures that a band of this signal has, in the order asked. */
export const fieldsOfSignal = (signal: BandSignalTyped): readonly BandFieldName[] => [
  ...ofSignal[signal],
  ...(signal === 'silent-groove' ? (['radiusMm', 'durationS'] as const) : ofEveryBand),
];

/** Choices of a band; `''` is not said. */
export const bandChoices = { motion: recordMotions, law: sweepLaws, cut: sweepCuts } as const;
export const certificateChoices = { verticalAngleKind: verticalAngleKinds } as const;

/** A file as texts: `{name, rpm, referenceVelocityCmS, cut: {…}, bands: [{signal, motion, …}]}`. */
export type RecordTyped = JsonObject;

const SPEEDS: readonly (readonly [number, string])[] = [
  [100 / 3, '33⅓'],
  [50 / 3, '16⅔'],
];

const numberText = (value: Json | undefined): Json | undefined => (typeof value === 'number' ? String(value) : value);
const speedText = (value: Json | undefined): Json | undefined =>
  SPEEDS.find(([rpm]) => typeof value === 'number' && Math.abs(value - rpm) < 1e-6)?.[1] ?? numberText(value);

const withTexts = (value: JsonObject, names: readonly string[]): JsonObject =>
  Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [key, names.includes(key) ? (numberText(inner) ?? '') : inner]),
  );

/** A file that the library keeps, as the form shows it. */
export function recordTyped(data: JsonObject): RecordTyped {
  const { schema: _, bands = [], cut, ...rest } = data;
  const head = withTexts({ ...rest, rpm: speedText(rest.rpm) ?? '' }, Object.keys(recordFields));
  return {
    ...head,
    ...(isObject(cut) ? { cut: withTexts(cut, Object.keys(certificateFields)) } : {}),
    bands: (Array.isArray(bands) ? bands : []).filter(isObject).map(({ frequenciesHz, ...band }) => ({
      ...withTexts(band, Object.keys(bandFields)),
      ...(Array.isArray(frequenciesHz)
        ? { lowerHz: numberText(frequenciesHz[0]) ?? '', upperHz: numberText(frequenciesHz[1]) ?? '' }
        : {}),
    })),
  };
}

export interface RecordFault {
  /** "Band 3, From" */
  readonly where: string;
  readonly why: Statement;
}

export type RecordRead =
  | { readonly data: JsonObject; readonly sheet: RecordSheet }
  | { readonly faults: readonly RecordFault[] };

/** The file that is typed, or everything that stands against it. */
export function recordFrom(typed: RecordTyped): RecordRead {
  const faults: RecordFault[] = [];
  const numbers = (
    value: JsonObject,
    fields: Readonly<Record<string, Field>>,
    needed: readonly string[],
    at: string,
  ): JsonObject => {
    const kept: JsonObject = Object.fromEntries(
      Object.entries(value).filter(([key, inner]) => !(key in fields) && inner !== ''),
    );
    for (const [name, about] of Object.entries(fields)) {
      const text = String(value[name] ?? '');
      const speed = name === 'rpm' ? SPEEDS.find(([rpm, sign]) => text.trim() === sign || near(text, rpm)) : undefined;
      const read = speed === undefined ? readQuantity(text, about) : { value: speed[0] };
      if ('value' in read) kept[name] = read.value;
      else if ('wrong' in read) faults.push({ where: `${at}${about.label}`, why: read.wrong });
      else if (needed.includes(name)) faults.push({ where: `${at}${about.label}`, why: statement('not-filled-in') });
    }
    return kept;
  };
  const { cut, bands = [], ...rest } = typed;
  const head = numbers(rest, recordFields, ['rpm'], '');
  const name = String(typed.name ?? '').trim();
  if (name === '') faults.push({ where: 'Name', why: statement('record-needs-name') });
  const certificate = isObject(cut) ? numbers(cut, certificateFields, [], 'Certificate, ') : {};
  const rows = (Array.isArray(bands) ? bands : []).filter(isObject);
  if (rows.length === 0) faults.push({ where: 'Bands', why: statement('record-needs-band') });
  if (rows.length > MOST_BANDS)
    faults.push({ where: 'Bands', why: statement('record-most-bands', { most: MOST_BANDS }) });
  const read = rows.map((row, i) => bandFrom(row, i, numbers));
  if (faults.length > 0) return { faults };
  const data: JsonObject = {
    schema: 1,
    ...head,
    name,
    ...(Object.keys(certificate).length === 0 ? {} : { cut: certificate }),
    bands: read,
  };
  return checkRecord(data);
}

const near = (text: string, rpm: number): boolean => {
  const read = readQuantity(text, recordFields.rpm);
  return 'value' in read && Math.abs(read.value - rpm) < 0.05;
};

function bandFrom(
  row: JsonObject,
  place: number,
  numbers: (
    value: JsonObject,
    fields: Readonly<Record<string, Field>>,
    needed: readonly string[],
    at: string,
  ) => JsonObject,
): JsonObject {
  const signal = bandSignals.find((one) => one === row.signal) ?? 'tone';
  const names = fieldsOfSignal(signal);
  // what another signal would have is left out
  const { law, cut, motion, ...rest } = row;
  const own = Object.fromEntries(
    Object.entries(rest).filter(([key]) => !(key in bandFields) || names.includes(key as BandFieldName)),
  );
  const fields = Object.fromEntries(names.map((name) => [name, bandFields[name]]));
  const needed = ofSignal[signal].filter((name) => name !== 'ratio');
  const { lowerHz, upperHz, ...band } = numbers(own, fields, needed, `Band ${place + 1}, `);
  return {
    ...band,
    ...(signal === 'silent-groove' || motion === '' || motion === undefined ? {} : { motion }),
    ...(signal === 'two-tone' ? { frequenciesHz: [lowerHz ?? 0, upperHz ?? 0] } : {}),
    ...(signal === 'sweep' && law !== '' && law !== undefined ? { law } : {}),
    ...(signal === 'sweep' && cut !== '' && cut !== undefined ? { cut } : {}),
    signal,
  };
}

/** Whether this is a record file, by the one reader of record files. */
export function checkRecord(data: unknown): RecordRead {
  const name = isObject(data) && typeof data.name === 'string' ? data.name : 'The record file';
  const parsed = parseSheet(JSON.stringify(data) ?? 'null', name);
  return parsed.ok
    ? { data: data as JsonObject, sheet: parsed.sheet }
    : { faults: [{ where: '', why: statement('refused', { what: parsed.why }) }] };
}

/** "4 bands, 33⅓ rpm" */
export function recordLine({ rpm, bands, cut }: RecordSheet): string {
  const count = bands.length === 1 ? 'one band' : `${bands.length} bands`;
  return `${count}, ${String(speedText(rpm))} rpm${cut === undefined ? '' : ', with certificate'}`;
}
