/** What README.md claims is what selfcheck holds to, and how it says so; that decks are measured within it is shown in test/loops. */
import { readFileSync } from 'node:fs';
import { beforeEach, expect, it, vi } from 'vitest';
import { heardStreams } from './heard.fixture.ts';
import { CLAIMS, COVERAGE, SPEED } from './selfcheck/claims.ts';
import type { playDecks, Tallies } from './selfcheck/playDecks.ts';
import { Tally } from './selfcheck/tally.ts';
import { command } from './selfcheck.ts';

type Play = typeof playDecks;
const played = vi.hoisted(() => ({ decks: vi.fn<Play>() }));
vi.mock('./selfcheck/playDecks.ts', () => ({ playDecks: (...args: Parameters<Play>) => played.decks(...args) }));

it('README.md has the table of claims, in the same words', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  for (const { title, words } of CLAIMS) expect(readme).toContain(`| ${title} | ${words} |`);
  expect(readme.replace(/\s+/g, ' ')).toContain(`in ${COVERAGE.words} of decks`);
  expect(readme.replace(/\s+/g, ' ')).toContain(SPEED.words);
});

it('a leak far down may be told less surely, and flutter to a share of itself', () => {
  const within = (name: string) =>
    CLAIMS.find(({ quantity }) => quantity === name)?.within as (truth: number) => number;
  for (const side of ['separation-left-to-right', 'separation-right-to-left'])
    expect([0, 30, 50].map(within(side))).toEqual([0.3, 0.3, expect.closeTo(3, 9)]);
  expect([0.01, 0.06, 0.1, 1].map(within('wow-flutter-weighted'))).toEqual([
    ...[0.003, expect.closeTo(0.003, 9), expect.closeTo(0.005, 9), expect.closeTo(0.05, 9)],
  ]);
  expect([1, 100].map(within('azimuth-error'))).toEqual([0.05, 0.05]);
});

/** Five decks each: errors of ±1 hundredth and one of 2, under a ± of 0.02; so many withheld beside them. */
function tally(withheld = 0, uncertainty = 0.02): Tally {
  const one = new Tally();
  for (const error of [0.01, -0.01, 0.01, -0.01, 0.02]) one.add(error, uncertainty, 0);
  for (let i = 0; i < withheld; i++) one.add(undefined, null, 0);
  return one;
}
const all = (): Map<string, Tally> => new Map(CLAIMS.map(({ quantity }) => [quantity, tally()]));
const tallies = (more: Partial<Tallies> = {}): Tallies => ({
  ...{ accuracy: all(), coverage: all(), missed: [], decks: 10, playedS: 100, measuringS: 4, ...more },
});

beforeEach(() => {
  played.decks.mockReset();
});

async function checked(told: Tallies, ...args: string[]) {
  played.decks.mockResolvedValue(told);
  const heard = heardStreams();
  const status = await command.run(args, heard.io);
  return { status, ...heard, json: () => JSON.parse(heard.out) };
}

it('tells every claim in a table, and that all held', async () => {
  const { status, out, err } = await checked(tallies());
  expect([status, err]).toEqual([0, '']);
  const [first, second, blank, head, tilt, ...rest] = out.split('\n');
  expect(first).toMatch(/^10 practice decks, half of them on records without fault/);
  expect(second).toBe('of their own (± holds: 90 to 99 % claimed); seeds from 7000000.');
  expect(blank).toBe('');
  expect(head).toMatch(/^figure {27}bias {4}spread {2}largest {2}claimed {26}± holds in$/);
  expect(tilt).toBe(
    'tilt (azimuth)               °   0.004   0.012   0.020    within 0.05°                     100 % of 5  holds',
  );
  expect(rest.filter((line) => line.endsWith('  holds'))).toHaveLength(5);
  expect(rest.slice(-4)).toEqual([
    '',
    'speed: 25.0 times as fast as the record plays by processor time (claimed: at least 5 times as fast as the record plays)',
    'Every claim held.',
    '',
  ]);
  expect(rest[3]).toMatch(/^speed {20,}% {3,}0\.0040/);
});

it('plays ten decks, or two hundred, always the same ones, by processor time, and shows how far it is', async () => {
  await checked(tallies());
  await checked(tallies(), '--long');
  expect(played.decks.mock.calls.map(([decks, seed]) => [decks, seed])).toEqual([
    [10, 7_000_000],
    [200, 7_000_000],
  ]);
  const [, , now, onProgress] = played.decks.mock.calls[0];
  const { user, system } = process.cpuUsage();
  expect(now()).toBeGreaterThanOrEqual((user + system) / 1e6);
  expect(now()).toBeLessThan((user + system) / 1e6 + 5);
  expect(onProgress(0.5)).toBeUndefined();
  const heard = heardStreams();
  played.decks.mockImplementation(async (...args) => {
    args[3](0.299);
    return tallies();
  });
  await command.run([], { ...heard.io, progress: true });
  expect(heard.err).toBe('\rselfcheck 29 %\r\u001b[K');
});

it('one document has every figure, what is claimed of it, and whether it holds', async () => {
  const { status, json, out } = await checked(tallies(), '--json');
  expect(status).toBe(0);
  expect(out.endsWith('}\n')).toBe(true);
  const { figures, ...rest } = json();
  expect(rest).toEqual({
    ...{ schema: 1, decks: 10, firstSeed: 7_000_000, coverageClaim: '90 to 99 %', holds: true },
    speed: { timesFasterThanPlayed: 25, claim: SPEED.words, holds: true },
  });
  expect(figures.map(({ quantity }: { quantity: string }) => quantity)).toEqual(CLAIMS.map(({ quantity }) => quantity));
  expect(figures[0]).toEqual({
    ...{ quantity: 'azimuth-error', unit: 'deg', claim: 'within 0.05°', decks: 5, withheld: 0 },
    ...{ bias: expect.closeTo(0.004, 9), spread: expect.closeTo(0.012, 9), largest: 0.02 },
    ...{ coverage: 100, coverageDecks: 5, holds: true, why: null },
  });
});

it('a figure beside its claim, withheld too often, or with too narrow a ± does not hold', async () => {
  const speed = (told: Tallies) => checked(told, '--json').then(({ json }) => json().figures[4]);
  const missed = ['speed-error of deck 7: 0.1 % beside the truth 0.2', 'speed-error of deck 9: 0.1 % beside the truth'];
  expect(await speed(tallies({ missed }))).toMatchObject({ quantity: 'speed-error', holds: false, why: missed[0] });
  expect(await speed(tallies({ missed: ['speed-error-more of deck 7: 1'] }))).toMatchObject({ holds: true, why: null });
  for (const which of ['accuracy', 'coverage'] as const) {
    const rare = new Map(all()).set('speed-error', tally(1));
    expect(await speed(tallies({ [which]: rare, missed }))).toMatchObject({ why: 'withheld too often', withheld: 1 });
  }
  // one of ten is not too often
  const ten = new Tally();
  for (let i = 0; i < 9; i++) ten.add(0.01, 0.02, 0);
  ten.add(undefined, null, 0);
  expect(await speed(tallies({ accuracy: new Map(all()).set('speed-error', ten) }))).toMatchObject({
    ...{ holds: true, withheld: 1, decks: 9 },
  });
  const narrow = new Map(all()).set('speed-error', tally(0, 0.005));
  expect(await speed(tallies({ coverage: narrow }))).toMatchObject({
    ...{ holds: false, why: 'too narrow: 0 of 5 inside k = 2', coverage: 0 },
  });
  // too wide a ± is no fault of the claim
  const wide = new Tally();
  for (let i = 0; i < 100; i++) wide.add(0.001, 1, 0);
  expect(await speed(tallies({ coverage: new Map(all()).set('speed-error', wide) }))).toMatchObject({ holds: true });
});

it('ends with 1 and says why where a claim did not hold, or where it was too slow', async () => {
  const missed = ['speed-error of deck 7: 0.1 % beside the truth 0.2'];
  const { status, out } = await checked(tallies({ missed }));
  expect(status).toBe(1);
  expect(out).toMatch(/\n {2}speed-error of deck 7: 0\.1 % beside the truth 0\.2\nNot every claim held\.\n$/);
  expect(out.match(/does not hold/g)).toHaveLength(1);
  const slow = await checked(tallies({ playedS: 100, measuringS: 20.1 }));
  expect(slow.status).toBe(1);
  expect(slow.out).toMatch(/speed: 5\.0 times .*, does not hold\nNot every claim held\.\n$/);
  expect((await checked(tallies({ playedS: 100, measuringS: 20 }))).status).toBe(0);
  const told = (await checked(tallies({ playedS: 100, measuringS: 50 }), '--json')).json();
  expect([told.holds, told.speed.holds, told.speed.timesFasterThanPlayed]).toEqual([false, false, 2]);
});
