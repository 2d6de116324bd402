/**
 * A second process for the tests: opens the store named on its command line, makes a job, and writes until it is killed
 * or has written as many captures as it was told. It prints one line when a change has been acknowledged, never before.
 */
import { writeSync } from 'node:fs';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { openStore } from './store.ts';

const [file, count] = process.argv.slice(2);
const say = (line: string): void => void writeSync(1, `${line}\n`);

const store = await openStore(file);
const made = await store.createJob({ deck: { name: `deck of ${process.pid}` } });
if (made.outcome === 'found') {
  say(`job ${made.value.id}`);
  for (let take = 0; take < Number(count); take++) {
    const added = await store.addCapture(made.value.id, {
      document: { ...tiltedSide, capture: { ...tiltedSide.capture, sha256: null, file: `take ${take}` }, advice: [] },
    });
    if (added.outcome === 'found') say(`capture ${made.value.id} ${added.value.added.capture.id}`);
  }
}
await store.close();
say('closed');
