/** Chains and readings that come page by page, and what the command asks the store for. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { NO_RECORD } from '../core/job/chains/chain.ts';
import { readCsv } from '../core/words/csv.ts';
import { command } from './chain.ts';
import { UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';

const store = vi.hoisted(() => ({ rows: 0, asked: [] as unknown[][] }));
const summary = (i: number) => ({ id: `c${i}`, name: `chain ${i}`, parts: {}, newest: null });
const reading = (i: number) => ({
  ...{ id: `r${i}`, at: '2026-03-30T06:00:00.000Z', knownAt: '', source: { root: 'a', path: `${i}.wav` }, method: '3' },
  ...{ fingerprint: null, record: null, reference: null, certificateUntil: null },
  figures: [{ quantity: 'speed-error', unit: '%', value: i, uncertainty: null }],
});
/** three on a page, asked for after the number of the last one */
const page = <T>(asked: { after?: string; before?: string }, row: (i: number) => T) => {
  const from = Number(asked.after ?? asked.before ?? 0);
  const to = Math.min(store.rows, from + 3);
  const rows = Array.from({ length: to - from }, (_, i) => row(from + i));
  return { rows, ...(to < store.rows ? { next: String(to) } : {}) };
};
const chains = {
  async list(asked: { after?: string }) {
    store.asked.push(['list', asked]);
    const { rows, ...next } = page(asked, summary);
    return { chains: rows, ...next };
  },
  async history(named: string, asked: { before?: string }) {
    store.asked.push(['history', named, asked]);
    const { rows, ...next } = page(asked, reading);
    return { outcome: 'found', value: { chain: { id: 'c', name: named }, readings: rows, ...next } };
  },
  async charts(named: string, key: unknown) {
    store.asked.push(['charts', named, key]);
    return {
      outcome: 'found',
      value: { chain: { id: 'c', name: named }, record: null, method: null, figures: [], says: [] },
    };
  },
  async alarms(since: string) {
    store.asked.push(['alarms', since]);
    return { alarms: [], says: ['None.'] };
  },
  async references(today: string) {
    store.asked.push(['references', today]);
    return { references: [] };
  },
};
vi.mock('./storeFlag.ts', async (original) => ({
  ...(await original<typeof import('./storeFlag.ts')>()),
  openToRead: async () => ({ chains, close: async () => void store.asked.push(['close']) }),
}));
beforeEach(() => {
  store.rows = 0;
  store.asked = [];
});

async function said(...args: string[]): Promise<string> {
  const heard = heardStreams();
  store.asked = [];
  expect(await command.run(args, heard.io)).toBe(0);
  expect(store.asked.pop()).toEqual(['close']);
  return heard.out;
}
const first = <T>(list: readonly T[][]) => list.map(([, ...rest]) => rest);

describe('pages', () => {
  it.each([
    [0, [{ limit: 500 }]],
    [3, [{ limit: 500 }]],
    [7, [{ limit: 500 }, { limit: 500, after: '3' }, { limit: 500, after: '6' }]],
  ])('a list of %i chains', async (rows, asked) => {
    store.rows = rows;
    const { schema, chains: all } = JSON.parse(await said('list', '--json'));
    expect(schema).toBe(1);
    expect(all).toEqual(Array.from({ length: rows }, (_, i) => summary(i)));
    expect(first(store.asked)).toEqual(asked.map((one) => [one]));
    expect(readCsv(await said('list', '--csv')).lines).toHaveLength(1 + rows);
  });

  it.each([
    [0, [{ limit: 500 }]],
    [3, [{ limit: 500 }]],
    [7, [{ limit: 500 }, { limit: 500, before: '3' }, { limit: 500, before: '6' }]],
  ])('a history of %i readings', async (rows, asked) => {
    store.rows = rows;
    const json = await said('history', 'studio 2', '--json');
    expect(first(store.asked)).toEqual(asked.map((one) => ['studio 2', one]));
    expect(JSON.parse(json)).toEqual({
      ...{ schema: 1, chain: { id: 'c', name: 'studio 2' } },
      readings: Array.from({ length: rows }, (_, i) => reading(i)),
    });
    expect(json.endsWith('\n]}\n')).toBe(true);
    expect(json.split('\n')).toHaveLength(rows + 3);
    expect(readCsv(await said('history', 'studio 2', '--csv')).lines).toHaveLength(1 + rows);
    const text = await said('history', 'studio 2');
    expect(text.match(/recorded +figure/g) ?? []).toHaveLength(rows === 0 ? 0 : 1);
    expect(text.match(/\d\.wav$/gm) ?? []).toHaveLength(rows);
    expect(text).not.toMatch(/^\n/);
    if (rows === 0) expect(text).toMatch(/^studio 2: /);
  });
});

describe('what is asked', () => {
  it('charts are of the newest reading’s record file, of another, or of none', async () => {
    await said('charts', 'studio 2');
    expect(store.asked).toEqual([['charts', 'studio 2', undefined]]);
    await said('charts', 'studio 2', '--without-record');
    expect(store.asked).toEqual([['charts', 'studio 2', NO_RECORD]]);
    await said('charts', 'studio 2', '--record', 'examples/house-test-side.record.json');
    expect(store.asked[0][2]).toMatch(/^\S{8,}$/);
    // there is no CSV of charts
    expect(await said('charts', 'studio 2', '--csv')).toBe('studio 2\n');
  });

  it('alarms are of what became known since yesterday, a day, or a time', async () => {
    const since = async (...args: string[]) => {
      await said('alarms', ...args);
      return store.asked[0][1] as string;
    };
    const day = new Date();
    day.setHours(0, 0, 0, 0);
    const before = new Date(day.getFullYear(), day.getMonth(), day.getDate() - 1);
    expect(await since()).toBe(before.toISOString());
    expect(await since('--since', '2026-03-04')).toBe(new Date(2026, 2, 4).toISOString());
    expect(await since('--since', '2026-03-04T09:30:00Z')).toBe('2026-03-04T09:30:00.000Z');
    expect(await since('--since', '2026-03-04T09:30:00.5+0200')).toBe('2026-03-04T07:30:00.500Z');
    expect(await since('--since', '2026-03-04T09:30:00+02:00')).toBe('2026-03-04T07:30:00.000Z');
    expect(await since('--since', '2026-03-04T09:30')).toBe(new Date(2026, 2, 4, 9, 30).toISOString());
    for (const wrong of [
      'monday',
      '2026',
      '2026-13-04',
      '04.03.2026',
      '2026-03-04 09:30',
      'x2026-03-04',
      '2026-03-04x',
      '2026-03-04T25:00Z',
    ])
      await expect(command.run(['alarms', '--since', wrong], heardStreams().io), wrong).rejects.toThrow(
        `--since '${wrong}': a day such as 2026-03-04 or a time such as 2026-03-04T09:30:00Z was expected`,
      );
    expect(await said('alarms', '--csv')).toMatch(/^\S+\r\n$/);
    expect(await said('alarms')).toBe('None.\n');
  });

  it('references are held against today, in this machine’s zone', async () => {
    const [year, month, date] = [new Date().getFullYear(), new Date().getMonth() + 1, new Date().getDate()];
    expect(await said('reference', 'list', '--csv')).toMatch(/^\S+\r\n$/);
    expect(store.asked).toEqual([
      ['references', `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`],
    ]);
  });
});

it.each([
  [[], 'chain needs one of: list, charts, history, alarms, set, take, release, reference'],
  [['polish'], "chain 'polish': one of list, charts, history, alarms, set, take, release, reference was expected"],
  [['constructor'], "chain 'constructor'"],
  [['list', 'x'], 'chain list: no argument was expected'],
  [['alarms', 'x'], 'chain alarms: no argument was expected'],
  [['charts', 'a', 'b'], 'chain charts: one CHAIN was expected'],
  [['history'], 'chain history: one CHAIN was expected'],
  [['set'], 'chain set: one CHAIN was expected'],
  [['set', ''], 'chain set: '],
  [['set', 'x', '--since', 'monday'], "--since 'monday'"],
  [['take', 'x'], 'chain take: a CHAIN and a JOB was expected'],
  [['release'], 'chain release: one JOB was expected'],
  [['reference'], "chain reference '': one of add, list, remove was expected"],
  [['reference', 'toString'], "chain reference 'toString': one of add, list, remove was expected"],
  [['reference', 'list', 'x'], 'chain reference list: no argument was expected'],
  [['reference', 'remove'], 'chain reference remove: one FINGERPRINT was expected'],
  [['reference', 'add'], 'chain reference add: one RECORDING was expected'],
  [['reference', 'add', 'x.wav'], 'chain reference add needs --record FILE: its certificate'],
  [['reference', 'add', 'x.wav', '--record', 'x.json'], 'chain reference add needs --expires DAY'],
])('refuses %j', async (args, sentence) => {
  await expect(command.run(args, heardStreams().io)).rejects.toThrow(UsageError);
  await expect(command.run(args, heardStreams().io)).rejects.toThrow(sentence);
});
