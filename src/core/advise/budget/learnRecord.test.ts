import { expect, it } from 'vitest';
import type { ComplexLeaks } from '../../measure/tilt.ts';
import { inverseNormal } from '../../signal/inverseNormal.ts';
import { say } from '../../words/statement.ts';
import { learnedLeaksText, parseLearned } from './learnedRecord.ts';
import { deckReading, learnRecord } from './learnRecord.ts';

const record = { name: 'House test side', key: 'k' };

/** Normal numbers from a seed. */
function normal(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return inverseNormal((((z ^ (z >>> 16)) >>> 0) + 0.5) / 2 ** 32);
  };
}

const cut: ComplexLeaks = { leftIntoRight: { re: 0.012, im: -0.006 }, rightIntoLeft: { re: -0.004, im: 0.01 } };
function decks(count: number, seed: number, odd = 0) {
  const draw = normal(seed);
  return Array.from({ length: count }, (_, i) => {
    const t = 0.012 * draw() + (i < odd ? 0.2 : 0);
    const own = () => 0.0224 * draw();
    return {
      leaks: {
        leftIntoRight: { re: cut.leftIntoRight.re + own() - t, im: cut.leftIntoRight.im + own() },
        rightIntoLeft: { re: cut.rightIntoLeft.re + own() + t, im: cut.rightIntoLeft.im + own() },
      },
      balanceDb: 0.2 + 0.5 * draw(),
      speedPercent: 0.15 + 0.1 * draw(),
    };
  });
}
const tiltOf = ({ leftIntoRight: a, rightIntoLeft: b }: ComplexLeaks): number => (b.re - a.re) / 2;

it('k = 2 holds the record’s own tilt and leaks in 90 to 99 % of shops, from twelve decks and from forty (seeds from 900)', () => {
  for (const count of [12, 40]) {
    let inside = 0;
    let learned = 0;
    const shops = 300;
    for (let shop = 0; shop < shops; shop++) {
      const read = learnRecord(record, decks(count, 900 + 7919 * shop));
      if (!read.ok || read.learned.leaks === undefined) continue;
      learned += 1;
      const { mean, variance } = read.learned.leaks;
      if (Math.abs(tiltOf(mean) - tiltOf(cut)) <= 2 * Math.sqrt(variance.tilt)) inside += 1;
    }
    expect(learned, `${count} decks`).toBeGreaterThan(shops / 2);
    expect(inside / learned, `${count} decks`).toBeGreaterThan(0.9);
    expect(inside / learned, `${count} decks`).toBeLessThan(0.99);
  }
});

it('more decks make it surer, and a few that are mounted askew change nothing', () => {
  const of = (count: number, odd = 0) => {
    const read = learnRecord(record, decks(count, 4, odd));
    if (!read.ok || read.learned.leaks === undefined) throw new Error('nothing learned');
    return { ...read.learned.leaks, decks: read.learned.decks };
  };
  expect(of(60).variance.tilt).toBeLessThan(of(12).variance.tilt / 2);
  const askew = of(30, 3);
  expect(askew.decks).toBeLessThanOrEqual(27);
  expect(of(60).spread?.tilt).toBeCloseTo(Math.hypot(0.012, 0.0224 / Math.SQRT2), 2);
  expect(of(60).spread?.quadrature).toBeCloseTo(0.0224, 2);
  expect(Math.abs(tiltOf(askew.mean) - tiltOf(of(30).mean))).toBeLessThan(0.005);
});

it('teaches nothing from fewer than ten decks', () => {
  const read = learnRecord(record, decks(9, 3));
  expect(read.ok ? '' : say(read.why)).toBe('it was played on 9 decks; at least 10 are needed to learn from');
  const one = learnRecord(record, decks(1, 3));
  expect(one.ok ? '' : say(one.why)).toContain('on 1 deck;');
});

it('reads figures as they were heard, before anything known of the record was taken off', () => {
  const read = deckReading([
    { quantity: 'separation-left-to-right', value: 28, complex: { re: 0.04, im: 0 } },
    { quantity: 'separation-right-to-left', value: 28, complex: { re: 0.05, im: 0.01 } },
    { quantity: 'channel-balance', value: 0.3, asHeard: 0.5 },
    { quantity: 'speed-error', value: 0.1 },
  ]);
  expect(read).toEqual({
    leaks: { leftIntoRight: { re: 0.04, im: 0 }, rightIntoLeft: { re: 0.05, im: 0.01 } },
    balanceDb: 0.5,
    speedPercent: 0.1,
  });
  expect(deckReading([{ quantity: 'separation-left-to-right', value: 28 }])).toEqual({});
});

it('what is written is read again; another file is refused by its name', () => {
  const read = learnRecord(record, decks(20, 8));
  if (!read.ok) throw new Error(say(read.why));
  expect(parseLearned(JSON.stringify(read.learned), 'x.json')).toEqual({ ok: true, learned: read.learned });
  expect(learnedLeaksText(read.learned)).toMatch(
    /^All (1\d|20) decks have a tilt of [+−]\d\.\d\d ± \d\.\d\d° in common, and leaks of −\d\d and −\d\d dB/,
  );
  const { spread: _spread, ...older } = read.learned.leaks ?? { spread: undefined };
  expect(parseLearned(JSON.stringify({ ...read.learned, leaks: older }), 'x.json')).toMatchObject({ ok: true });
  const wrong = parseLearned('{"schema": 1}', 'x.json');
  expect(wrong.ok ? '' : say(wrong.why)).toMatch(/^x\.json: kind: .*record learn/);
});
