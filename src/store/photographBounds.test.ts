import { afterEach, beforeEach, expect, it } from 'vitest';
import { MOST_JPEG_BYTES, type NewPhotograph } from '../core/job/photographs.ts';
import { cameraJpeg } from './jpeg.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

let store: Store;
let job: string;
let other: string;
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
  [job, other] = [
    given(await store.createJob({ deck: { name: 'a' } })).id,
    given(await store.createJob({ deck: { name: 'b' } })).id,
  ];
});
afterEach(() => store.close());

const shot = (id: string, jpeg = cameraJpeg(40, 30)) => ({ id, station: 'fit' as const, jpeg });
async function added(of: string, wanted: NewPhotograph) {
  const answer = await store.addPhotograph(of, wanted);
  if (answer.outcome === 'refused') throw new Error(answer.why);
  return given(answer);
}
const notThere = (id: string, of = job) => ({ outcome: 'not-found', why: `Job ${of} has no photograph ${id}.` });

it('photographs stand in the order taken, two of one moment by their ids, and all of them are told after each change', async () => {
  const first = await added(job, shot('b'));
  const second = await added(job, { ...shot('a'), note: 'tip' });
  const [b, a] = second.photographs;
  expect(first.photographs).toEqual([b]);
  expect(b).toEqual({ id: 'b', station: 'fit', at: first.updatedAt, note: '', width: 40, height: 30 });
  expect(a).toEqual({ id: 'a', station: 'fit', at: second.updatedAt, note: 'tip', width: 40, height: 30 });
  expect(given(await store.job(job)).updatedAt).toBe(second.updatedAt);
  expect((await store.photographs(job)).map(({ id, note, jpeg }) => [id, note, jpeg.length > 20])).toEqual([
    ['b', '', true],
    ['a', 'tip', true],
  ]);
  // sent twice: nothing is changed, the time neither
  expect(await added(job, shot('a', cameraJpeg(50, 50)))).toEqual(second);
  const changed = given(await store.changePhotograph(job, 'b', { note: 'n' }));
  expect(changed.photographs).toEqual([{ ...b, note: 'n' }, a]);
  expect(changed.updatedAt > second.updatedAt).toBe(true);
  const left = given(await store.deletePhotograph(job, 'b'));
  expect(left.photographs).toEqual([a]);
  expect(given(await store.job(job)).updatedAt).toBe(left.updatedAt);
});

it('those of one moment stand by their ids, in the list as in the file', async () => {
  const file = given(await store.exportJob(job, 'x'));
  const { photographs } = {
    photographs: ['z', 'y', 'x'].map((id) => ({
      ...shot(id),
      at: '2026-03-04T09:00:00.000Z',
      note: '',
      width: 40,
      height: 30,
    })),
  };
  const { id } = await store.importJob({ ...file, photographs }, { asNew: true });
  const listed = given(await store.job(id)).photographs.map((one) => one.id);
  expect(listed).toEqual([...listed].sort());
  expect((await store.photographs(id)).map((one) => one.id)).toEqual(listed);
});

it('one of another job is not touched through this one', async () => {
  await added(job, shot('a'));
  expect(await store.jpeg(other, 'a')).toEqual(notThere('a', other));
  expect(await store.changePhotograph(other, 'a', { note: 'x' })).toEqual(notThere('a', other));
  expect(await store.deletePhotograph(other, 'a')).toEqual(notThere('a', other));
  expect(await store.jpeg(job, 'b')).toEqual(notThere('b'));
  expect(await store.addPhotograph('none', shot('c'))).toEqual({ outcome: 'not-found', why: 'There is no job none.' });
  expect(given(await store.job(job)).photographs.map(({ note }) => note)).toEqual(['']);
});

it('the longer side may have 1600 px, either way round, and no more', async () => {
  const why = async (width: number, height: number) => {
    const answer = await store.addPhotograph(job, shot(`p${width}-${height}`, cameraJpeg(width, height)));
    return answer.outcome === 'refused' ? answer.why : 'kept';
  };
  expect([await why(1600, 1), await why(1, 1600)]).toEqual(['kept', 'kept']);
  expect(await why(1601, 1)).toBe('it is 1601 × 1 px; at most 1600 on the longer side was expected');
  expect(await why(1, 1601)).toBe('it is 1 × 1601 px; at most 1600 on the longer side was expected');
});

it('1.5 MB may be held, and no more', async () => {
  const bytes = (length: number): string => {
    const small = Buffer.from(cameraJpeg(40, 30), 'base64');
    const end = small.indexOf(Buffer.from([0xff, 0xd9]));
    const head = small.subarray(0, end);
    return Buffer.concat([head, Buffer.alloc(length - end - 2, 0x12), small.subarray(end)]).toString('base64');
  };
  const kept = async (id: string, length: number) => {
    const answer = await store.addPhotograph(job, shot(id, bytes(length)));
    return answer.outcome === 'refused' ? answer.why : given(await store.jpeg(job, id)).length;
  };
  const length = await kept('a', 100_000);
  if (typeof length !== 'number') throw new Error(length);
  // what a camera writes beside the pixels is taken out first
  const beside = 100_000 - length;
  expect(await kept('b', MOST_JPEG_BYTES + beside)).toBe(MOST_JPEG_BYTES);
  expect(await kept('c', MOST_JPEG_BYTES + beside + 1)).toBe('it holds over 1.5 MB');
});
