import { describe, expect, it } from 'vitest';
import { gaussian } from '../../signal/gaussian.fixture.ts';
import { BASELINE, LEAST_FOR_LIMITS, watchedFigure } from './watchedFigure.ts';

const calm = Array.from({ length: 30 }, (_, i) => [0, 1, -1, 0.5, -0.5][i % 5]);
const told = (values: readonly number[], gap: number | null = null) =>
  watchedFigure(values, gap).told.flatMap(({ signal }, i) => (signal === null ? [] : [[i, signal]]));

describe('a watched figure', () => {
  it('has limits from eight readings on, and from then on those of the first 25', () => {
    expect(watchedFigure(calm.slice(0, LEAST_FOR_LIMITS - 1)).limits).toBeNull();
    expect(watchedFigure(calm.slice(0, LEAST_FOR_LIMITS)).limits).not.toBeNull();
    const { told: readings, limits, behind } = watchedFigure([...calm, 0.2, -0.2]);
    expect(readings[7].limits).toBeNull();
    expect(readings[8].limits).not.toBeNull();
    expect([behind, limits?.centre]).toEqual([BASELINE, 0]);
    expect(readings.at(-1)?.limits).toEqual(limits);
  });

  it('a slow drift does not draw the limits along with it', () => {
    const drifting = calm.concat(Array.from({ length: 60 }, (_, i) => calm[i % 30] + i / 10));
    expect(told(drifting).some(([, signal]) => signal === 'beyond')).toBe(true);
    expect(watchedFigure(drifting).limits?.centre).toBe(0);
  });

  it('tells one reading that went off once, and not the way back', () => {
    expect(told([...calm, 9, 0.1, 0.3])).toEqual([[30, 'beyond']]);
  });

  it('tells a jump within the limits, and a run once', () => {
    const small = Array.from({ length: 25 }, (_, i) => (i % 2 === 0 ? 0.1 : -0.1));
    const { limits } = watchedFigure(small);
    expect(limits?.high).toBeCloseTo(0.004 + 2.659 * 0.2, 3);
    expect(told([...small, -0.4, 0.4])).toEqual([[26, 'jump']]);
    expect(told([...small.slice(0, 24), -0.1, 0.1, ...Array(12).fill(0.2)])).toEqual([[32, 'run']]);
  });

  it('a gap joins nothing across it', () => {
    const small = Array.from({ length: 25 }, (_, i) => (i % 2 === 0 ? 0.1 : -0.1));
    expect(told([...small, -0.4, 0.4], 26)).toEqual([]);
    expect(told([...small, ...Array(8).fill(0.2)], 29)).toEqual([]);
  });

  it('readings that are all alike give no limits, and nothing is told', () => {
    expect(watchedFigure(Array(20).fill(3)).limits).toBeNull();
    expect(told([...Array(20).fill(3), 3.1])).toEqual([]);
  });

  it('of a chain at rest: beyond, one reading in 110 with 25 behind the limits and one in 33 with eight', () => {
    const draw = gaussian(31);
    let [few, all] = [0, 0];
    const rounds = 4000;
    const isBeyond = ({ signal }: { signal: string | null }) => signal === 'beyond';
    for (let round = 0; round < rounds; round++) {
      const { told: readings } = watchedFigure(Array.from({ length: 35 }, () => draw()));
      few += isBeyond(readings[8]) ? 1 : 0;
      all += readings.slice(25).filter(isBeyond).length / 10;
    }
    expect(Math.abs(all / rounds - 1 / 110)).toBeLessThan(0.003);
    expect(Math.abs(few / rounds - 1 / 33)).toBeLessThan(0.012);
  });
});
