import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readCsv } from '../core/words/csv.ts';
import { openBatches } from '../store/batch/batchStore.ts';
import { play, testRecord } from '../store/chain/chains.fixture.ts';
import { countingOrigin, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { command } from './chain.ts';
import { CannotError, UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';

let folder: ReturnType<typeof scratchFolder>;
let file: string;
beforeEach(() => {
  folder = scratchFolder();
  file = join(folder.path, 'bench.sqlite');
});
afterEach(() => folder.remove());

async function said(...args: string[]): Promise<string> {
  const heard = heardStreams();
  expect(await command.run([...args, '--store', file], heard.io)).toBe(0);
  return heard.out;
}
const refused = async (...args: string[]): Promise<string> => {
  const error = await said(...args).then(
    () => new Error('it was done'),
    (reason: Error) => reason,
  );
  if (!(error instanceof UsageError || error instanceof CannotError)) throw error;
  expect(error.message).not.toContain('\n');
  return error.message;
};

const record = testRecord(138);

async function mornings(count: number, last: number): Promise<void> {
  const batch = await openBatches(file, { ...countingOrigin(), now: () => new Date().toISOString() });
  for (let day = 0; day < count; day++) {
    const at = new Date(Date.UTC(2026, 2, 1 + day, 6)).toISOString();
    const speed = day === count - 1 ? last : [0, 0.1, -0.1][day % 3];
    await play(batch, { chain: 'studio 2', record, at, speed });
  }
  await batch.close();
}

describe('chain', () => {
  it('tells charts, history and what left its limits, as text, CSV and JSON', async () => {
    await mornings(30, 2);
    expect(await said('list')).toMatch(/studio 2 .*2026-03-30 06:00 UTC/);
    expect(await said('charts', 'studio 2')).toContain('Speed error');
    expect(JSON.parse(await said('charts', 'studio 2', '--json'))).toMatchObject({ schema: 1, method: '3' });
    expect(await said('alarms')).toMatch(
      /^Speed error of studio 2 read \+2\.000 ± 0\.020 % on 2026-03-30.* above its limits/,
    );
    const { alarms } = JSON.parse(await said('alarms', '--json'));
    expect(alarms).toHaveLength(1);
    expect(readCsv(await said('alarms', '--csv')).lines).toHaveLength(2);
    expect(await said('alarms', '--since', '2100-01-01')).toBe('Nothing left its limits since then.\n');
    const { chain, readings } = JSON.parse(await said('history', 'studio 2', '--json'));
    expect([chain.name, readings.length]).toEqual(['studio 2', 30]);
    expect(readCsv(await said('history', 'studio 2', '--csv')).lines).toHaveLength(1 + 30 * 3);
    expect(await said('history', 'studio 2')).toContain('version 3');
  });

  it('is told what it is made of, and which jobs’ recordings are its readings', async () => {
    expect(
      await said('set', 'studio 1', '--deck', 'bench deck 3', '--cartridge', 'A', '--since', '2026-03-01'),
    ).toMatch(/^studio 1: deck bench deck 3, cartridge A, from 2026-0/);
    expect(await said('set', 'studio 1', '--cartridge', 'B', '--why', 'worn', '--since', '2026-03-04')).toContain(
      'deck bench deck 3, cartridge B',
    );
    const store = await openStore(file);
    const made = await store.createJob({ deck: { name: 'd' } });
    await store.close();
    if (made.outcome !== 'found') throw new Error(made.why);
    expect(await said('take', 'studio 1', String(made.value.number))).toContain('are readings of studio 1');
    expect(JSON.parse(await said('charts', 'studio 1', '--json')).chain.jobs).toEqual([made.value.number]);
    await said('release', String(made.value.number));
    expect(JSON.parse(await said('charts', 'studio 1', '--json')).chain.jobs).toEqual([]);
  });

  it('knows a reference recording again by its content', async () => {
    const [recording, sheet] = [join(folder.path, 'r.wav'), join(folder.path, 'r.record.json')];
    writeFileSync(recording, 'not looked into');
    writeFileSync(sheet, record.text);
    const told = await said('reference', 'add', recording, '--record', sheet, '--expires', '2027-03-01');
    const [fingerprint] = /[0-9a-f]{64}/.exec(told) as RegExpExecArray;
    expect(await said('reference', 'list')).toMatch(/side at 138 mm .*2027-03-01/);
    expect(JSON.parse(await said('reference', 'list', '--json')).references[0]).toMatchObject({ fingerprint });
    await said('reference', 'remove', fingerprint);
    expect(await said('reference', 'list')).toContain('No reference recording yet');
    expect(await refused('reference', 'remove', fingerprint)).toContain('no reference recording of the fingerprint');
    expect(await refused('reference', 'add', recording, '--record', sheet, '--expires', '1.3.27')).toContain(
      '2027-03-01',
    );
    expect(
      await refused('reference', 'add', join(folder.path, 'none.wav'), '--record', sheet, '--expires', '2027-03-01'),
    ).toContain('cannot be read');
  });

  it('refuses what it does not know in one sentence', async () => {
    await said('set', 'studio 1');
    expect(await refused('charts', 'studio 9')).toContain('There is no chain studio 9.');
    expect(await refused('charts')).toContain('one CHAIN was expected');
    expect(await refused('alarms', '--since', 'monday')).toContain("--since 'monday'");
    expect(await refused('reference')).toContain('one of add, list, remove');
    expect(await refused('take', 'studio 1', '77')).toContain('There is no job 77');
  });
});
