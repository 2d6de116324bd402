/** Jobs on disk: every question that the server and the commands ask, each in one transaction. */
import { randomUUID } from 'node:crypto';
import type {
  BatchStatus,
  CaptureAdded,
  CaptureChange,
  CaptureRecord,
  DeckList,
  DecksQuery,
  Fitted,
  HeadChange,
  Job,
  JobAside,
  JobDeleted,
  JobHead,
  JobList,
  JobsQuery,
  LastChange,
  Learned,
  Move,
  MoveMade,
  NewCapture,
  NewJob,
  OutcomeChange,
  OutcomeKept,
  PartChange,
  PartRecord,
  StationChange,
  StationState,
  Undo,
} from '../core/job/api.ts';
import type { DeckHistory } from '../core/job/deckHistory.ts';
import type { DueList, DueQuery } from '../core/job/dueList.ts';
import type { NewFitting } from '../core/job/epochs.ts';
import type { JobFile } from '../core/job/jobFile.ts';
import type { Letterhead } from '../core/job/letterhead.ts';
import type { Part } from '../core/job/parts.ts';
import type { NewPhotograph, PhotographChange, PhotographInFile, PhotographsKept } from '../core/job/photographs.ts';
import type { Shop } from '../core/job/shop.ts';
import type { StationName } from '../core/job/station.ts';
import type { StylusLedger } from '../core/job/stylusHours.ts';
import { type Change, found, type Held } from './answers.ts';
import { statusOf } from './batch/askBatch.ts';
import { type Added, addCapture, changeCapture, readCapture, readCaptures, setOutcome } from './captures.ts';
import { type Carried, type CarriedPage, type CarriedRow, carryIn, carryOut } from './carry.ts';
import { type ChainStore, chainStoreOver } from './chain/chainStore.ts';
import { changeJobHead, changeJobStation, createJob, makeMove, noJob, setJobAside, undoMove } from './changeJob.ts';
import { listDecks } from './deckList.ts';
import { addFitting, takeFittingBack } from './fittings.ts';
import { readDeckHistory } from './history.ts';
import { deleteJob, listJobs } from './jobList.ts';
import { readLearned } from './learned.ts';
import { emptyLogAtRest } from './logAtRest.ts';
import { readDueList } from './nextChecks.ts';
import { emptyLog, openDatabase, openDatabaseToRead } from './openDatabase.ts';
import { openPostgres, openPostgresToRead } from './openPostgres.ts';
import {
  changePart,
  deletePart,
  type LibraryKind,
  listParts,
  type PartTaken,
  partsStamp,
  readPart,
  takePart,
  writePart,
} from './parts.ts';
import {
  addPhotograph,
  changePhotograph,
  deletePhotograph,
  type PhotographAnswer,
  photographsInFile,
  readJpeg,
} from './photographs.ts';
import { isPostgresUrl } from './postgresPlace.ts';
import { jobRow, readJob } from './readJob.ts';
import {
  type LastPlace,
  readLast,
  readLetterhead,
  readSetting,
  readShop,
  writeLast,
  writeLetterhead,
  writeSetting,
  writeShop,
} from './settings.ts';
import { StoreError } from './storeError.ts';
import { type LedgerPage, stylusLedger } from './stylusLedger.ts';
import { type Db, type Origin, reading, writing } from './transaction.ts';
import { type AsKept, exportJob, type Imported, importJob } from './transfer.ts';
import { type Watch, watchStore } from './watch.ts';

export interface FirstContent {
  readonly job: JobFile;
  readonly parts: readonly Part[];
}

/** When a promise of a change resolves, the change is on the disk. */
export interface Store {
  readonly file: string;
  jobs(query?: JobsQuery): Promise<JobList>;
  deleteJob(id: string): Promise<Held<JobDeleted>>;
  /** @param why null: taken in again */
  setJobAside(id: string, why: string | null): Promise<Held<JobAside>>;
  job(id: string): Promise<Held<Job>>;
  /** id of the job that a person means by its id or its number */
  findJob(idOrNumber: string): Promise<Held<string>>;
  createJob(wanted: NewJob): Promise<Held<Job>>;
  changeJob(id: string, change: HeadChange): Promise<Change<JobHead, JobHead>>;
  changeStation(id: string, station: StationName, change: StationChange): Promise<Change<StationState, StationState>>;
  move(id: string, move: Move): Promise<Held<MoveMade>>;
  /** the moves of a step were not made */
  undoMove(id: string, undo: Undo): Promise<Held<MoveMade>>;
  addCapture(id: string, capture: NewCapture): Promise<Held<Added>>;
  capture(id: string, capture: string): Promise<Held<CaptureRecord>>;
  /** all of a job, with their curves, in the order heard */
  captures(id: string): Promise<CaptureRecord[]>;
  /** kind, epoch, set aside: what a person says of a recording */
  changeCapture(id: string, capture: string, change: CaptureChange): Promise<Held<CaptureAdded>>;
  /** begins an epoch */
  addFitting(id: string, wanted: NewFitting): Promise<Held<Fitted>>;
  takeFittingBack(id: string, fitting: string): Promise<Held<Fitted>>;
  setOutcome(id: string, advice: string, change: OutcomeChange): Promise<Held<OutcomeKept>>;
  /** by name, a page of them or all, each with its jobs, newest first */
  decks(query?: DecksQuery): Promise<DeckList>;
  /** a deck's figures over its jobs */
  deckHistory(deck: string): Promise<Held<DeckHistory>>;
  /** by pages of decks, those that were here last first; all of them where no page is asked for */
  stylusLedger(page?: LedgerPage): Promise<StylusLedger>;
  /** a page of next checks, due ones first. @param today in the bench's own zone, 2027-03-01 */
  dueList(today: string, query?: DueQuery): Promise<DueList>;
  /** what the shop has set for all its jobs */
  shop(): Promise<Shop>;
  setShop(shop: Shop): Promise<Shop>;
  /** what the jobs teach of the record of this key */
  learned(key: string): Promise<Learned>;
  parts(kind?: string): Promise<PartRecord[]>;
  part(kind: string, id: string): Promise<Held<PartRecord>>;
  /** a new part where there is none of that id */
  changePart(kind: LibraryKind, id: string, change: PartChange): Promise<Change<PartRecord, PartRecord | null>>;
  deletePart(kind: string, id: string): Promise<Held<null>>;
  last(): Promise<LastPlace | null>;
  setLast(last: LastChange): Promise<Held<null>>;
  /** whose name, address and logo the reports carry */
  letterhead(): Promise<Letterhead>;
  setLetterhead(letterhead: Letterhead): Promise<void>;
  addPhotograph(id: string, wanted: NewPhotograph): Promise<PhotographAnswer>;
  /** its pixels, a JPEG without anything beside them */
  jpeg(id: string, photograph: string): Promise<Held<Uint8Array<ArrayBuffer>>>;
  /** all of a job, with their pixels */
  photographs(id: string): Promise<PhotographInFile[]>;
  changePhotograph(id: string, photograph: string, change: PhotographChange): Promise<Held<PhotographsKept>>;
  deletePhotograph(id: string, photograph: string): Promise<Held<PhotographsKept>>;
  exportJob(id: string, madeBy: string, how?: AsKept): Promise<Held<JobFile>>;
  /** @param how `asNew`: as a job of its own, with new ids, whatever is here */
  importJob(file: JobFile, how?: { readonly asNew?: boolean } & AsKept): Promise<Imported>;
  /** a part as another store has it; one that is here is not overwritten */
  takePart(part: PartRecord): Promise<PartTaken>;
  /** a page of what goes along with the jobs when a store is copied. @param after as `next` of the page before told it */
  carryOut(table: Carried, after: string | null): Promise<CarriedPage>;
  /** @returns how many of them there were none of yet */
  carryIn(table: Carried, rows: readonly CarriedRow[]): Promise<number>;
  readonly chains: ChainStore;
  /** how far the batches are. @param method version of the methods */
  batches(method: string): Promise<BatchStatus>;
  /** when the job was last changed; null where there is none */
  jobStamp(id: string): Promise<string | null>;
  /** another text after every change of the parts and record files */
  partsStamp(): Promise<string>;
  /** @param told called after every change in the store, whoever made it, within a second */
  watch(told: () => void): Promise<Watch>;
  /** puts a first job and first parts into a store that never held a job; true when it did */
  beginWith(first: (at: string) => FirstContent): Promise<boolean>;
  close(): Promise<void>;
}

function unreadable(number: number, error: unknown): unknown {
  if (!(error instanceof SyntaxError)) return error;
  return new StoreError(`Job ${number} cannot be read: ${error.message}. The other jobs are not touched by it.`);
}

const fromClock: Origin = { now: () => new Date().toISOString(), newId: () => randomUUID() };

/**
 * Opens the store in `file`, making it where there is none.
 *
 * @param file a path, or `postgresql://…` without a password
 * @param origin where times and ids come from; the clock and chance unless a test gives its own
 * @param bench which of several benches on one store asks; each goes on where it was left
 * @throws StoreError with one sentence when the file cannot or must not be used; it is then as it was
 */
export async function openStore(file: string, origin: Origin = fromClock, bench = ''): Promise<Store> {
  const db = await (isPostgresUrl(file) ? openPostgres(file, origin.now) : openDatabase(file, origin.now));
  const store = storeOver(db, file, origin, bench);
  const endRest = emptyLogAtRest(db, file);
  return {
    ...store,
    close() {
      endRest();
      return store.close();
    },
  };
}

/** What can be asked of a store without writing to it. */
export type StoreToRead = Pick<
  Store,
  | 'file'
  | 'jobs'
  | 'job'
  | 'findJob'
  | 'captures'
  | 'photographs'
  | 'letterhead'
  | 'exportJob'
  | 'deckHistory'
  | 'stylusLedger'
  | 'dueList'
  | 'chains'
  | 'carryOut'
  | 'learned'
  | 'parts'
  | 'shop'
  | 'close'
>;

/**
 * Opens the store in `file` to read from; it may lie where nothing can be written, and nothing is left beside it.
 *
 * @throws StoreError with one sentence when the file cannot be read
 */
export async function openStoreToRead(file: string, origin: Origin = fromClock): Promise<StoreToRead> {
  const db = await (isPostgresUrl(file) ? openPostgresToRead(file) : openDatabaseToRead(file, origin.now));
  return storeOver(db, file, origin);
}

function storeOver(db: Db, file: string, origin: Origin, bench = ''): Store {
  return {
    file,
    jobs: (query) => reading(db, (tx) => listJobs(tx, query)),
    setJobAside: (id, why) => writing(db, (tx) => setJobAside(tx, id, why, origin)),
    deleteJob: async (id) => {
      const gone = await writing(db, (tx) => deleteJob(tx, id));
      await emptyLog(db);
      return gone;
    },
    job: (id) =>
      reading(db, async (tx) => {
        const row = await jobRow(tx, id);
        if (row === undefined) return noJob(id);
        return found(await readJob(tx, row).catch((error) => Promise.reject(unreadable(row.number, error))));
      }),
    findJob: (text) =>
      reading(db, async (tx) => {
        const byId = await jobRow(tx, text);
        if (byId !== undefined) return found(byId.id);
        const byNumber = /^[0-9]{1,9}$/.test(text)
          ? await tx.selectFrom('jobs').select('id').where('number', '=', Number(text)).executeTakeFirst()
          : undefined;
        return byNumber === undefined ? noJob(text) : found(byNumber.id);
      }),
    createJob: (wanted) => writing(db, (tx) => createJob(tx, wanted, origin)),
    changeJob: async (id, change) => {
      const kept = await writing(db, (tx) => changeJobHead(tx, id, change, origin));
      // an owner's name that was changed or taken out is gone from the file
      if (change.changes.some(({ path }) => path[0] === 'customer')) await emptyLog(db);
      return kept;
    },
    changeStation: (id, station, change) => writing(db, (tx) => changeJobStation(tx, id, station, change, origin)),
    move: (id, move) => writing(db, (tx) => makeMove(tx, id, move, origin)),
    undoMove: (id, undo) => writing(db, (tx) => undoMove(tx, id, undo, origin)),
    addCapture: (id, capture) => writing(db, (tx) => addCapture(tx, id, capture, origin)),
    capture: (id, capture) => reading(db, (tx) => readCapture(tx, id, capture)),
    captures: (id) => reading(db, (tx) => readCaptures(tx, id)),
    changeCapture: (id, capture, change) => writing(db, (tx) => changeCapture(tx, id, capture, change, origin)),
    addFitting: (id, wanted) => writing(db, (tx) => addFitting(tx, id, wanted, origin)),
    takeFittingBack: (id, fitting) => writing(db, (tx) => takeFittingBack(tx, id, fitting, origin)),
    setOutcome: (id, advice, change) => writing(db, (tx) => setOutcome(tx, id, advice, change, origin)),
    decks: (query) => reading(db, (tx) => listDecks(tx, query)),
    deckHistory: (deck) => reading(db, (tx) => readDeckHistory(tx, deck)),
    stylusLedger: (page) => stylusLedger(db, page),
    dueList: (today, query) => reading(db, (tx) => readDueList(tx, today, query)),
    shop: () => reading(db, readShop),
    setShop: (shop) => writing(db, (tx) => writeShop(tx, shop).then(() => shop)),
    learned: (key) => reading(db, (tx) => readLearned(tx, key)),
    parts: (kind) => reading(db, (tx) => listParts(tx, kind)),
    part: (kind, id) => reading(db, (tx) => readPart(tx, kind, id)),
    changePart: (kind, id, change) => writing(db, (tx) => changePart(tx, kind, id, change, origin)),
    deletePart: (kind, id) => writing(db, (tx) => deletePart(tx, kind, id)),
    last: () => reading(db, (tx) => readLast(tx, bench)),
    setLast: (last) =>
      writing(db, async (tx) => {
        if ((await jobRow(tx, last.jobId)) === undefined) return noJob(last.jobId);
        await writeLast(tx, bench, last);
        return found(null);
      }),
    letterhead: () => reading(db, readLetterhead),
    setLetterhead: (letterhead) => writing(db, (tx) => writeLetterhead(tx, letterhead)),
    addPhotograph: (id, wanted) => writing(db, (tx) => addPhotograph(tx, id, wanted, origin)),
    jpeg: (id, photograph) => reading(db, (tx) => readJpeg(tx, id, photograph)),
    photographs: (id) => reading(db, (tx) => photographsInFile(tx, id)),
    changePhotograph: (id, photograph, change) =>
      writing(db, (tx) => changePhotograph(tx, id, photograph, change, origin)),
    deletePhotograph: async (id, photograph) => {
      const kept = await writing(db, (tx) => deletePhotograph(tx, id, photograph, origin));
      await emptyLog(db);
      return kept;
    },
    exportJob: (id, madeBy, how) => reading(db, (tx) => exportJob(tx, id, { madeBy, ...how }, origin)),
    takePart: (part) => writing(db, (tx) => takePart(tx, part)),
    importJob: (jobFile, how = {}) => writing(db, (tx) => importJob(tx, jobFile, how, origin)),
    carryOut: (table, after) => reading(db, (tx) => carryOut(tx, table, after)),
    carryIn: (table, rows) => writing(db, (tx) => carryIn(tx, table, rows, origin)),
    chains: chainStoreOver(db, origin),
    batches: (method) => reading(db, (tx) => statusOf(tx, method, origin.now())),
    jobStamp: (id) => reading(db, async (tx) => (await jobRow(tx, id))?.updated_at ?? null),
    partsStamp: () => reading(db, partsStamp),
    watch: (told) => watchStore(file, told),
    beginWith: (first) =>
      writing(db, async (tx) => {
        const begun = await readSetting(tx, 'begun');
        const any = await tx.selectFrom('jobs').select('id').limit(1).executeTakeFirst();
        if (begun !== undefined || any !== undefined) return false;
        const at = origin.now();
        const { job, parts } = first(at);
        const { id } = await importJob(tx, job, { asNew: true }, origin);
        for (const part of parts) {
          await writePart(tx, { kind: part.kind, id: origin.newId(), data: part, revision: 1, updatedAt: at });
        }
        await writeSetting(tx, 'begun', origin.now());
        await writeLast(tx, bench, { jobId: id, station: 'tilt' });
        return true;
      }),
    close: () => db.destroy(),
  };
}
