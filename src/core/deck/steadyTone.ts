/**
 * A tone or two tones in the steady state, through tip, cartridge and preamp, without noise and at constant speed: the
 * exact periodic solution on a grid of phases, with its harmonics and combination tones. No running filter takes part.
 */
import { type Both, captureAt, generatorsAt } from './chain.ts';
import type { Deck } from './deck.ts';
import { axisOf, cutVelocity } from './groove.ts';
import { type Complex, scaled } from './response.ts';
import type { Sheet, SheetBand } from './sheet.ts';
import { bandShift } from './tracking.ts';

/** Complex amplitudes (peak) of the lines m·f1 + n·f2 in the capture, full scale ±1; phases against the cut tone's cosine. */
export interface SteadyTone {
  /** f1 and f2 as played, Hz; f2 is 0 for a single tone */
  readonly hz: readonly [number, number];
  line(m: number, n: number): Both;
}

/** points of the grid along each phase */
const GRID = 48;

/** A grid of rows × columns, complex. */
interface Grid {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * @param speed mean speed ratio while the band plays
 */
export function steadyTone(deck: Deck, sheet: Sheet, band: SheetBand, radiusMm: number, speed: number): SteadyTone {
  const v = cutVelocity(band);
  const two = band.signal === 'two-tone';
  const [f1, f2] = two ? [...band.frequenciesHz!].sort((a, b) => a - b) : [band.frequencyHz!, 0];
  const ratio = band.ratio ?? 4;
  const v1 = two ? (v * ratio) / (1 + ratio) : v;
  const v2 = two ? v / (1 + ratio) : 0;
  const omega1 = 2 * Math.PI * f1;
  const omega2 = 2 * Math.PI * f2;
  const axis = axisOf(band, sheet);
  const kappa = bandShift(deck, sheet, band, radiusMm);
  const columns = two ? GRID : 1;
  const size = GRID * columns;

  // Tip velocity along the axis on the grid: w = u + κS(w), both phases running on by ω(w − u).
  const along: Grid = { re: new Float64Array(size), im: new Float64Array(size) };
  for (let i = 0; i < GRID; i++) {
    for (let j = 0; j < columns; j++) {
      const p1 = (2 * Math.PI * i) / GRID;
      const p2 = (2 * Math.PI * j) / GRID;
      let ahead = 0;
      let slope = 0;
      for (let round = 0; round < 60; round++) {
        const a1 = p1 + omega1 * ahead;
        const a2 = p2 + omega2 * ahead;
        const reach = (v1 / omega1) * Math.sin(a1) + (two ? (v2 / omega2) * Math.sin(a2) : 0);
        slope = v1 * Math.cos(a1) + v2 * Math.cos(a2);
        const step = (kappa * reach - ahead) / (1 - kappa * slope);
        ahead += step;
        if (Math.abs(step) * (omega1 + omega2) < 1e-14) break;
      }
      along.re[i * columns + j] = (slope * speed) / (1 - kappa * slope);
    }
  }

  const order = (k: number, n: number) => (k < n / 2 ? k : k - n);
  const hzOf = (index: number) =>
    speed * (order(Math.floor(index / columns), GRID) * f1 + order(index % columns, columns) * f2);
  /** Applies a response to every line; a negative frequency takes the conjugate. */
  const shaped = (lines: Both[], respond: (pair: Both, hz: number) => Both): Both[] =>
    lines.map((pair, index) => {
      const hz = hzOf(index);
      if (hz >= 0) return respond(pair, hz);
      const answer = respond({ left: conjugate(pair.left), right: conjugate(pair.right) }, -hz);
      return { left: conjugate(answer.left), right: conjugate(answer.right) };
    });

  const cut = transform(along, columns, -1);
  const tip: Both[] = Array.from({ length: size }, (_, k) => {
    const line = { re: cut.re[k] / size, im: cut.im[k] / size };
    return { left: scaled(line, axis.x), right: scaled(line, axis.y) };
  });
  const generators = shaped(tip, ({ left: x, right: y }, hz) => generatorsAt(deck, x, y, hz));

  const bent = (channel: 'left' | 'right') => {
    const grid: Grid = {
      re: Float64Array.from(generators, (pair) => pair[channel].re),
      im: Float64Array.from(generators, (pair) => pair[channel].im),
    };
    const wave = transform(grid, columns, 1);
    const second = (2 * deck.cartridge.secondHarmonicPercent[channel]) / 100 / sheet.referenceVelocityCmS;
    const third = deck.cartridge.thirdHarmonicPercent[channel] / 100;
    const cube = (4 * third) / sheet.referenceVelocityCmS ** 2;
    const out: Grid = { re: new Float64Array(size), im: new Float64Array(size) };
    for (let k = 0; k < size; k++) {
      const u = wave.re[k];
      out.re[k] = u + second * u * u + (cube * u * u - 3 * third) * u;
    }
    const lines = transform(out, columns, -1);
    // What does not alternate is not induced.
    return Array.from({ length: size }, (_, k) =>
      k === 0 ? { re: 0, im: 0 } : { re: lines.re[k] / size, im: lines.im[k] / size },
    );
  };
  const left = bent('left');
  const right = bent('right');
  const captured = shaped(
    left.map((one, k) => ({ left: one, right: right[k] })),
    (pair, hz) => captureAt(deck, pair, hz, sheet.referenceVelocityCmS),
  );
  return {
    hz: [f1 * speed, f2 * speed],
    line(m, n) {
      const at = (a: number, b: number) => captured[((a + GRID) % GRID) * columns + ((b + columns) % columns)];
      const positive = m * f1 + n * f2 >= 0;
      const pair = at(m, n);
      const peak = (value: Complex) => scaled(positive ? value : conjugate(value), 2);
      return { left: peak(pair.left), right: peak(pair.right) };
    },
  };
}

const conjugate = (a: Complex): Complex => ({ re: a.re, im: -a.im });

/** Plain Fourier sum along both ways of the grid, unscaled; direction −1 analyses, +1 puts together. */
function transform(grid: Grid, columns: number, direction: 1 | -1): Grid {
  const rows = GRID;
  const once = (from: Grid, count: number, stride: number, others: number[]): Grid => {
    const to: Grid = { re: new Float64Array(from.re.length), im: new Float64Array(from.re.length) };
    const turn = Array.from({ length: count }, (_, k) => (direction * 2 * Math.PI * k) / count);
    const cos = turn.map(Math.cos);
    const sin = turn.map(Math.sin);
    for (const base of others) {
      for (let k = 0; k < count; k++) {
        let re = 0;
        let im = 0;
        for (let i = 0; i < count; i++) {
          const at = base + i * stride;
          const t = (i * k) % count;
          re += from.re[at] * cos[t] - from.im[at] * sin[t];
          im += from.re[at] * sin[t] + from.im[at] * cos[t];
        }
        to.re[base + k * stride] = re;
        to.im[base + k * stride] = im;
      }
    }
    return to;
  };
  const byRows = once(
    grid,
    rows,
    columns,
    Array.from({ length: columns }, (_, j) => j),
  );
  if (columns === 1) return byRows;
  return once(
    byRows,
    columns,
    1,
    Array.from({ length: rows }, (_, i) => i * columns),
  );
}
