import { expect, it } from 'vitest';
import { LevelTrace } from './levelTrace.ts';

it('stays bounded and keeps the mean power, however long the capture', () => {
  for (const stretches of [10, 4096, 50_000]) {
    const trace = new LevelTrace();
    for (let i = 0; i < stretches; i++) trace.add(i % 2 === 0 ? 0.02 : 0, 1e-20);
    const { timesS, leftDb, rightDb } = trace.overview(0.04, stretches * 0.04);
    expect(timesS.length).toBeLessThanOrEqual(4096);
    expect(timesS.length).toBe(leftDb.length);
    expect(timesS[timesS.length - 1]).toBeLessThanOrEqual(stretches * 0.04);
    const mean = leftDb.reduce((sum, db) => sum + 10 ** (db / 10), 0) / leftDb.length;
    expect(mean).toBeCloseTo(0.01, 4);
    expect(Math.max(...rightDb)).toBe(-120);
  }
});
