import { describe, expect, it } from 'vitest';
import { earthVerdict, type HumLevel, humChange, humLevel } from './earthCheck.ts';

const at = (db: number, uncertaintyDb = 0.3, rises = true): HumLevel => ({ db, uncertaintyDb, rises });
const free = at(-50);
const held = at(-64);
const same = at(-50.4);

describe('levels of hum', () => {
  it('the mean of its seconds; their scatter with Student’s factor, or their own spread, is the ±', () => {
    const second = (db: number, spreadDb: number) => ({ db, spreadDb, rises: true });
    const steady = humLevel([second(-60, 0.3), second(-60, 0.3), second(-60, 0.3)]);
    expect(steady.db).toBe(-60);
    expect(steady.uncertaintyDb).toBeCloseTo((2 * 0.3) / Math.sqrt(3), 6);
    const jumping = humLevel([second(-58, 0.3), second(-60, 0.3), second(-62, 0.3)]);
    // s = 2 dB, t = 4.3 for three readings (a table of Student's t, from memory)
    expect(jumping.uncertaintyDb).toBeCloseTo((4.3 * 2) / Math.sqrt(3), 6);
    expect(() => humLevel([second(-60, 0.3)])).toThrow(/1 given/);
    expect(humChange(at(-50, 0.3), at(-60, 0.4))).toEqual({ db: -10, uncertaintyDb: 0.5 });
  });
});

describe('which joint is bad', () => {
  const all = { 'arm-earth': same, arm: same, headshell: same, chassis: same };

  it('lies just past the last part that takes notice, seen from the tip', () => {
    expect(earthVerdict(free, { ...all, headshell: held }).code).toBe('earth-joint-headshell');
    expect(earthVerdict(free, { ...all, headshell: held, arm: held }).code).toBe('earth-joint-arm');
    expect(earthVerdict(free, { 'arm-earth': held, arm: held, headshell: held, chassis: same }).code).toBe(
      'earth-joint-arm-earth',
    );
    expect(earthVerdict(free, { ...all, chassis: held }).code).toBe('earth-joint-chassis');
  });

  it('a hand that adds hum tells as much as one that takes it away', () => {
    expect(earthVerdict(free, { ...all, arm: at(-40) }).code).toBe('earth-joint-arm');
  });

  it('a change within its own ± or under 3 dB is none', () => {
    expect(earthVerdict(free, { ...all, arm: at(-52.5) }).code).toBe('earth-all-joined');
    expect(earthVerdict(free, { ...all, arm: at(-58, 9) }).code).toBe('earth-all-joined');
  });

  it('goes on while something nearer to the preamp was not touched, and says so where there is no hum', () => {
    expect(earthVerdict(free, { headshell: held }).code).toBe('earth-go-on');
    expect(earthVerdict(free, { 'arm-earth': held }).code).toBe('earth-joint-arm-earth');
    expect(earthVerdict(free, {}).code).toBe('earth-go-on');
    expect(earthVerdict(at(-98, 0, false), all)).toEqual({ code: 'earth-no-hum', values: { db: -98 } });
  });
});
