import { describe, expect, it } from 'vitest';
import { FloorHistory } from './floorHistory.ts';
import { LineFinder } from './lineFinder.ts';
import { covered } from './pieceEdges.ts';

/** Noise powers (two degrees of freedom a channel) falling by `slope` per bin ratio, with Hann-shaped lines on top. */
function spectrum(bins: number, slope: number, lines: readonly { bin: number; power: number }[], seed: number) {
  let state = seed;
  const draw = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  const left = Float64Array.from({ length: bins }, (_, k) => -Math.log(draw()) * ((k + 1) / 100) ** slope);
  const right = left.map((_, k) => -Math.log(draw()) * ((k + 1) / 100) ** slope);
  for (const { bin, power } of lines) {
    [0.25, 1, 0.25].forEach((share, i) => {
      left[bin - 1 + i] += share * power;
    });
  }
  return { left, power: left.map((v, k) => v + right[k]), cross: new Float64Array(bins) };
}

describe('LineFinder', () => {
  it('finds lines 20 dB over noise of any colour and next to nothing else', () => {
    let found = 0;
    let wanted = 0;
    let others = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const slope = [0, -1, -2, 1][seed % 4];
      const bins = [40, 180, 600].map((bin) => bin + (seed % 7));
      const lines = bins.map((bin) => ({ bin, power: 100 * 2 * ((bin + 1) / 100) ** slope }));
      const finder = new LineFinder(14, 900, 0.03, 8);
      const s = spectrum(1000, slope, lines, seed);
      finder.measureFloor(s.power);
      const count = finder.find(s);
      const tops = finder.found.slice(0, count).map((line) => line.top);
      wanted += 3;
      found += bins.filter((bin) => tops.some((top) => Math.abs(top - bin) <= 1)).length;
      others += tops.filter((top) => bins.every((bin) => Math.abs(top - bin) > 2)).length;
    }
    console.log(`lines 20 dB over noise: ${found} of ${wanted} found, ${others} others in 200 spectra`);
    expect(found).toBeGreaterThan(0.99 * wanted);
    expect(others).toBeLessThan(20);
  });

  it('keeps neighbours apart at the valley between them', () => {
    const s = spectrum(
      400,
      0,
      [
        { bin: 100, power: 1e6 },
        { bin: 104, power: 3e5 },
      ],
      5,
    );
    const finder = new LineFinder(14, 390, 0.03, 5);
    finder.measureFloor(s.power);
    expect(finder.find(s)).toBe(2);
    expect(finder.found[0].centre).toBeCloseTo(100, 1);
    expect(finder.found[1].centre).toBeCloseTo(104, 1);
    expect(finder.found[0].left / finder.found[1].left).toBeCloseTo(1 / 0.3, 1);
  });
});

describe('FloorHistory', () => {
  it('shows what stayed, not what came for a while', () => {
    const history = new FloorHistory(2);
    for (let i = 0; i < 100; i++) history.add(Float64Array.of(1e-4, i < 70 ? 0.5 : 1e-6), 1);
    const [steady, passing] = history.percentile(0.15);
    expect(steady).toBeGreaterThan(0.8e-4);
    expect(steady).toBeLessThan(1.25e-4);
    expect(passing).toBeLessThan(1.3e-6);
    expect(new FloorHistory(1).percentile(0.15)[0]).toBe(0);
  });
});

it('covered inverts x − sin(2πx)/2π', () => {
  for (let x = 0.15; x <= 0.85; x += 0.01) {
    expect(covered(x - Math.sin(2 * Math.PI * x) / (2 * Math.PI))).toBeCloseTo(x, 3);
  }
  expect([covered(0), covered(Number.NaN), covered(1), covered(2)]).toEqual([0, 0, 1, 1]);
});
