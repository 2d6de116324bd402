/** A job out of the store as one file's content, and back in as a new job. */
import type { StationData } from '../core/job/api.ts';
import { JOB_FILE_SCHEMA, type JobFile } from '../core/job/jobFile.ts';
import { MOST_IMPORTED_NUMBER, renumbered } from '../core/job/jobName.ts';
import { withShop } from '../core/job/shop.ts';
import { readableOf } from '../core/job/stations/index.ts';
import { type Found, found } from './answers.ts';
import { insertAdvice, insertCapture, readCaptures } from './captures.ts';
import { insertJob, nextNumber, noJob } from './changeJob.ts';
import { insertPhotograph, photographsInFile } from './photographs.ts';
import { jobRow, readAdvice, readDeck, readFittings, readStations } from './readJob.ts';
import { readShop } from './settings.ts';
import type { Origin, Tx } from './transaction.ts';
import { findDeckBy } from './words.ts';

export async function exportJob(tx: Tx, id: string, madeBy: string, origin: Origin): Promise<Found<JobFile>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const stations = await readStations(tx, row.id);
  // another shop has other limits: the file carries those that this one judged by
  const run = withShop(readableOf('run', stations.run.data), await readShop(tx));
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
  readonly id: string;
  readonly number: number;
}

/** The deck of the file: the same one when it is here unchanged, otherwise a new one beside it. */
async function deckFor(tx: Tx, { deck, createdAt }: JobFile['job'], origin: Origin): Promise<string> {
  const here = await tx.selectFrom('decks').selectAll().where('id', '=', deck.id).executeTakeFirst();
  if (here !== undefined && here.name === deck.name && here.description === deck.description) return here.id;
  const id = here === undefined ? deck.id : origin.newId();
  await tx
    .insertInto('decks')
    .values({ id, name: deck.name, description: deck.description, created_at: createdAt })
    .execute();
  await findDeckBy(tx, { id, name: deck.name, description: deck.description });
  return id;
}

/**
 * Nothing that is here is overwritten: the job, its captures and its advice get new ids, and the next free number where
 * the file's own is taken or larger than jobs are ever numbered.
 */
export async function importJob(
  tx: Tx,
  { job, captures, advice, photographs }: JobFile,
  origin: Origin,
): Promise<Imported> {
  const id = origin.newId();
  const taken = await tx.selectFrom('jobs').select('id').where('number', '=', job.number).executeTakeFirst();
  const keeps = taken === undefined && job.number <= MOST_IMPORTED_NUMBER;
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
    record_file: job.recordFile,
  };
  await insertJob(tx, row, job.stations);
  const newFittings = new Map(job.fittings.map((fitting) => [fitting.id, origin.newId()]));
  for (const fitting of job.fittings) {
    const row = { ...fitting, id: newFittings.get(fitting.id) as string, job_id: id };
    await tx.insertInto('fittings').values(row).execute();
  }
  const newIds = new Map(captures.map((capture) => [capture.id, origin.newId()]));
  const newIdOf = (old: string): string => newIds.get(old) as string;
  for (const capture of captures) {
    const { practice, saidKind, saidEpoch, setAside } = capture;
    const epoch = saidEpoch === null ? null : (newFittings.get(saidEpoch) ?? saidEpoch);
    const said = { practice, saidKind, saidEpoch: epoch, setAside };
    await insertCapture(tx, { ...capture, id: newIdOf(capture.id), job: id, said });
  }
  for (const [place, entry] of advice.entries()) {
    await insertAdvice(tx, id, place, {
      ...entry,
      id: origin.newId(),
      captureId: newIdOf(entry.captureId),
      checkedBy: entry.checkedBy === null ? null : newIdOf(entry.checkedBy),
    });
  }
  for (const photograph of photographs) await insertPhotograph(tx, id, { ...photograph, id: origin.newId() });
  return { id, number };
}
