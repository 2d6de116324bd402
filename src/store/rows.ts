/** Rows to the shapes of the API, and back. */
import type { Advice, SideDocument } from '../core/advise/document.ts';
import type {
  AdviceEntry,
  CaptureEntry,
  Deck,
  PartRecord,
  PredictionCheck,
  SetAside,
  StationState,
} from '../core/job/api.ts';
import { bandMark } from '../core/job/beforeAfter.ts';
import type { FittedKind, Fitting } from '../core/job/epochs.ts';
import { type RecordingFacts, type RecordingKind, unfitOf } from '../core/job/recordings.ts';
import { keptReasons, toldReasons } from '../core/job/staleReasons.ts';
import type { StationName } from '../core/job/station.ts';
import { checkStation, readableOf } from '../core/job/stations/index.ts';
import type {
  AdviceCheckRow,
  AdviceRow,
  CaptureRow,
  DeckRow,
  FindingRow,
  FittingRow,
  JobRow,
  PartRow,
  StationRow,
} from './tables.ts';

export type SaidOfRecording = Pick<RecordingFacts, 'practice' | 'saidKind' | 'saidEpoch' | 'setAside'>;

/** A side document without its curves, as the column `document_json` holds it. */
export type DocumentHead = Omit<SideDocument, 'curves'>;

export const deckOf = ({ id, name, description }: DeckRow): Deck => ({ id, name, description });

function reasonsJson(station: StationName, state: StationState): string | null {
  const kept = keptReasons(station, state);
  return kept.length === 0 ? null : JSON.stringify(kept);
}

/** As its model reads it: what an earlier version wrote is read too. */
export function stationState(row: StationRow): StationState {
  const name = row.station as StationName;
  const data: unknown = JSON.parse(row.data_json);
  const checked = checkStation(name, data);
  return {
    status: row.status as StationState['status'],
    ...toldReasons(name, JSON.parse(row.stale_because_json ?? '[]')),
    data: checked.found ? checked.data : readableOf(name, data),
    revision: row.revision,
    updatedAt: row.updated_at,
  };
}

export const stationRow = (job: string, station: StationName, state: StationState): StationRow => ({
  job_id: job,
  station,
  status: state.status,
  stale_because_json: reasonsJson(station, state),
  data_json: JSON.stringify(state.data),
  revision: state.revision,
  updated_at: state.updatedAt,
});

export function captureEntry(row: Omit<CaptureRow, 'curves_json'>, head: DocumentHead): CaptureEntry {
  return {
    id: row.id,
    heardAt: row.heard_at,
    storedAt: row.stored_at,
    station: row.station as StationName,
    file: head.capture.file,
    sampleRateHz: head.capture.sampleRateHz,
    bitDepth: head.capture.bitDepth,
    durationS: head.capture.durationS,
    sha256: row.sha256,
    method: head.method ?? '1',
    findings: [...head.findings],
    bandMarks: head.bands.map(bandMark),
    ...(head.record === undefined ? {} : { record: head.record }),
    ...saidOf(row),
    unfit: unfitOf(head),
  };
}

/** What is kept of a recording beside its document. */
export const saidOf = (row: Omit<CaptureRow, 'curves_json' | 'document_json'>): SaidOfRecording => ({
  practice: row.practice === 1,
  saidKind: row.said_kind as RecordingKind | null,
  saidEpoch: row.said_epoch,
  setAside: row.set_aside_at === null ? null : { at: row.set_aside_at, why: row.set_aside_why ?? '' },
});

export const asideOf = (row: Pick<JobRow, 'set_aside_at' | 'set_aside_why'>): SetAside =>
  row.set_aside_at === null ? null : { at: row.set_aside_at, why: row.set_aside_why ?? '' };

export const fittingOf = ({ job_id: _, ...row }: FittingRow): Fitting => ({
  ...row,
  station: row.station as StationName,
  kind: row.kind as FittedKind,
});

export const documentOf = (row: Pick<CaptureRow, 'document_json' | 'curves_json'>): SideDocument => ({
  ...(JSON.parse(row.document_json) as DocumentHead),
  curves: JSON.parse(row.curves_json),
});

export const findingRows = (capture: string, document: SideDocument): FindingRow[] =>
  document.findings.map((finding, place) => ({
    capture_id: capture,
    place,
    quantity: finding.quantity,
    channel: finding.channel ?? null,
    value_number: typeof finding.value === 'number' ? finding.value : null,
    value_text: typeof finding.value === 'string' ? finding.value : null,
    unit: finding.unit,
    uncertainty: finding.uncertainty,
    verdict: finding.verdict,
  }));

const checkOf = (row: AdviceCheckRow): PredictionCheck => ({
  quantity: row.quantity,
  unit: row.unit,
  before: row.before_value,
  predicted: row.predicted,
  measured: row.measured,
  uncertainty: row.uncertainty,
  came: row.came as PredictionCheck['came'],
  why: row.why,
});

export const checkRows = (advice: string, checks: readonly PredictionCheck[]): AdviceCheckRow[] =>
  checks.map(({ before, ...check }, place) => ({ advice_id: advice, place, before_value: before, ...check }));

export function adviceEntry(row: AdviceRow, checks: readonly AdviceCheckRow[]): AdviceEntry {
  return {
    id: row.id,
    captureId: row.capture_id,
    givenAt: row.given_at,
    advice: JSON.parse(row.advice_json) as Advice,
    outcome: { did: row.did as AdviceEntry['outcome']['did'], note: row.outcome_note, at: row.outcome_at },
    checkedBy: row.checked_by,
    checks: checks.map(checkOf),
  };
}

export const adviceRow = (job: string, place: number, entry: AdviceEntry): AdviceRow => ({
  id: entry.id,
  job_id: job,
  capture_id: entry.captureId,
  place,
  given_at: entry.givenAt,
  action: entry.advice.action,
  amount: entry.advice.amount,
  unit: entry.advice.unit,
  direction: entry.advice.direction,
  advice_json: JSON.stringify(entry.advice),
  did: entry.outcome.did,
  outcome_note: entry.outcome.note,
  outcome_at: entry.outcome.at,
  checked_by: entry.checkedBy,
});

export const partOf = (row: PartRow): PartRecord => ({
  kind: row.kind,
  id: row.id,
  data: JSON.parse(row.data_json),
  revision: row.revision,
  updatedAt: row.updated_at,
});
