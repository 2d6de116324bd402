import { describe, expect, it } from 'vitest';
import { pointScatter, pointSpan, SpeedStrip, STRIP_STEP_S } from './speedStrip.ts';

/** a tone whose frequency is f0 · (1 + percent(t)/100), by its exact phase */
function strip(rate: number, seconds: number, phaseS: (t: number) => number, noise = 0) {
  const one = new SpeedStrip(rate);
  one.tune(3150);
  const all: (number | null)[] = [];
  let fromS: number | null = null;
  const block = 700;
  const [left, right] = [new Float64Array(block), new Float64Array(block)];
  for (let from = 0; from < seconds * rate; from += block) {
    for (let i = 0; i < block; i++) {
      const n = from + i;
      left[i] = right[i] = 0.2 * Math.sin(2 * Math.PI * 3150 * phaseS(n / rate)) + noise * Math.sin(n * n * 0.7);
    }
    one.push({ left, right, frames: block });
    const points = one.take();
    if (points !== null && points.percent.length > 0) {
      fromS ??= points.fromS;
      all.push(...points.percent);
    }
  }
  return { percent: all, fromS: fromS ?? 0 };
}

describe('the strip of speed', () => {
  it.each([44_100, 48_000, 96_000])('a steady error at every point, %i Hz', (rate) => {
    const { percent } = strip(rate, 1, (t) => 1.003 * t);
    const told = percent.filter((one) => one !== null).slice(2);
    expect(told.length).toBeGreaterThan(90);
    for (const one of told) expect(Math.abs(one - 0.3)).toBeLessThan(0.002);
  });

  it('wow once a turn, at the time where it is', () => {
    const hz = 0.5556;
    // ∫ a cos(2πht) dt
    const { percent, fromS } = strip(
      48_000,
      4,
      (t) => t + (0.002 * Math.sin(2 * Math.PI * hz * t)) / (2 * Math.PI * hz),
    );
    percent.forEach((one, i) => {
      // between two windows: their middles lie one step apart, each window a step wide on either side
      const t = fromS + i * STRIP_STEP_S - STRIP_STEP_S / 2;
      if (one !== null && i > 2) expect(Math.abs(one - 0.2 * Math.cos(2 * Math.PI * hz * t))).toBeLessThan(0.004);
    });
    expect(percent.filter((one) => one !== null).length).toBeGreaterThan(380);
  });

  it('where the tone is gone there is no point; another tone begins anew; without one nothing is told', () => {
    const one = new SpeedStrip(48_000);
    expect(one.take()).toBeNull();
    one.tune(3150);
    const [left, right] = [new Float64Array(48_000), new Float64Array(48_000)];
    for (let n = 0; n < 48_000; n++)
      left[n] = right[n] = n > 20_000 && n < 30_000 ? 0 : Math.sin((2 * Math.PI * 3150 * n) / 48_000);
    one.push({ left, right, frames: 48_000 });
    const first = one.take();
    const gone = first?.percent.slice(45, 60) ?? [];
    expect(gone).toEqual(gone.map(() => null));
    expect(first?.percent.slice(5, 35).every((x) => x !== null)).toBe(true);
    // found a little nearer is the same tone
    one.tune(3152);
    expect(one.take()?.tone).toBe(first?.tone);
    one.tune(1000);
    expect(one.take()?.tone).toBe((first?.tone ?? 0) + 1);
    one.tune(null);
    expect(one.take()).toBeNull();
  });

  it('tells what single points scatter', () => {
    const noisy = strip(48_000, 2, (t) => t, 0.01).percent.slice(3);
    const spread = Math.sqrt(noisy.reduce<number>((sum, x) => sum + (x ?? 0) ** 2, 0) / noisy.length);
    const told = pointScatter(noisy) ?? 0;
    expect(told / (2 * spread)).toBeGreaterThan(0.6);
    expect(told / (2 * spread)).toBeLessThan(2);
    expect(pointScatter([0, 1, null, 2])).toBeNull();
  });

  it('spans what is drawn without the points where samples vanished', () => {
    const wow = Array.from({ length: 1200 }, (_, i) => (i % 300 === 7 ? null : 0.1 * Math.sin(i / 30)));
    expect(pointSpan(wow)?.high).toBeCloseTo(0.1, 3);
    const jumped = wow.map((one, i) => (i % 250 === 0 ? 3 : i % 250 === 1 ? -3 : one));
    expect(pointSpan(jumped)?.high).toBeCloseTo(0.1, 3);
    expect(pointSpan(jumped)?.low).toBeCloseTo(-0.1, 3);
    expect(pointSpan([null, 0.3, -0.2])).toEqual({ low: -0.2, high: 0.3 });
    expect(pointSpan([null])).toBeNull();
  });
});
