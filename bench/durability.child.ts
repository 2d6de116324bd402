/**
 * A second process for the tests and the kill proof: opens the store named on its command line and, with a count, makes a
 * job and writes to it until it is killed or has made as many changes as it was told: recordings, typed values and
 * fittings in turn. It prints one line when a change has been acknowledged, never before. With `check` it reads such lines
 * from its input and prints those that the store does not hold.
 */
import { readFileSync, writeSync } from 'node:fs';
import { tiltedSide } from '../src/core/job/side.fixture.ts';
import { faultsIn } from '../src/store/copies.ts';
import { openStore, type Store } from '../src/store/store.ts';

const [file, what] = process.argv.slice(2);
const say = (line: string): void => void writeSync(1, `${line}\n`);

const takeOf = (take: number) => ({
  ...tiltedSide,
  capture: { ...tiltedSide.capture, sha256: null, file: `take ${take}` },
  advice: [],
});

/** One change and the line that says it; null where it was refused. */
async function change(store: Store, job: string, take: number, before: number): Promise<string | null> {
  const kind = (['capture', 'typed', 'fitting', 'capture'] as const)[take % 4];
  if (kind === 'typed') {
    // typed values replace each other: the last one that was acknowledged, or a newer one, has to be there
    const leaf = { path: ['target'], ...(before === 0 ? {} : { was: `${before}` }), is: `${take}` };
    const kept = await store.changeStation(job, 'weigh', { changes: [leaf] });
    return kept.outcome === 'changed' ? `typed ${job} ${take}` : null;
  }
  if (kind === 'fitting') {
    const fitted = await store.addFitting(job, { kind: 'stylus', name: `stylus ${take}` });
    return fitted.outcome === 'found' ? `fitting ${job} ${fitted.value.fitting}` : null;
  }
  const added = await store.addCapture(job, { document: takeOf(take) });
  return added.outcome === 'found' ? `capture ${job} ${added.value.added.capture.id}` : null;
}

async function write(store: Store, count: number): Promise<void> {
  const made = await store.createJob({ deck: { name: `deck of ${process.pid}` } });
  if (made.outcome !== 'found') return;
  const { id } = made.value;
  say(`job ${id} -`);
  let typed = 0;
  for (let take = 1; take <= count; take++) {
    const line = await change(store, id, take, typed);
    if (line?.startsWith('typed')) typed = take;
    if (line !== null) say(line);
  }
}

async function holds(store: Store, kind: string, job: string, detail: string): Promise<boolean> {
  if (kind === 'capture') return (await store.capture(job, detail)).outcome === 'found';
  const found = await store.job(job);
  if (found.outcome !== 'found') return false;
  if (kind === 'fitting') return found.value.fittings.some(({ id }) => id === detail);
  return kind !== 'typed' || Number(found.value.stations.weigh.data.target) >= Number(detail);
}

const store = await openStore(file);
if (what === 'check') {
  for (const line of readFileSync(0, 'utf8').split('\n')) {
    const [kind, job, detail] = line.split(' ');
    if (detail !== undefined && !(await holds(store, kind, job, detail))) say(line);
  }
  for (const fault of faultsIn(file)) say(fault);
  await store.close();
} else {
  await write(store, Number(what));
  await store.close();
  say('closed');
}
