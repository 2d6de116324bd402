import { describe, expect, it } from 'vitest';
import { earthVerdict, type HumLevel, humChange, humLevel, TOUCHED_PARTS, type TouchedPart } from './earthCheck.ts';

const at = (db: number, uncertaintyDb = 0.3): HumLevel => ({ db, uncertaintyDb, rises: true });
const free = at(-50);

describe('levels of hum', () => {
  // Student's t of 95 % from a table, from memory: 12.7, 4.3, 3.2, 2.8, then near enough to 2.5
  it.each([
    [2, 12.7],
    [3, 4.3],
    [4, 3.2],
    [5, 2.8],
    [6, 2.5],
    [9, 2.5],
  ])('%d seconds that scatter: their standard deviation of the mean, %d times', (count, factor) => {
    const levels = Array.from({ length: count }, (_, i) => -60 + (i % 3));
    const mean = levels.reduce((a, b) => a + b) / count;
    const spread = Math.sqrt(levels.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (count - 1));
    const of = humLevel(levels.map((db, i) => ({ db, spreadDb: 0.01, rises: i === 1 })));
    expect(of).toEqual({
      db: expect.closeTo(mean, 9),
      uncertaintyDb: expect.closeTo((factor * spread) / Math.sqrt(count), 9),
      rises: true,
    });
  });

  it('seconds that agree: their own spreads, k = 2; no second that rises is none', () => {
    const of = humLevel([0.3, 0.4].map((spreadDb) => ({ db: -60, spreadDb, rises: false })));
    expect(of).toEqual({ db: -60, uncertaintyDb: expect.closeTo(0.5, 9), rises: false });
    expect(() => humLevel([])).toThrow(/0 given/);
  });

  it('a change is touched less free', () => {
    expect(humChange(at(-60, 3), at(-50, 4))).toEqual({ db: 10, uncertaintyDb: 5 });
  });
});

describe('which joint is bad', () => {
  const none = Object.fromEntries(TOUCHED_PARTS.map((part) => [part, free])) as Record<TouchedPart, HumLevel>;

  it('from 3 dB on, up or down, and by more than both uncertainties', () => {
    const joint = (db: number, u = 0.3) => earthVerdict(at(-50, u), { ...none, arm: at(db, u) }).code;
    for (const db of [-53, -47]) expect(joint(db)).toBe('earth-joint-arm');
    for (const db of [-52.9, -47.1]) expect(joint(db)).toBe('earth-all-joined');
    for (const sign of [1, -1]) {
      expect(joint(-50 + 5 * sign, 5 / Math.SQRT2)).toBe('earth-joint-arm');
      expect(joint(-50 + 5 * sign, 3.6)).toBe('earth-all-joined');
    }
  });

  it.each(TOUCHED_PARTS.map((part, i) => [part, i] as const))('%s takes notice alone', (part, i) => {
    const notices = { [part]: at(-60) };
    expect(earthVerdict(free, { ...none, ...notices }).code).toBe(`earth-joint-${part}`);
    // what lies nearer to the preamp must have been tried, what lies further off need not
    const nearer = Object.fromEntries(TOUCHED_PARTS.slice(0, i).map((one) => [one, free]));
    expect(earthVerdict(free, { ...nearer, ...notices }).code).toBe(`earth-joint-${part}`);
    for (const missing of TOUCHED_PARTS.slice(0, i)) {
      const { [missing]: _, ...rest } = { ...nearer, ...notices } as Partial<Record<TouchedPart, HumLevel>>;
      expect(earthVerdict(free, rest).code).toBe('earth-go-on');
    }
  });

  it('nothing takes notice: on with what is left, else all are joined', () => {
    for (const part of TOUCHED_PARTS) {
      const { [part]: _, ...rest } = none;
      expect(earthVerdict(free, rest).code).toBe('earth-go-on');
    }
    expect(earthVerdict(free, none).code).toBe('earth-all-joined');
  });
});
