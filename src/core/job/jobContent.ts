/** Whether two job files tell the same of a job: what they hold, not the ids, number and time that a store or a writer gave. */
import type { JobFile } from './jobFile.ts';
import { renumbered } from './jobName.ts';
import { sameJson } from './sameJson.ts';
import { stationNames } from './station.ts';

const placeOf = (ids: readonly string[], id: string | null): number | string | null =>
  id === null || !ids.includes(id) ? id : ids.indexOf(id);

function content({ job, captures, advice, photographs }: JobFile, owner: boolean): unknown {
  const [fittings, heard] = [job.fittings.map(({ id }) => id), captures.map(({ id }) => id)];
  return {
    job: {
      ...job,
      id: '',
      number: 0,
      title: renumbered(job.title, job.number, 1),
      revision: 0,
      updatedAt: '',
      customer: owner ? job.customer : '',
      deck: { ...job.deck, id: '' },
      fittings: job.fittings.map((one) => ({ ...one, id: '' })),
      stations: Object.fromEntries(
        stationNames.map((name) => [name, { ...job.stations[name], revision: 0, updatedAt: '' }]),
      ),
    },
    captures: captures.map((one) => ({ ...one, id: '', saidEpoch: placeOf(fittings, one.saidEpoch) })),
    advice: advice.map((entry) => ({
      ...entry,
      id: '',
      captureId: placeOf(heard, entry.captureId),
      checkedBy: placeOf(heard, entry.checkedBy),
    })),
    photographs: photographs.map((one) => ({ ...one, id: '' })),
  };
}

/** A file from which the owner's name was left out is held against the other one without it. */
export function sameJob(one: JobFile, other: JobFile): boolean {
  const owner = one.job.customer !== '' && other.job.customer !== '';
  // through JSON, as a file holds it: what is undefined is not there
  const [a, b] = [one, other].map((file) => JSON.parse(JSON.stringify(content(file, owner))) as unknown);
  return sameJson(a, b);
}
