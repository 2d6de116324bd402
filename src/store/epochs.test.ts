/** Two cartridges in one job: nothing of the one says anything of the other. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { jobSchema } from '../core/job/api.ts';
import { leafChanges } from '../core/job/leafPaths.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { earlierLines } from '../core/job/stations/index.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
let id: string;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
  id = given(await store.createJob({ deck: { name: 'deck' } })).id;
});
afterEach(() => store.close());

const mono = {
  ...straightSide,
  capture: { ...straightSide.capture, file: 'hum.wav', sha256: 'c'.repeat(64) },
  problems: [{ code: 'identical-channels', severity: 'error' as const, message: 'One content.' }],
};
const third = { ...straightSide, capture: { ...straightSide.capture, file: 'side-d.wav', sha256: 'd'.repeat(64) } };

it('a fitted cartridge begins an epoch, marks the stations and ends the old advice', async () => {
  await store.changeStation(id, 'weigh', {
    changes: [{ path: ['target'], is: '1.5' }],
    status: { was: 'untouched', is: 'done' },
  });
  const old = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' })).added;
  const made = given(await store.addFitting(id, { kind: 'cartridge', name: 'B', was: 'A', hours: 0 }));
  expect(made.fittings).toMatchObject([{ kind: 'cartridge', name: 'B', was: 'A', hours: 0, station: 'match' }]);
  expect(made.moves.stations.weigh).toMatchObject({ status: 'stale' });
  expect(made.moves.stations.weigh?.staleBecause?.[0]).toMatch(/^Another cartridge was fitted \(B\) at Match: /);
  const fresh = given(await store.addCapture(id, { document: straightSide })).added;
  // the old cartridge's forecast is not held against the new one
  expect(fresh.advice).toEqual([]);
  const job = given(await store.job(id));
  expect(jobSchema.parse(job)).toEqual(job);
  expect(job.advice).toMatchObject([{ captureId: old.capture.id, checkedBy: null, checks: [] }]);
  expect(job.beforeAfter[0]).toMatchObject({ beforeCapture: old.capture.id, afterCapture: fresh.capture.id });
  expect(given(await store.job(id)).stations.weigh.status).toBe('stale');

  const back = given(await store.takeFittingBack(id, made.fitting as string));
  expect(back.fittings).toEqual([]);
  expect(back.moves.stations.weigh).toMatchObject({ status: 'done' });
  expect(back.advice[0].checkedBy).toBe(fresh.capture.id);
  expect((await store.takeFittingBack(id, made.fitting as string)).outcome).toBe('not-found');
  expect((await store.addFitting('none', { kind: 'arm', name: 'x' })).outcome).toBe('not-found');
});

it('what was typed for the old cartridge is put aside as its own, and stands again when the fitting is taken back', async () => {
  const type = (station: 'match' | 'weigh' | 'place', data: object) =>
    store.changeStation(id, station, { changes: leafChanges({}, data), status: { was: 'untouched', is: 'done' } });
  const weigh = { target: '17 mN', facts: { cartridgeMassG: '6.5', effectiveLengthMm: '243' }, ticked: ['float'] };
  await type('weigh', weigh);
  await type('match', { typed: { cartridgeMassG: '6.5', effectiveMassG: '11' } });
  await type('place', { arm: { spindleToPivot: '222' }, read: { kind: 'miss', inner: { along: '-1.8' } } });
  const made = given(await store.addFitting(id, { kind: 'cartridge', name: 'B', was: 'A' }));
  const { stations } = given(await store.job(id));
  expect(stations.weigh.data).toEqual({
    facts: { effectiveLengthMm: '243' },
    earlier: [
      {
        fitting: made.fitting,
        name: 'A',
        kept: [
          { path: ['ticked'], is: ['float'] },
          { path: ['facts', 'cartridgeMassG'], is: '6.5' },
          { path: ['target'], is: '17 mN' },
        ],
      },
    ],
  });
  expect(stations.match.data.typed).toEqual({ effectiveMassG: '11' });
  expect(stations.place.data).toMatchObject({ arm: { spindleToPivot: '222' }, read: { kind: 'miss' } });
  expect(stations.place.data.read).not.toHaveProperty('inner');
  // a page that knows the stations as they were sees by the revision that there is more to fetch
  expect(made.moves.stations.weigh?.revision).toBe(3);
  expect(earlierLines('weigh', stations.weigh.data)).toEqual([
    { label: 'Of A', text: 'Cartridge’s mass 6.5; Another force 17 mN' },
  ]);

  await store.changeStation(id, 'weigh', { changes: [{ path: ['target'], is: '18 mN' }] });
  given(await store.takeFittingBack(id, made.fitting as string));
  const back = given(await store.job(id)).stations;
  expect(back.weigh.data).toEqual({ ...weigh, target: '18 mN' });
  expect(back.place.data.read).toEqual({ kind: 'miss', inner: { along: '-1.8' } });
});

it('a recording that counts reopens a job that was closed; a practice side does not', async () => {
  await store.changeStation(id, 'hand-over', {
    changes: [{ path: ['closedOver'], is: 'the owner is in a hurry' }],
    status: { was: 'untouched', is: 'done' },
  });
  await store.addCapture(id, { document: third, practice: true });
  expect(given(await store.job(id)).stations['hand-over'].status).toBe('done');
  await store.addCapture(id, { document: straightSide });
  expect(given(await store.job(id)).stations['hand-over']).toMatchObject({
    status: 'stale',
    staleBecause: ['A recording was read after the job was closed: side-b.wav.'],
    readSince: ['side-b.wav'],
    data: { closedOver: 'the owner is in a hurry' },
  });
});

it('the same fitting sent twice is one', async () => {
  const at = '2026-03-04T10:00:00.000Z';
  const once = given(await store.addFitting(id, { kind: 'stylus', name: 'tip', at }));
  const twice = given(await store.addFitting(id, { kind: 'stylus', name: 'tip', at }));
  expect(twice.fittings).toEqual(once.fittings);
  expect(twice.fitting).toBe(once.fitting);
});

it('junk and practice sides are never after, and a recording set aside checks nothing until it is taken back', async () => {
  const first = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' })).added;
  const second = given(await store.addCapture(id, { document: straightSide })).added;
  const hum = given(await store.addCapture(id, { document: mono, station: 'run' })).added;
  const played = given(await store.addCapture(id, { document: third, station: 'run', practice: true })).added;
  expect(hum.capture.unfit).toBe('one-channel');
  const comparedTo = async () =>
    new Set(given(await store.job(id)).beforeAfter.map(({ afterCapture }) => afterCapture));
  expect(await comparedTo()).toEqual(new Set([second.capture.id]));
  const aside = given(await store.changeCapture(id, second.capture.id, { setAside: { why: 'the wrong deck' } }));
  expect(aside.capture.setAside).toMatchObject({ why: 'the wrong deck' });
  expect(await comparedTo()).toEqual(new Set());
  expect(aside.advice).toMatchObject([{ captureId: first.capture.id, checkedBy: null }]);
  expect(given(await store.capture(id, second.capture.id)).document).toEqual(straightSide);
  const back = given(await store.changeCapture(id, second.capture.id, { setAside: null }));
  expect(back.capture.setAside).toBeNull();
  expect(back.advice).toMatchObject([{ checkedBy: second.capture.id }]);
  // said by hand to be a pass of the deck itself
  given(await store.changeCapture(id, played.capture.id, { kind: 'after' }));
  expect(await comparedTo()).toEqual(new Set([played.capture.id]));
  expect((await store.changeCapture(id, 'none', { kind: 'pass' })).outcome).toBe('not-found');
});
