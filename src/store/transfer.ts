/** A job out of the store as one file's content, and back in. */
import type { StationData } from '../core/job/api.ts';
import { sameJob } from '../core/job/jobContent.ts';
import { JOB_FILE_SCHEMA, type JobFile } from '../core/job/jobFile.ts';
import { MOST_IMPORTED_NUMBER, renumbered } from '../core/job/jobName.ts';
import { plainName } from '../core/job/searchWords.ts';
import { withShop } from '../core/job/shop.ts';
import { readableOf } from '../core/job/stations/index.ts';
import { found, type Held } from './answers.ts';
import { insertAdvice, insertCapture, readCaptures } from './captures.ts';
import { insertJob, nextNumber, noJob } from './changeJob.ts';
import { keepNextCheck } from './nextChecks.ts';
import { insertPhotograph, photographsInFile } from './photographs.ts';
import { jobRow, readAdvice, readDeck, readFittings, readStations } from './readJob.ts';
import { asideOf } from './rows.ts';
import { readShop } from './settings.ts';
import type { Origin, Tx } from './transaction.ts';
import { findDeckBy } from './words.ts';

/** Without the shop's limits written into the job: for a copy that brings the shop along. */
export interface AsKept {
  readonly asKept?: boolean;
}

export async function exportJob(
  tx: Tx,
  id: string,
  { madeBy, asKept = false }: { readonly madeBy: string } & AsKept,
  origin: Origin,
): Promise<Held<JobFile>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const stations = await readStations(tx, row.id);
  // another shop has other limits: the file carries those that this one judged by
  const own = readableOf('run', stations.run.data);
  const run = asKept ? own : withShop(own, await readShop(tx));
  return found({
    schema: JOB_FILE_SCHEMA,
    kind: 'platterside-job',
    madeBy,
    exportedAt: origin.now(),
    job: {
      id: row.id,
      number: row.number,
      title: row.title,
      deck: await readDeck(tx, row.deck_id),
      customer: row.customer,
      notes: row.notes,
      createdAt: row.created_at,
      updatedAt: row.updated_at,
      revision: row.revision,
      practice: row.practice === 1,
      setAside: asideOf(row),
      recordFile: row.record_file,
      fittings: await readFittings(tx, row.id),
      stations: { ...stations, run: { ...stations.run, data: run as StationData } },
    },
    captures: (await readCaptures(tx, row.id)).map(({ sha256: _, ...capture }) => capture),
    advice: await readAdvice(tx, row.id),
    photographs: await photographsInFile(tx, row.id),
  });
}

export interface Imported {
  /** `here-already`: it was here with the same content · `here-otherwise`: it is here and was changed since; nothing was taken */
  readonly outcome: 'imported' | 'here-already' | 'here-otherwise';
  readonly id: string;
  readonly number: number;
}

const mayBeId = /^[A-Za-z0-9_-]{1,64}$/;
/** a statement may bind a few thousand values */
const IDS_AT_ONCE = 500;

/** The deck of the file: the same one when it is here unchanged, otherwise a new one beside it. */
async function deckFor(tx: Tx, { deck, createdAt }: JobFile['job'], origin: Origin): Promise<string> {
  const here = await tx.selectFrom('decks').selectAll().where('id', '=', deck.id).executeTakeFirst();
  if (here !== undefined && here.name === deck.name && here.description === deck.description) return here.id;
  const id = here === undefined ? deck.id : origin.newId();
  await tx
    .insertInto('decks')
    .values({ id, name: deck.name, plain: plainName(deck.name), description: deck.description, created_at: createdAt })
    .execute();
  await findDeckBy(tx, { id, name: deck.name, description: deck.description });
  return id;
}

/** Ids of the file that are free here and may be ids; the others get new ones. */
async function idsFor(
  tx: Tx,
  table: 'jobs' | 'captures' | 'advice' | 'fittings' | 'photographs',
  ids: readonly string[],
  { asNew, origin }: { readonly asNew: boolean; readonly origin: Origin },
): Promise<ReadonlyMap<string, string>> {
  const taken = new Set<string>();
  for (let from = 0; from < ids.length && !asNew; from += IDS_AT_ONCE) {
    const some = ids.slice(from, from + IDS_AT_ONCE);
    for (const { id } of await tx.selectFrom(table).select('id').where('id', 'in', some).execute()) taken.add(id);
  }
  const keeps = (id: string): boolean => !asNew && mayBeId.test(id) && !taken.has(id);
  return new Map(ids.map((id) => [id, keeps(id) ? id : origin.newId()]));
}

/** A job here that tells the same: the one of its id, or one that was begun at the same time. */
async function alike(tx: Tx, file: JobFile, how: AsKept, origin: Origin): Promise<Imported | null> {
  const rows = await tx
    .selectFrom('jobs')
    .select(['id', 'number'])
    .where((row) => row.or([row('id', '=', file.job.id), row('created_at', '=', file.job.createdAt)]))
    .orderBy('number')
    .execute();
  let there: Imported | null = null;
  for (const { id, number } of rows) {
    const here = await exportJob(tx, id, { madeBy: file.madeBy, ...how }, origin);
    if (here.outcome === 'found' && sameJob(here.value, file)) return { outcome: 'here-already', id, number };
    if (id === file.job.id) there = { outcome: 'here-otherwise', id, number };
  }
  return there;
}

/**
 * Nothing that is here is overwritten. A job that is here already is told, not doubled; one that is here and tells
 * something else is taken only `asNew`. Ids stay where they are free; the number too, unless it is larger than jobs are
 * ever numbered.
 */
export async function importJob(
  tx: Tx,
  file: JobFile,
  { asNew = false, asKept = false }: { readonly asNew?: boolean } & AsKept,
  origin: Origin,
): Promise<Imported> {
  const { job, captures, advice, photographs } = file;
  const there = asNew ? null : await alike(tx, file, { asKept }, origin);
  if (there !== null) return there;
  const how = { asNew, origin };
  const id = (await idsFor(tx, 'jobs', [job.id], how)).get(job.id) as string;
  // a number beyond what a column holds is not even asked for
  const mayKeep = job.number <= MOST_IMPORTED_NUMBER;
  const taken = tx.selectFrom('jobs').select('id').where('number', '=', job.number);
  const keeps = mayKeep && (await taken.executeTakeFirst()) === undefined;
  const number = keeps ? job.number : await nextNumber(tx);
  const row = {
    id,
    number,
    title: renumbered(job.title, job.number, number),
    deck_id: await deckFor(tx, job, origin),
    customer: job.customer,
    notes: job.notes,
    created_at: job.createdAt,
    updated_at: job.updatedAt,
    revision: job.revision,
    practice: job.practice ? 1 : 0,
    set_aside_at: job.setAside?.at ?? null,
    set_aside_why: job.setAside?.why ?? null,
    record_file: job.recordFile,
  };
  await insertJob(tx, row, job.stations);
  const ofFittings = await idsFor(
    tx,
    'fittings',
    job.fittings.map((one) => one.id),
    how,
  );
  for (const fitting of job.fittings) {
    const row = { ...fitting, id: ofFittings.get(fitting.id) as string, job_id: id };
    await tx.insertInto('fittings').values(row).execute();
  }
  await keepNextCheck(tx, row.deck_id);
  const ofCaptures = await idsFor(
    tx,
    'captures',
    captures.map((one) => one.id),
    how,
  );
  const newIdOf = (old: string): string => ofCaptures.get(old) as string;
  for (const capture of captures) {
    const { practice, saidKind, saidEpoch, setAside } = capture;
    const epoch = saidEpoch === null ? null : (ofFittings.get(saidEpoch) ?? saidEpoch);
    const said = { practice, saidKind, saidEpoch: epoch, setAside };
    await insertCapture(tx, { ...capture, id: newIdOf(capture.id), job: id, said });
  }
  const ofAdvice = await idsFor(
    tx,
    'advice',
    advice.map((one) => one.id),
    how,
  );
  for (const [place, entry] of advice.entries()) {
    await insertAdvice(tx, id, place, {
      ...entry,
      id: ofAdvice.get(entry.id) as string,
      captureId: newIdOf(entry.captureId),
      checkedBy: entry.checkedBy === null ? null : newIdOf(entry.checkedBy),
    });
  }
  const ofPhotographs = await idsFor(
    tx,
    'photographs',
    photographs.map((one) => one.id),
    how,
  );
  for (const photograph of photographs)
    await insertPhotograph(tx, id, { ...photograph, id: ofPhotographs.get(photograph.id) as string });
  return { outcome: 'imported', id, number };
}
