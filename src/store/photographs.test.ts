import { afterEach, beforeEach, expect, it } from 'vitest';
import { readJobFile } from '../core/job/jobFile.ts';
import { MOST_PHOTOGRAPHS } from '../core/job/photographs.ts';
import { say, statement } from '../core/words/statement.ts';
import { freshStore } from './fresh.fixture.ts';
import { cameraJpeg } from './jpeg.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
let job: string;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
  job = given(await store.createJob({ deck: { name: 'one' } })).id;
});
afterEach(() => store.close());

const shot = (id: string, jpeg = cameraJpeg(1600, 1200)) => ({
  id,
  station: 'intake' as const,
  note: 'worn tip',
  jpeg,
});

it('keeps pixels and size and nothing of place or owner; the job names it, and a second sending changes nothing', async () => {
  await store.addPhotograph(job, shot('a'));
  await store.addPhotograph(job, shot('a'));
  const [photograph, ...more] = given(await store.job(job)).photographs;
  expect(more).toEqual([]);
  expect(photograph).toMatchObject({ id: 'a', station: 'intake', note: 'worn tip', width: 1600, height: 1200 });
  const kept = Buffer.from(given(await store.jpeg(job, 'a'))).toString('latin1');
  expect(kept).not.toMatch(/GPS|owner|Exif/);
  expect(kept.startsWith('\u00ff\u00d8')).toBe(true);
});

it('refuses what is too large, too many or no picture, in a sentence, and keeps the rest', async () => {
  const why = async (id: string, jpeg?: string) => {
    const answer = await store.addPhotograph(job, shot(id, jpeg));
    return answer.outcome === 'refused' ? answer.why : null;
  };
  expect(await why('wide', cameraJpeg(4000, 3000))).toBe(
    'it is 4000 × 3000 px; at most 1600 on the longer side was expected',
  );
  expect(await why('svg', btoa('<svg/>'))).toBe('it is not a JPEG');
  for (let i = 0; i < MOST_PHOTOGRAPHS; i++) expect(await why(`shot-${i}`)).toBeNull();
  expect(await why('one-more')).toMatch(/24 photographs/);
  expect(given(await store.job(job)).photographs).toHaveLength(MOST_PHOTOGRAPHS);
});

it('a note is changed, a photograph deleted, and all go with their job', async () => {
  await store.addPhotograph(job, shot('a'));
  await store.addPhotograph(job, shot('b'));
  given(await store.changePhotograph(job, 'a', { note: 'tip, from the front' }));
  given(await store.deletePhotograph(job, 'b'));
  expect(given(await store.job(job)).photographs.map(({ note }) => note)).toEqual(['tip, from the front']);
  expect((await store.deletePhotograph(job, 'b')).outcome).toBe('not-found');
  given(await store.deleteJob(job));
  expect((await store.jpeg(job, 'a')).outcome).toBe('not-found');
});

it('goes out with the job’s file and comes in with it; a file with something else in its place is refused', async () => {
  await store.addPhotograph(job, shot('a'));
  const file = JSON.parse(JSON.stringify(given(await store.exportJob(job, 'test'))));
  const read = readJobFile(file);
  if (!read.found) throw new Error(say(read.why));
  const { id } = await store.importJob(read.file, { asNew: true });
  const [photograph] = given(await store.job(id)).photographs;
  expect(photograph).toMatchObject({ note: 'worn tip', at: file.photographs[0].at });
  expect(photograph.id).not.toBe('a');
  expect(given(await store.jpeg(id, photograph.id))).toEqual(given(await store.jpeg(job, 'a')));
  file.photographs[0].jpeg = btoa('no picture');
  expect(readJobFile(file)).toEqual({ found: false, why: statement('job-file-photograph', { place: 0 }) });
});
