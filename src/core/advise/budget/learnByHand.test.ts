import { describe, expect, it } from 'vitest';
import { say, statement } from '../../words/statement.ts';
import { type LearnedRecord, learnedLeaksText, parseLearned } from './learnedRecord.ts';
import { type DeckReading, deckReading, learnRecord, tooFew } from './learnRecord.ts';

const record = { name: 'House test side', key: 'k' };
const DEG = Math.PI / 180;
/** Student’s t of 95.45 %, two-sided, for 9 degrees of freedom (JCGM 100:2008, table G.2, from memory) */
const T: Record<number, number> = { 9: 2.32 };
const stats = (values: readonly number[]) => {
  const n = values.length;
  const mean = values.reduce((a, b) => a + b) / n;
  const spread = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (n - 1));
  return { mean, spread, u: (T[n - 1] * spread) / Math.sqrt(n) };
};
/** ten that lie evenly, in no order */
const even = [3, -2, 5, 0, -4, 1, 4, -1, 2, -3];
const learn = (decks: readonly DeckReading[]): LearnedRecord => {
  const of = learnRecord(record, decks);
  if (!of.ok) throw new Error(say(of.why));
  return of.learned;
};

describe('figures that all decks have in common', () => {
  it('balance and speed, whole: mean, k = 2 by Student’s t, spread', () => {
    const decks = even.map((v) => ({ balanceDb: 0.2 + 0.1 * v, speedPercent: -0.1 + 0.01 * v }));
    const [balance, speed] = [stats(decks.map((d) => d.balanceDb)), stats(decks.map((d) => d.speedPercent))];
    const figure = ({ mean, spread, u }: typeof balance) => ({
      mean: expect.closeTo(mean, 9),
      uncertainty: expect.closeTo(u, 3),
      spread: expect.closeTo(spread, 9),
      decks: 10,
    });
    expect(learn(decks)).toEqual({
      schema: 1,
      kind: 'learned-record',
      record,
      decks: 10,
      balanceDb: figure(balance),
      speedPercent: figure(speed),
    });
    expect(learn(decks.map(({ balanceDb }) => ({ balanceDb })))).not.toHaveProperty('speedPercent');
  });

  it('a deck more than 3.5 robust spreads off is left out, on either side; the deck count says so', () => {
    // median 0.5 of eleven with 0.5 added: |v − m| of even ones has the median 2.5
    const edge = 3.5 * 1.4826 * 2.5;
    const of = (v: number) => learn([...even, 0.5, v].map((x) => ({ balanceDb: x }))).balanceDb!.decks;
    for (const sign of [1, -1]) {
      expect(of(0.5 + sign * (edge - 1.4))).toBe(12);
      expect(of(0.5 + sign * (edge + 1.4))).toBe(11);
    }
  });

  it('decks that all agree are believed, one that does not is left out', () => {
    const same = Array.from({ length: 11 }, () => ({ balanceDb: 0.3 }));
    expect(learn(same).balanceDb).toEqual({
      mean: expect.closeTo(0.3, 12),
      uncertainty: expect.closeTo(0, 12),
      spread: expect.closeTo(0, 12),
      decks: 11,
    });
    expect(learn([...same, { balanceDb: 0.31 }]).balanceDb!.decks).toBe(11);
  });

  it('ten that read a figure are needed, each figure for itself', () => {
    const nine = even.slice(1).map((v) => ({ speedPercent: 0.01 * v }));
    const why = (decks: readonly DeckReading[]) => {
      const of = learnRecord(record, decks);
      return of.ok ? null : of.why;
    };
    expect(why(nine)).toEqual(statement('learned-too-few', { decks: 9, least: 10 }));
    expect(why([])).toEqual(tooFew(0));
    expect(why([...nine, { balanceDb: 1 }])).toEqual(tooFew(10));
    expect(why([...nine, { speedPercent: 0 }])).toBeNull();
    // an outlier does not make up the number
    expect(why([...nine, { speedPercent: 9 }])).toEqual(tooFew(10));
    const uneven = [...even.map((v) => ({ speedPercent: 0.01 * v, balanceDb: v })), { balanceDb: 0.5 }];
    expect(learn(uneven).decks).toBe(11);
    expect(learn(uneven.map(({ balanceDb, ...rest }) => ({ ...rest, speedPercent: balanceDb }))).decks).toBe(11);
  });
});

describe('leaks that all decks have in common', () => {
  // tilt, common and both quadratures of each deck, by sums of its own
  const t = even.map((v) => 0.004 + 0.001 * v);
  const c = even.map((_, i) => 0.02 + 0.0005 * even[(i + 3) % 10]);
  const [left, right] = [4, 7].map((by) => even.map((_, i) => 0.002 * even[(i + by) % 10]));
  const leaks = even.map((_, i) => ({
    leaks: {
      leftIntoRight: { re: c[i] - t[i], im: left[i] + 0.001 },
      rightIntoLeft: { re: c[i] + t[i], im: 2 * right[i] - 0.003 },
    },
  }));

  it('whole', () => {
    const [tilt, common, l, r] = [t, c, left, right.map((v) => 2 * v)].map(stats);
    const variance = ({ u }: typeof tilt) => (u / 2) ** 2;
    expect(learn(leaks)).toEqual({
      schema: 1,
      kind: 'learned-record',
      record,
      decks: 10,
      leaks: {
        decks: 10,
        mean: {
          leftIntoRight: { re: expect.closeTo(common.mean - tilt.mean, 9), im: expect.closeTo(l.mean + 0.001, 9) },
          rightIntoLeft: { re: expect.closeTo(common.mean + tilt.mean, 9), im: expect.closeTo(r.mean - 0.003, 9) },
        },
        variance: {
          tilt: expect.closeTo(variance(tilt), 9),
          common: expect.closeTo(variance(common), 9),
          quadrature: expect.closeTo((variance(l) + variance(r)) / 2, 8),
        },
        spread: {
          tilt: expect.closeTo(tilt.spread, 9),
          common: expect.closeTo(common.spread, 9),
          quadrature: expect.closeTo(Math.hypot(l.spread, r.spread) / Math.SQRT2, 9),
        },
      },
    });
    expect(variance(tilt)).toBeGreaterThan(1e-7);
  });

  it.each([
    ['tilt', { re: -0.05, im: 0 }, { re: 0.05, im: 0 }],
    ['common part', { re: 0.05, im: 0 }, { re: 0.05, im: 0 }],
    ['left quadrature', { re: 0, im: 0.1 }, { re: 0, im: 0 }],
    ['right quadrature', { re: 0, im: 0 }, { re: 0, im: 0.1 }],
  ])('a deck that is off in its %s alone is left out as a whole', (_, a, b) => {
    const middle = { leftIntoRight: { re: 0.016, im: 0.002 }, rightIntoLeft: { re: 0.024, im: -0.002 } };
    const deck = (x: typeof a, y: typeof b) => ({
      leaks: {
        leftIntoRight: { re: middle.leftIntoRight.re + x.re, im: middle.leftIntoRight.im + x.im },
        rightIntoLeft: { re: middle.rightIntoLeft.re + y.re, im: middle.rightIntoLeft.im + y.im },
      },
    });
    const none = { re: 0, im: 0 };
    expect(learn([...leaks, deck(none, none)]).leaks!.decks).toBe(11);
    expect(learn([...leaks, deck(a, b)]).leaks!.decks).toBe(10);
    const nine = learnRecord(record, [...leaks.slice(1), deck(a, b)]);
    expect(nine.ok).toBe(false);
  });

  it('in words, and none of what an earlier version kept', () => {
    const of = learn(leaks);
    const { mean, variance, spread, decks } = of.leaks!;
    const dB = ({ re, im }: { re: number; im: number }) => 20 * Math.log10(Math.hypot(re, im));
    expect(learnedLeaksText(of)).toBe(
      say(
        statement('learned-leaks', {
          decks: decks!,
          degrees: Math.atan((mean.rightIntoLeft.re - mean.leftIntoRight.re) / 2) / DEG,
          uncertainty: (2 * Math.atan(Math.sqrt(variance.tilt))) / DEG,
          left: dB(mean.leftIntoRight),
          right: dB(mean.rightIntoLeft),
          spread: Math.atan(spread!.tilt) / DEG,
        }),
      ),
    );
    const { spread: _, ...noSpread } = of.leaks!;
    const { decks: __, ...noDecks } = of.leaks!;
    for (const older of [noSpread, noDecks, undefined]) {
      expect(learnedLeaksText({ ...of, leaks: older } as LearnedRecord)).toBeNull();
    }
    const nothing = { re: 0, im: 0 };
    const silent = { ...of, leaks: { ...of.leaks!, mean: { leftIntoRight: nothing, rightIntoLeft: nothing } } };
    expect(learnedLeaksText(silent)).toContain('−120');
  });

  it('a file that is none of these is refused with its place', () => {
    const text = JSON.stringify(learn(leaks));
    expect(parseLearned(`\uFEFF${text}`, 'x.json')).toEqual({ ok: true, learned: learn(leaks) });
    const why = (json: string) => {
      const of = parseLearned(json, 'x.json');
      return of.ok ? null : of.why;
    };
    expect(why('{')).toEqual(statement('learned-not-json', { file: 'x.json' }));
    expect(why('3')).toMatchObject({ code: 'learned-odd', values: { file: 'x.json', place: 'the whole' } });
    expect(why(text.replace('"decks":10', '"decks":9'))).toMatchObject({
      values: { place: expect.stringMatching(/decks$/) },
    });
    const mean = JSON.parse(text);
    mean.leaks.mean.leftIntoRight.re = 1.1;
    expect(why(JSON.stringify(mean))).toMatchObject({ values: { place: 'leaks.mean.leftIntoRight.re' } });
  });
});

describe('what a document’s findings tell of the record', () => {
  const left = { quantity: 'separation-left-to-right', value: 28, complex: { re: 0.04, im: 0.01 } };
  const right = { quantity: 'separation-right-to-left', value: 28, complex: { re: 0.05, im: -0.01 } };

  it('leaks where both are there, figures as they were heard', () => {
    expect(deckReading([left, right])).toEqual({
      leaks: { leftIntoRight: left.complex, rightIntoLeft: right.complex },
    });
    expect(deckReading([left])).toEqual({});
    expect(deckReading([right])).toEqual({});
    for (const [quantity, key] of [
      ['channel-balance', 'balanceDb'],
      ['speed-error', 'speedPercent'],
    ]) {
      expect(deckReading([{ quantity, value: 0.3 }])).toEqual({ [key]: 0.3 });
      expect(deckReading([{ quantity, value: 0.3, asHeard: 0 }])).toEqual({ [key]: 0 });
      expect(deckReading([{ quantity, value: 'x' }])).toEqual({});
    }
    expect(deckReading([])).toEqual({});
  });
});
