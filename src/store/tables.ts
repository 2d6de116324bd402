/** The tables as queries see them. Times are ISO 8601 text in UTC; columns that end in `_json` hold JSON text. */

export interface Tables {
  layout_steps: LayoutStepRow;
  settings: SettingRow;
  decks: DeckRow;
  jobs: JobRow;
  stations: StationRow;
  captures: CaptureRow;
  findings: FindingRow;
  advice: AdviceRow;
  advice_checks: AdviceCheckRow;
  parts: PartRow;
  fittings: FittingRow;
  next_checks: NextCheckRow;
  words: WordRow;
  photographs: PhotographRow;
  batch_records: BatchRecordRow;
  batch_files: BatchFileRow;
  batch_sides: BatchSideRow;
  batch_results: BatchResultRow;
  batch_figures: BatchFigureRow;
  chains: ChainRow;
  chain_states: ChainStateRow;
  chain_jobs: ChainJobRow;
  reference_recordings: ReferenceRow;
}

/** Which steps of `migrations.ts` this store has been through. */
export interface LayoutStepRow {
  number: number;
  name: string;
  applied_at: string;
}

export interface SettingRow {
  name: string;
  value: string;
}

export interface DeckRow {
  id: string;
  name: string;
  /** the name as it is compared: without blanks around it, in small letters */
  plain: string;
  description: string;
  created_at: string;
}

export interface JobRow {
  id: string;
  number: number;
  title: string;
  deck_id: string;
  customer: string;
  notes: string;
  created_at: string;
  updated_at: string;
  revision: number;
  /** 1: everything in it is invented, and practice sides count */
  practice: number;
  /** id of the record file in the library; '' none */
  record_file: string;
  /** set aside: its figures stand in no list over many jobs */
  set_aside_at: string | null;
  set_aside_why: string | null;
}

/** A picture taken at a station: small, upright, without anything beside its pixels. */
export interface PhotographRow {
  id: string;
  job_id: string;
  station: string;
  at: string;
  note: string;
  /** px */
  width: number;
  height: number;
  jpeg: Uint8Array;
}

/** What was exchanged on the deck, and when. */
export interface FittingRow {
  id: string;
  job_id: string;
  at: string;
  station: string;
  kind: string;
  name: string;
  was: string;
  hours: number | null;
}

/** The next check of a deck whose newest job sets one; worked out anew whenever what it rests on is changed. */
export interface NextCheckRow {
  deck_id: string;
  /** the newest job of the deck, and its number */
  job_id: string;
  number: number;
  /** 2027-03-01; null none */
  due_date: string | null;
  due_hours: number | null;
  /** last noted of the stylus on the deck */
  stylus_hours: number | null;
  /** the day on which it is wanted; '' where it is not known */
  expected: string;
}

/** Words by which a job or a deck is found; one of the two ids is set. */
export interface WordRow {
  word: string;
  job_id: string | null;
  deck_id: string | null;
}

export interface StationRow {
  job_id: string;
  station: string;
  status: string;
  /** array of sentences; null where not stale */
  stale_because_json: string | null;
  data_json: string;
  revision: number;
  updated_at: string;
}

export interface CaptureRow {
  id: string;
  job_id: string;
  station: string;
  heard_at: string;
  stored_at: string;
  /** fingerprint of the file; null for live input */
  sha256: string | null;
  file: string;
  duration_s: number;
  /** the side document, its curves left out */
  document_json: string;
  /** the curves, large and seldom wanted */
  curves_json: string;
  /** 1: played by the practice deck */
  practice: number;
  /** kind and epoch that a person said; null: by where and when */
  said_kind: string | null;
  said_epoch: string | null;
  set_aside_at: string | null;
  set_aside_why: string | null;
  /** as the document tells them; null: measured without a record file */
  method: string;
  record_key: string | null;
  record_name: string | null;
}

/** One figure, so that it can be asked for across jobs; the document stays the original. */
export interface FindingRow {
  capture_id: string;
  /** place in the document's list, from 0 */
  place: number;
  quantity: string;
  channel: string | null;
  /** null for a figure in words */
  value_number: number | null;
  value_text: string | null;
  unit: string;
  uncertainty: number | null;
  verdict: string;
}

export interface AdviceRow {
  id: string;
  job_id: string;
  capture_id: string;
  /** place in the job's history, from 0 */
  place: number;
  given_at: string;
  action: string;
  amount: number | null;
  unit: string;
  direction: string | null;
  advice_json: string;
  did: string;
  outcome_note: string;
  outcome_at: string | null;
  /** capture that shows what came of it */
  checked_by: string | null;
}

/** One prediction beside what was measured. */
export interface AdviceCheckRow {
  advice_id: string;
  place: number;
  quantity: string;
  unit: string;
  before_value: number | null;
  predicted: number;
  measured: number | null;
  uncertainty: number | null;
  came: string;
  why: string;
}

export interface PartRow {
  kind: string;
  id: string;
  name: string;
  data_json: string;
  revision: number;
  updated_at: string;
}

/** A record file as it was when recordings were added by it. */
export interface BatchRecordRow {
  /** fingerprint of its text */
  id: string;
  name: string;
  text: string;
  added_at: string;
}

/** Work that one worker at a time has, for as long as its lease runs. */
export interface ClaimedRow {
  id: string;
  state: 'open' | 'claimed' | 'done' | 'poisoned';
  /** how often it was claimed */
  tries: number;
  /** who has it now: another one for every claim */
  token: string | null;
  worker: string;
  /** ms since 1970 by the database's clock; null where nobody has it */
  lease_until: number | null;
  /** not to be tried again before, ms since 1970 */
  not_before: number;
  /** of the last try that failed */
  why: string;
  added_at: string;
}

/** A recording where it lies; the work on it is to take its fingerprint. */
export interface BatchFileRow extends ClaimedRow {
  root: string;
  /** below the root */
  path: string;
  record: string;
  /** what played it; '' where nobody said */
  chain: string;
  bytes: number;
  modified_ms: number;
  /** `modified_ms` as ISO time: when it was recorded, as far as its file tells */
  recorded_at: string;
  fingerprint: string | null;
}

/** Something to be measured once: one content, by one version of the methods, as one record file has it. */
export interface BatchSideRow extends ClaimedRow {
  fingerprint: string;
  method: string;
  record: string;
}

export interface BatchResultRow {
  side_id: string;
  measured_at: string;
  took_ms: number;
  /** the side document, its curves left out */
  document_json: string;
}

export interface BatchFigureRow {
  side_id: string;
  /** place in the document's list, from 0 */
  place: number;
  quantity: string;
  channel: string | null;
  /** null for a figure in words */
  value: number | null;
  words: string | null;
  uncertainty: number | null;
  unit: string;
  verdict: string;
}

/** What plays: deck, cartridge, preamp, converter and bench under one name. */
export interface ChainRow {
  id: string;
  /** as batches name it */
  name: string;
  made_at: string;
}

/** What a chain is made of since a time; each begins its charts anew. */
export interface ChainStateRow {
  id: string;
  chain_id: string;
  /** ISO time */
  since: string;
  parts_json: string;
  why: string;
}

/** The recordings of a job are readings of a chain. */
export interface ChainJobRow {
  job_id: string;
  chain_id: string;
}

/** A recording that is known by its fingerprint, with the record file that is its certificate. */
export interface ReferenceRow {
  fingerprint: string;
  name: string;
  record_key: string;
  record: string;
  /** number or words of the certificate; '' none */
  certificate: string;
  /** last day on which it holds, 2027-03-01 */
  expires: string;
  added_at: string;
}
