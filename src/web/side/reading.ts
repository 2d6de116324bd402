/** The reading of one side: from the file dropped to the document shown. One at a time; it can be stopped at any moment. */

import { batch, effect, signal, untracked } from '@preact/signals';
import { mainReason, type SideDocument } from '../../core/advise/document.ts';
import { isTurn } from '../../core/advise/turn.ts';
import { demoSheet } from '../../core/deck/demo.ts';
import { demoArm } from '../../core/job/demoParts.ts';
import type { Field } from '../../core/job/fields/field.ts';
import { typedValue } from '../../core/job/fields/quantity.ts';
import type { JsonObject } from '../../core/job/json.ts';
import { benchOf, limitsOf } from '../../core/job/shop.ts';
import type { StationName } from '../../core/job/station.ts';
import type { MatchTyped } from '../../core/job/stations/match.ts';
import { playedArm } from '../../core/job/stations/place/playedArm.ts';
import { responsesUsed } from '../../core/job/stations/run/responses.ts';
import type { Curve } from '../../core/measure/finding.ts';
import { recordKey } from '../../core/record/recordKey.ts';
import { parseSheet } from '../../core/record/sheet.ts';
import type { ExaminedSide } from '../../core/side/examineSide.ts';
import { say, statement, stopped } from '../../core/words/statement.ts';
import type { ReadReply, ReadRequest, ReadStage } from '../audio/sideMessages.ts';
import { lacksWorkers } from '../browserNeeds.ts';
import { keepCapture } from '../jobState.ts';
import { type KeptRecord, keepRecord, pickedRecord, pickRecord, whenPicked } from '../records/recordLibrary.ts';
import { jobAndShop } from '../shop.ts';
import { draftOf } from '../stationDraft.ts';
import { askLearned, learnedRecord, whenLearned } from './learned.ts';
import { shownSide, showSide } from './shownSide.ts';
import { toldOfPractice } from './toldOfPractice.ts';

export type Reading =
  | { readonly phase: 'idle' }
  | {
      readonly phase: 'reading';
      readonly file: string;
      readonly size: number;
      readonly stage: ReadStage | 'opening';
      readonly fraction: number;
    }
  | { readonly phase: 'stopped'; readonly file: string }
  | { readonly phase: 'failed'; readonly file: string; readonly sentence: string; readonly code: string };

export type SpeedChoice = 'sheet' | '33' | '45' | '78';
const RPM: Record<SpeedChoice, number | null> = { sheet: null, '33': 100 / 3, '45': 45, '78': 78 };

export const reading = signal<Reading>({ phase: 'idle' });
/** the file last picked; kept by reference, so that it can be read again with other settings */
export const pickedFile = signal<File | null>(null);
/** that file was played by the practice deck */
export const pickedPractice = signal(false);
export const speedChoice = signal<SpeedChoice>('sheet');
export const flatCapture = signal(false);
export const speedToneText = signal('');
/** what came of the last reading, for who cannot see it */
export const readOut = signal('');
let toldOf: SideDocument | null = null;
// what was said of a side that is no longer the one on the page may be of another cartridge
effect(() => {
  if (shownSide.value?.document !== toldOf) readOut.value = '';
});
/** a sentence about what was dropped, e.g. two recordings at once */
export const dropNote = signal<string | null>(null);
/** why a record sheet that was given is not used */
export const sheetFault = signal<string | null>(null);

export const SPEED_TONE: Field = {
  label: 'The speed tone is cut as',
  unit: 'Hz',
  min: 20,
  max: 20_000,
  help: 'Empty: a usual tone, or the record file’s',
};

effect(() => askLearned(pickedRecord.value?.sheet ?? null));

let worker: Worker | null = null;

const isSheet = (file: File): boolean => /\.json$/i.test(file.name);
const LARGEST_SHEET = 4_000_000;

export type RecordText =
  | { readonly name: string; readonly data: JsonObject }
  /** one sentence */
  | { readonly why: string };

/** A record file's own keys, those that its reader does not know among them. */
export async function readRecordText(file: File): Promise<RecordText> {
  if (file.size > LARGEST_SHEET) return { why: say(statement('record-file-too-large', { name: file.name })) };
  const text = await file.text();
  const parsed = parseSheet(text, file.name);
  if (!parsed.ok) return { why: stopped(say(parsed.why)) };
  const { name } = parsed.sheet;
  return { name, data: { ...JSON.parse(text.replace(/^\uFEFF/, '')), name } };
}

/** Into the library and to this job. One with a fault is not kept, so that it stands in the way of no recording. */
export async function addRecordFile(file: File): Promise<boolean> {
  const read = await readRecordText(file);
  sheetFault.value = 'why' in read ? read.why : null;
  if ('data' in read) pickRecord(keepRecord(read.data));
  return 'data' in read;
}

/** What is no side, and where it is read instead: after the file's name. */
const readElsewhere: readonly { readonly of: RegExp; readonly says: string }[] = [
  {
    of: /\.(csv|txt|tsv)$/i,
    says: 'is no recording. A table of a response is chosen at Run under “Measured responses”, one of parts in the parts library.',
  },
  { of: /\.zip$/i, says: 'is no recording. A bundle of a job is imported on the page of jobs.' },
  {
    of: /\.(jpe?g|png|webp|heic)$/i,
    says: 'is a picture, no recording. Add it under “Photographs” at Intake, Fit or Hand over.',
  },
];

const elsewhere = ({ name }: File): string | null => {
  const kind = readElsewhere.find(({ of }) => of.test(name));
  return kind === undefined ? null : `${name} ${kind.says}`;
};

/** Files dropped or picked: a recording, a record sheet, or both. */
export async function takeFiles(given: readonly File[], jobId: string, station: StationName): Promise<void> {
  const files = given.filter((file) => elsewhere(file) === null);
  const sheets = files.filter(isSheet);
  const sides = files.filter((file) => !isSheet(file));
  dropNote.value = given.flatMap((file) => elsewhere(file) ?? []).join(' ') || null;
  sheetFault.value = null;
  let kept = false;
  if (sides.length > 1) dropNote.value = say(statement('one-side-others-not', { file: sides[0].name }));
  if (sheets.length > 0) {
    const [sheet] = sheets;
    if (await addRecordFile(sheet)) {
      kept = true;
      if (sides.length === 0 && pickedFile.value === null) {
        dropNote.value = say(statement('record-file-kept', { name: sheet.name }));
      }
    }
  }
  const file = sides[0] ?? (kept ? pickedFile.value : null);
  const practice = sides.length === 0 && pickedPractice.value;
  if (file !== null && file !== undefined) readFile(file, jobId, station, practice);
}

/** Level traces, so that a job opened again can draw its side without the file. */
function levelCurves(overview: {
  timesS: readonly number[];
  leftDb: readonly number[];
  rightDb: readonly number[];
}): Curve[] {
  const most = 1500;
  const step = Math.max(1, Math.ceil(overview.timesS.length / most));
  const thin = (values: readonly number[], loudest: boolean): number[] => {
    const out: number[] = [];
    for (let i = 0; i < values.length; i += step) {
      let value = values[i];
      if (loudest) for (let j = i; j < Math.min(i + step, values.length); j++) value = Math.max(value, values[j]);
      out.push(Math.round(value * 1000) / 1000);
    }
    return out;
  };
  const x = thin(overview.timesS, false);
  return [
    { quantity: 'level', channel: 'left', x, y: thin(overview.leftDb, true), xUnit: 's', yUnit: 'dB' },
    { quantity: 'level', channel: 'right', x, y: thin(overview.rightDb, true), xUnit: 's', yUnit: 'dB' },
  ];
}

const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;

function inWords({ capture, bands, findings, advice }: SideDocument): string {
  const tilt = advice.find((one) => isTurn(one) || one.action === 'leave-tilt');
  return `${capture.file} is read: ${count(bands.length, 'band')}, ${count(findings.length, 'figure')}. ${tilt === undefined ? '' : mainReason(tilt)}`.trim();
}

const sheetOf = (picked: KeptRecord | null) =>
  picked === null ? null : { name: picked.sheet.name, text: JSON.stringify(picked.data) };

/** What is known of record, chain and limits, for the worker that measures. */
export function toldOfSide(jobId: string): Omit<ReadRequest, 'file'> {
  const known = untracked(() => jobAndShop(jobId));
  const { deckClass, limits } = limitsOf(known);
  const picked = pickedRecord.peek();
  const match = draftOf(jobId, 'match').data.peek() as Partial<MatchTyped>;
  return {
    sheet: sheetOf(picked),
    rpm: RPM[speedChoice.value],
    nominalSpeedToneHz: typedValue(speedToneText.value, SPEED_TONE),
    flat: flatCapture.value,
    limits: { deckClass, limits },
    bench: benchOf(known),
    learned: known.shop.learnedOff === true ? null : (learnedRecord.peek()?.learned ?? null),
    ...responsesUsed(known.run.responses ?? {}, picked === null ? null : recordKey(picked.sheet), match),
    arm: playedArm({ match, place: draftOf(jobId, 'place').data.peek() }),
  };
}

/** A side that was measured, from a file or live: shown, and kept in the job. @param practice played by the practice deck */
export function keepSide(
  side: Pick<ExaminedSide, 'document' | 'overview'>,
  jobId: string,
  station: StationName,
  practice = false,
): void {
  const { document, overview } = side;
  const kept: SideDocument = { ...document, curves: [...document.curves, ...levelCurves(overview)] };
  batch(() => {
    showSide({ jobId, captureId: null, document: kept, practice });
    toldOf = kept;
    readOut.value = inWords(kept);
  });
  const draft = draftOf(jobId, station);
  if (draft.status.value === 'untouched') draft.change({}, 'now');
  keepCapture(jobId, { document: kept, station, heardAt: new Date().toISOString(), practice }, (captureId) => {
    showSide({ jobId, captureId, document: kept, practice }, kept);
  });
}

/** @param practice played by the practice deck */
export function readFile(file: File, jobId: string, station: StationName, practice = false): void {
  if (reading.value.phase === 'reading' && reading.value.file !== file.name) {
    dropNote.value = say(statement('one-side-stopped', { stopped: reading.value.file, file: file.name }));
  }
  worker?.terminate();
  readOut.value = '';
  pickedFile.value = file;
  pickedPractice.value = practice;
  const size = file.size;
  const lacking = lacksWorkers();
  if (lacking !== null) {
    reading.value = { phase: 'failed', file: file.name, sentence: say(lacking), code: 'other' };
    return;
  }
  reading.value = { phase: 'reading', file: file.name, size, stage: 'opening', fraction: 0 };
  const mine = new Worker(new URL('../audio/sideWorker.ts', import.meta.url), { type: 'module' });
  worker = mine;
  const end = (next: Reading): void => {
    mine.terminate();
    if (worker !== mine) return;
    worker = null;
    reading.value = next;
  };
  mine.onmessage = (event: MessageEvent<ReadReply>) => {
    if (worker !== mine) return;
    const said = event.data;
    if (said.kind === 'progress') {
      const { stage, fraction } = said;
      reading.value = { phase: 'reading', file: file.name, size, stage, fraction };
    } else if (said.kind === 'failed') {
      end({ phase: 'failed', file: file.name, sentence: said.sentence, code: said.code });
    } else {
      batch(() => {
        end({ phase: 'idle' });
        if (said.notes.length > 0) dropNote.value = said.notes.join(' ');
        keepSide(said.side, jobId, station, practice);
      });
    }
  };
  mine.onerror = (event) => {
    event.preventDefault();
    end({
      phase: 'failed',
      file: file.name,
      sentence: say(statement('reading-broke-off')),
      code: 'other',
    });
  };
  void whenPicked()
    .then(whenLearned)
    .then(() => {
      // stopped meanwhile, or another side was picked
      if (worker !== mine) return;
      const own = practice ? toldOfPractice(demoSheet, demoArm) : {};
      mine.postMessage({ file, ...toldOfSide(jobId), ...own } satisfies ReadRequest);
    });
}

/** Ends the reading at once; nothing of it is kept. */
export function stopReading(): void {
  if (reading.value.phase !== 'reading') return;
  worker?.terminate();
  worker = null;
  reading.value = { phase: 'stopped', file: reading.value.file };
}
