/** Lines of spectra written down by hand → the law that most of them follow, and the levels along it. */
import { describe, expect, it } from 'vitest';
import { followedLine, type HeardLine } from './sweepLine.ts';

const LENGTH_S = 20;
type Law = 'log' | 'linear';
const hzOf = (law: Law, from: number, to: number) => (s: number) =>
  law === 'log' ? from * (to / from) ** (s / LENGTH_S) : from + ((to - from) * s) / LENGTH_S;
const line = (s: number, hz: number, more: Partial<HeardLine> = {}): HeardLine => ({
  s,
  hz,
  left: 4e-3,
  right: 1e-3,
  re: 2e-3,
  im: 5e-4,
  noise: 1e-8,
  noiseAtOtherTimes: () => 0,
  windowS: 0.1,
  mostHzPerS: 1e9,
  ...more,
});
/** A line every twentieth of a second, as windows overlapped by half tell it. */
const sweep = (hz: (s: number) => number, more: (s: number) => Partial<HeardLine> = () => ({}), stepS = 0.05) =>
  Array.from({ length: Math.round(LENGTH_S / stepS) }, (_, i) => {
    const s = (i + 0.5) * stepS;
    return line(s, hz(s), more(s));
  });
const pace = { perHz: 0.1, perS: 0 };
const told = (lines: HeardLine[], rising = true) => followedLine(lines, { pace, rising });
const chance = (i: number): number => {
  const x = Math.sin(i * 12.9898) * 43_758.5453;
  return x - Math.floor(x);
};

describe('the law', () => {
  it.each([
    ['log', 100, 10_000],
    ['log', 10_000, 100],
    ['linear', 200, 8000],
    ['linear', 8000, 200],
  ] as const)('%s, from %i to %i Hz', (law, from, to) => {
    const { law: found, points } = told(sweep(hzOf(law, from, to)), to > from);
    expect(found!.law).toBe(law);
    const [a, b] = law === 'log' ? [Math.log(from), Math.log(to / from) / LENGTH_S] : [from, (to - from) / LENGTH_S];
    expect(found!.a / a).toBeCloseTo(1, 6);
    expect(found!.b / b).toBeCloseTo(1, 6);
    expect(points.length).toBeGreaterThan(100);
  });

  it('goes the way that is expected alone', () => {
    expect(told(sweep(hzOf('log', 100, 10_000)), false)).toEqual({ law: null, points: [] });
    expect(told(sweep(hzOf('log', 10_000, 100)), true)).toEqual({ law: null, points: [] });
  });

  it('is told among lines of hum, a pilot tone, clicks, and the sweep’s own harmonics', () => {
    const hz = hzOf('log', 100, 8000);
    const lines = [
      ...sweep(hz),
      ...sweep(
        () => 50,
        () => ({ left: 1e-3 }),
      ),
      ...sweep(
        () => 15_000,
        () => ({ left: 2e-3 }),
      ),
      ...sweep(
        (s) => 2 * hz(s),
        () => ({ left: 4e-5, right: 1e-5 }),
      ),
      ...Array.from({ length: 60 }, (_, i) => line(20 * chance(i), 20 + 9000 * chance(i + 99), { left: 1e-2 })),
    ].sort((a, b) => a.s - b.s);
    const { law, points } = told(lines);
    expect(law!.law).toBe('log');
    expect(Math.exp(law!.a)).toBeCloseTo(100, 0);
    const clear = points.filter(({ hz: f }) => f > 200 && f < 6000);
    for (const p of clear) expect(10 * Math.log10(p.left / 4e-3)).toBeCloseTo(0, 0);
  });

  it('is refined by all the lines that follow it: each by its strength', () => {
    // half of them a hair higher, and a hundredth as strong
    const hz = hzOf('log', 100, 10_000);
    const off = (s: number) => Math.round(s / 0.05) % 2 === 0;
    const lines = sweep(
      (s) => hz(s) * (off(s) ? 1.01 : 1),
      (s) => (off(s) ? { left: 4e-7, right: 1e-7 } : {}),
    );
    expect(Math.exp(told(lines).law!.a) / 100).toBeLessThan(1.003);
    const alike = sweep((s) => hz(s) * (off(s) ? 1.01 : 1));
    expect(Math.exp(told(alike).law!.a) / 100).toBeCloseTo(1.005, 3);
  });

  it('lines that lie within 2.5 % and a bin of it are its own', () => {
    const hz = hzOf('log', 500, 5000);
    const windows = sweep(hz, () => ({ windowS: 10 }), 0.2);
    const astray = (by: number) => {
      const other = line(windows[50].s, hz(windows[50].s) * by, { left: 0.5, windowS: 10 });
      return told([...windows, other]).points.some(({ left }) => left > 0.1);
    };
    expect(astray(1.0245)).toBe(true);
    expect(astray(0.976)).toBe(true);
    expect(astray(1.03)).toBe(false);
    expect(astray(0.97)).toBe(false);
  });

  it('must be followed through two fifths of the stretch', () => {
    const hz = hzOf('log', 100, 10_000);
    const part = (share: number) => [
      ...sweep(hz).filter(({ s }) => s < share * LENGTH_S),
      line(LENGTH_S - 0.01, 30, { left: 1e-9, right: 0 }),
    ];
    expect(told(part(0.43)).law).not.toBeNull();
    expect(told(part(0.36)).law).toBeNull();
  });

  it('a long window stands for as many steps as half of it is long', () => {
    const hz = hzOf('log', 10, 40);
    const sparse = (windowS: number) => sweep(hz, () => ({ windowS }), 0.7);
    expect(told(sparse(2)).law).not.toBeNull();
    expect(told(sparse(0.2)).law).toBeNull();
  });

  it('needs eight lines', () => {
    const few = (n: number) =>
      told(Array.from({ length: n }, (_, i) => line(0.25 + i / 2, 100 * 1.2 ** i, { windowS: 0.6 }))).law;
    expect(few(8)).not.toBeNull();
    expect(few(7)).toBeNull();
    expect(told([])).toEqual({ law: null, points: [] });
  });

  it('none is told of noise, or of one tone', () => {
    const noise = Array.from({ length: 300 }, (_, i) => line((LENGTH_S * i) / 300, 50 * 200 ** chance(i)));
    expect(told(noise).law).toBeNull();
    expect(told(sweep(() => 1000)).law).toBeNull();
  });
});

describe('the levels along it', () => {
  const hz = hzOf('log', 100, 10_000);
  const at = (points: ReturnType<typeof told>['points'], f: number) =>
    points.reduce((a, b) => (Math.abs(b.hz - f) < Math.abs(a.hz - f) ? b : a));

  it('ascend, a twenty-fourth of an octave each, as means of both channels and their product', () => {
    const rise = (s: number) => 1 + s / 5;
    const lines = sweep(hz, (s) => ({ left: 4e-3 * rise(s), right: 1e-3 * rise(s), re: s, im: -s }));
    const { points } = told(lines);
    expect(points.map((p) => p.hz)).toEqual([...points.map((p) => p.hz)].sort((a, b) => a - b));
    expect(points).toHaveLength(new Set(lines.map((l) => Math.floor(24 * Math.log2(l.hz)))).size);
    const bin = lines.filter((l) => Math.floor(24 * Math.log2(l.hz)) === Math.floor(24 * Math.log2(1010)));
    const mean = (of: (l: HeardLine) => number) => bin.reduce((s, l) => s + of(l), 0) / bin.length;
    const independent = Math.max(1, 0.6 * bin.length);
    const power = mean((l) => l.left + l.right);
    const byNoise = ((10 / Math.LN10) * Math.sqrt(4 * power * 1e-8 + 4e-16)) / power;
    expect(bin.length).toBeLessThanOrEqual(3);
    expect(at(points, 1010)).toEqual({
      hz: expect.closeTo(Math.exp(mean((l) => Math.log(l.hz))), 6),
      left: expect.closeTo(
        mean((l) => l.left),
        12,
      ),
      right: expect.closeTo(
        mean((l) => l.right),
        12,
      ),
      re: expect.closeTo(
        mean((l) => l.re),
        9,
      ),
      im: expect.closeTo(
        mean((l) => l.im),
        9,
      ),
      spreadDb: expect.closeTo(byNoise / Math.sqrt(independent), 9),
      noise: expect.closeTo(1e-8, 15),
      spectra: independent,
    });
  });

  it('scatter by what the lines of one show, from four of them on', () => {
    const shaken = sweep(hz, (s) => ({ left: 4e-3 * (Math.round(s * 100) % 4 === 1 ? 1 : 1.1) }), 0.02);
    const p = at(told(shaken).points, 1010);
    const middle = (10 * Math.log10(5.4 / 5)) / 2;
    expect(p.spreadDb).toBeCloseTo((1.4826 * middle) / Math.sqrt(p.spectra), 3);
  });

  it('one spectrum under a click does not count: 1.5 dB off the middle one', () => {
    const hit = (by: number) => {
      const lines = sweep(hz, () => ({}), 0.02);
      const bin = lines.filter((l) => Math.floor(24 * Math.log2(l.hz)) === Math.floor(24 * Math.log2(1010)));
      const one = lines.indexOf(bin[2]);
      lines[one] = { ...lines[one], left: 5e-3 * by - 1e-3 };
      return at(told(lines).points, 1010).left;
    };
    expect(hit(10 ** 0.16)).toBeCloseTo(4e-3, 9);
    expect(hit(10 ** -0.16)).toBeCloseTo(4e-3, 9);
    expect(hit(10 ** 0.14)).toBeGreaterThan(4.05e-3);
    expect(hit(10 ** -0.14)).toBeLessThan(3.95e-3);
  });

  it('two levels far apart in one count both: none is in the middle', () => {
    const lines = sweep(hz, (s) => ({ left: Math.round(s * 40) % 4 === 1 ? 4e-2 : 4e-3 }), 0.05);
    const { points } = told(lines);
    const pairs = points.filter(({ spectra, left }) => spectra === 1.2 && left > 5e-3 && left < 3.9e-2);
    expect(pairs.length).toBeGreaterThan(3);
    for (const { left } of pairs) expect(left).toBeCloseTo(2.2e-2, 9);
  });

  it('of two lines of one spectrum the stronger is the sweep’s', () => {
    const lines = [
      ...sweep(hz, () => ({ left: 1e-3 })),
      ...sweep((s) => 1.01 * hz(s)),
      ...sweep(
        (s) => 0.995 * hz(s),
        () => ({ left: 2e-3 }),
      ),
    ];
    const { points } = told(lines.sort((a, b) => a.s - b.s));
    for (const p of points) expect(p.left).toBeCloseTo(4e-3, 12);
    // windows of another length are spectra of their own
    const both = [...sweep(hz, () => ({ windowS: 0.2, left: 2e-3 })), ...sweep(hz)].sort((a, b) => a.s - b.s);
    expect(told(both).points.some((p) => Math.abs(p.left - 3e-3) < 1e-6)).toBe(true);
  });

  it('a line that passed faster than its window allows has lost power', () => {
    // log: the pace is b·f, of 10 kHz 2303 Hz/s
    const { points } = told(sweep(hz, () => ({ mostHzPerS: 1000 })));
    const top = points.at(-1)!.hz;
    expect((Math.log(100) / 20) * top).toBeLessThan(1000);
    expect((Math.log(100) / 20) * top).toBeGreaterThan(930);
    const linear = (mostHzPerS: number) => told(sweep(hzOf('linear', 200, 8200), () => ({ mostHzPerS }))).points.length;
    expect([linear(399) > 0, linear(401) > 0]).toEqual([false, true]);
    const down = sweep(hzOf('linear', 8200, 200), () => ({ mostHzPerS: 399 }));
    expect(told(down, false).points).toEqual([]);
  });

  it('what lies there while the sweep is elsewhere is taken off, where it was less beside the line', () => {
    const noisy = (noise: number, other: number) =>
      at(told(sweep(hz, () => ({ noise, noiseAtOtherTimes: () => other }))).points, 1010);
    expect(noisy(1e-6, 3e-6)).toMatchObject({
      left: expect.closeTo(4e-3 - 2e-6, 12),
      right: expect.closeTo(1e-3 - 2e-6, 12),
      noise: expect.closeTo(3e-6, 15),
    });
    expect(noisy(3e-6, 1e-6)).toMatchObject({ left: expect.closeTo(4e-3, 12), noise: expect.closeTo(3e-6, 15) });
    // nothing falls below none; and where nothing is left in either there is no point
    const faint = sweep(hz, () => ({ noise: 0, noiseAtOtherTimes: () => 1e-9, right: 1e-10, left: 4e-3 }));
    expect(at(told(faint).points, 1010).right).toBe(0);
    const gone = sweep(hz, () => ({ noise: 0, noiseAtOtherTimes: () => 1 }));
    expect(told(gone)).toMatchObject({ points: [] });
  });

  it('a level less sure than 0.6 dB is none', () => {
    // one line each: 4.34 √(4 P N + 4 N²)/P
    const sure = (share: number) =>
      told(sweep(hz, () => ({ noise: 5e-3 * share, left: 4e-3, right: 1e-3 }), 0.2)).points.length > 0;
    const limit = 0.6 / (10 / Math.LN10) / 2;
    const share = (Math.sqrt(1 + 4 * limit ** 2) - 1) / 2;
    expect(sure(share * 0.98)).toBe(true);
    expect(sure(share * 1.3)).toBe(false);
  });

  describe('a steady line', () => {
    const steady = (hz0: number, share: number, power: number, s0 = 0) => {
      const lines = sweep(hz);
      const of = sweep(
        () => hz0,
        () => ({ left: power, right: 0 }),
      ).filter(({ s }) => s >= s0 && s < s0 + share * LENGTH_S && Math.abs(hz(s) / hz0 - 1) > 0.2);
      const { points } = told([...lines, ...of].sort((a, b) => a.s - b.s));
      return points.some((p) => Math.abs(p.hz / hz0 - 1) < 0.015);
    };

    it('takes out the levels that it lies among, where it lasts through three tenths of the stretch', () => {
      expect(steady(1000, 0, 1e-3)).toBe(true);
      expect(steady(1000, 0.9, 1e-3)).toBe(false);
      expect(steady(1000, 0.33, 1e-3)).toBe(false);
      expect(steady(1000, 0.27, 1e-3)).toBe(true);
    });

    it('unless it is weaker by a factor of 3000 and more', () => {
      expect(steady(1000, 0.9, 5e-3 * 3.2e-4)).toBe(false);
      expect(steady(1000, 0.9, 5e-3 * 2.8e-4)).toBe(true);
    });

    it('reaches as far as the bins that were summed', () => {
      const lines = sweep(hz, () => ({ mostHzPerS: 2500 }));
      const of = sweep(
        () => 1000,
        () => ({ left: 1e-3, right: 0, mostHzPerS: 2500 }),
      ).filter(({ s }) => Math.abs(hz(s) / 1000 - 1) > 0.2);
      const { points } = told([...lines, ...of].sort((a, b) => a.s - b.s));
      // 2500 · 0.1 + 3/0.1 to either side
      const near = points.map((p) => Math.abs(p.hz - 1000)).filter((off) => off < 600);
      expect(Math.min(...near)).toBeGreaterThan(262);
      expect(Math.min(...near)).toBeLessThan(320);
    });
  });
});
