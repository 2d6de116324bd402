/**
 * A tone or two tones in the steady state, through tip, cartridge and preamp, without noise and at constant speed: the
 * exact periodic solution on a grid of phases, with its harmonics and combination tones. No running filter takes part.
 */

import { type Complex, conjugate, plus, scaled, times } from '../units/complex.ts';
import { displacementAt, displacementBend } from './bend.ts';
import { type Both, captureAt, generatorsAt } from './chain.ts';
import type { Deck } from './deck.ts';
import { cutLines, wallsOf, waveformOfLines } from './groove.ts';
import type { Sheet, SheetBand } from './sheet.ts';
import { tipReader } from './tipReading.ts';
import { readingAt } from './tracking.ts';

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
  const lines = cutLines(deck, sheet, band);
  const f1 = lines.find(({ m, n }) => m === 1 && n === 0)?.hz ?? 0;
  const f2 = lines.find(({ m, n }) => m === 0 && n === 1)?.hz ?? 0;
  const columns = f2 > 0 ? GRID : 1;
  const size = GRID * columns;
  const walls = wallsOf(deck, sheet, band);
  const reading = readingAt(deck, sheet, radiusMm);

  // Tip velocity on the grid: the wall's lines stand at m p1 + n p2 where the tip's place in the groove is 0.
  const tipLeft: Grid = { re: new Float64Array(size), im: new Float64Array(size) };
  const tipRight: Grid = { re: new Float64Array(size), im: new Float64Array(size) };
  const velocity = { left: 0, right: 0 };
  for (let i = 0; i < GRID; i++) {
    for (let j = 0; j < columns; j++) {
      const waveform = waveformOfLines(lines, ({ m, n }) => (m * i) / GRID + (n * j) / GRID);
      tipReader(waveform, walls, reading)(0, 1, velocity);
      tipLeft.re[i * columns + j] = velocity.left * speed;
      tipRight.re[i * columns + j] = velocity.right * speed;
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

  const cutLeft = transform(tipLeft, columns, -1);
  const cutRight = transform(tipRight, columns, -1);
  const generators = shaped(
    Array.from({ length: size }, (_, k): Both => {
      const left = { re: cutLeft.re[k] / size, im: cutLeft.im[k] / size };
      const right = { re: cutRight.re[k] / size, im: cutRight.im[k] / size };
      // lateral and vertical
      return {
        left: scaled(plus(left, right), Math.SQRT1_2),
        right: scaled(plus(left, scaled(right, -1)), Math.SQRT1_2),
      };
    }),
    ({ left: x, right: y }, hz) => generatorsAt(deck, x, y, hz),
  );
  const places = shaped(generators, ({ left, right }, hz) => {
    const by = displacementAt(hz);
    return { left: times(left, by), right: times(right, by) };
  });

  const bent = (channel: 'left' | 'right') => {
    const grid: Grid = {
      re: Float64Array.from(generators, (pair) => pair[channel].re),
      im: Float64Array.from(generators, (pair) => pair[channel].im),
    };
    const wave = transform(grid, columns, 1);
    const place = transform(
      {
        re: Float64Array.from(places, (pair) => pair[channel].re),
        im: Float64Array.from(places, (pair) => pair[channel].im),
      },
      columns,
      1,
    );
    const beta = displacementBend(deck.cartridge, channel, sheet.referenceVelocityCmS);
    const second = (2 * deck.cartridge.secondHarmonicPercent[channel]) / 100 / sheet.referenceVelocityCmS;
    const third = deck.cartridge.thirdHarmonicPercent[channel] / 100;
    const cube = (4 * third) / sheet.referenceVelocityCmS ** 2;
    const out: Grid = { re: new Float64Array(size), im: new Float64Array(size) };
    for (let k = 0; k < size; k++) {
      const u = wave.re[k];
      out.re[k] = u + second * u * u + beta * u * place.re[k] + (cube * u * u - 3 * third) * u;
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
