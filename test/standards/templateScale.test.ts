/**
 * Templates are true to scale: the PDF is rendered at 600 dpi and the distances between null crosses, spindle, pivot and arc
 * are measured in its pixels, within ±0.05 mm; the PDF's own path coordinates and the SVG's are held to 1 µm.
 * poppler-utils is needed for the pixels; npm test installs it.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { arcTemplate } from '../../src/core/draw/arcTemplate.ts';
import { printerScale, trueScale } from '../../src/core/draw/outline.ts';
import type { PaperName } from '../../src/core/draw/paper.ts';
import { toPdf } from '../../src/core/draw/pdf.ts';
import type { Line } from '../../src/core/draw/shape.ts';
import { strobeDisc } from '../../src/core/draw/strobe.ts';
import { toSvg } from '../../src/core/draw/svg.ts';
import type { Template } from '../../src/core/draw/template.ts';
import { twoPointTemplate } from '../../src/core/draw/twoPoint.ts';
import { solveArm } from '../../src/core/geometry/solve.ts';
import { grooveSpan } from '../../src/core/geometry/span.ts';

const DPI = 600;
const PIXEL = 25.4 / DPI;
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-scale-'));
  expect(spawnSync('pdftoppm', ['-v']).error).toBeUndefined();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function template(kind: 'two-point' | 'arc', d: number, paper: PaperName, measured: readonly [number, number] | null) {
  const span = grooveSpan('12in');
  const solved = solveArm({ length: { known: 'spindle-to-pivot', mm: d }, span, criterion: 'lofgren-a' });
  if (!solved.found) throw new Error(solved.why.code);
  const request = { figures: solved.value.figures, span, criterion: 'Löfgren A', paper, measured };
  const drawn = kind === 'arc' ? arcTemplate(request) : twoPointTemplate(request);
  if (!drawn.found) throw new Error(drawn.why.code);
  return { template: drawn.value, figures: solved.value.figures };
}

/** Darkness of a rendered page between two pixels, 0 to 1. */
class Raster {
  readonly width: number;
  readonly height: number;
  private readonly bytes: Buffer;
  private readonly start: number;
  constructor(file: string) {
    this.bytes = readFileSync(file);
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(this.bytes.subarray(0, 40).toString('latin1'));
    if (head === null) throw new Error('not a grey map');
    this.width = Number(head[1]);
    this.height = Number(head[2]);
    this.start = head[0].length;
  }
  /** x and y in mm from the paper's top left corner; pixel centres stand half a pixel in. */
  dark(x: number, y: number): number {
    const [px, py] = [x / PIXEL - 0.5, y / PIXEL - 0.5];
    const [ix, iy] = [Math.floor(px), Math.floor(py)];
    let sum = 0;
    for (const [dx, dy] of [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ]) {
      const value = this.bytes[this.start + (iy + dy) * this.width + ix + dx];
      sum += (1 - value / 255) * (dx ? px - ix : 1 - px + ix) * (dy ? py - iy : 1 - py + iy);
    }
    return sum;
  }
}

function render(pdf: Uint8Array, page: number): Raster {
  const name = join(folder, 'sheet.pdf');
  writeFileSync(name, pdf);
  execFileSync('pdftoppm', [
    '-r',
    String(DPI),
    '-gray',
    '-f',
    String(page),
    '-l',
    String(page),
    '-singlefile',
    name,
    join(folder, 'sheet'),
  ]);
  return new Raster(join(folder, 'sheet.pgm'));
}

type Point = readonly [number, number];

/** Where a place of the drawing comes to lie on the page: stretched by 100/x and 100/y about the middle of the paper. */
type OnPage = (x: number, y: number) => Point;
const onPage =
  ({ width, height }: { width: number; height: number }, measured: readonly [number, number] | null): OnPage =>
  (x, y) =>
    measured === null
      ? [x, y]
      : [width / 2 + ((x - width / 2) * 100) / measured[0], height / 2 + ((y - height / 2) * 100) / measured[1]];
const ends = (line: Line, page: OnPage): readonly number[] => [...page(line.x1, line.y1), ...page(line.x2, line.y2)];

/** Where a dark line really crosses a probe through (x, y) along the unit vector (nx, ny): centroid within ±0.35 mm. */
function crossing(raster: Raster, [x, y]: Point, [nx, ny]: Point): Point {
  let [mass, moment] = [0, 0];
  for (let s = -0.35; s <= 0.35; s += 0.005) {
    const d = raster.dark(x + s * nx, y + s * ny);
    mass += d;
    moment += d * s;
  }
  if (!(mass > 3)) throw new Error(`no line was found at ${x.toFixed(2)}, ${y.toFixed(2)} mm`);
  return [x + (moment / mass) * nx, y + (moment / mass) * ny];
}

/** The straight line that is really there: fitted through probes at shares of the drawn line. */
function seenLine(raster: Raster, line: Line, page: OnPage, shares: readonly number[]): readonly [Point, Point] {
  const [x1, y1, x2, y2] = ends(line, page);
  const length = Math.hypot(x2 - x1, y2 - y1);
  const normal: Point = [-(y2 - y1) / length, (x2 - x1) / length];
  const found = shares.map((t) => crossing(raster, [x1 + t * (x2 - x1), y1 + t * (y2 - y1)], normal));
  const half = found.length / 2;
  const mean = (points: readonly Point[]): Point => [
    points.reduce((sum, p) => sum + p[0], 0) / points.length,
    points.reduce((sum, p) => sum + p[1], 0) / points.length,
  ];
  return [mean(found.slice(0, half)), mean(found.slice(half))];
}

function intersection([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): Point {
  const [r, s] = [
    [b[0] - a[0], b[1] - a[1]],
    [d[0] - c[0], d[1] - c[1]],
  ];
  const t = ((c[0] - a[0]) * s[1] - (c[1] - a[1]) * s[0]) / (r[0] * s[1] - r[1] * s[0]);
  return [a[0] + t * r[0], a[1] + t * r[1]];
}

/** A cross of two plain lines of ±6 mm: spindle and pivot. */
function seenCross(raster: Raster, x: number, y: number, page: OnPage): Point {
  const bar = (x1: number, y1: number, x2: number, y2: number): Line => ({
    shape: 'line',
    x1,
    y1,
    x2,
    y2,
    role: 'ink',
    width: 0.1,
  });
  const shares = [0.04, 0.08, 0.12, 0.88, 0.92, 0.96];
  return intersection(
    seenLine(raster, bar(x - 6, y, x + 6, y), page, shares),
    seenLine(raster, bar(x, y - 6, x, y + 6), page, shares),
  );
}

const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** The paper as this printer makes it: what a ruler on the print would say of two places on the raster. */
const printed = ([x, y]: Point, measured: readonly [number, number] | null): Point =>
  measured === null ? [x, y] : [(x * measured[0]) / 100, (y * measured[1]) / 100];

const cases = [
  ['two-point', 222, 'a4', null],
  ['two-point', 222, 'letter', [99.4, 100.3]],
  ['arc', 215, 'a4', null],
  ['arc', 200, 'letter', [100.6, 99.7]],
  ['arc', 290, 'a4', null],
  ['arc', 222, 'a4', [96.2, 103.1]],
] as const;

describe.each(cases)('%s sheet for %d mm on %s, printer %j', (kind, d, paper, measured) => {
  const { template: drawn, figures } = template(kind, d, paper, measured);
  const scale = measured === null ? trueScale : printerScale(measured[0], measured[1]);
  const pdf = toPdf(drawn.sheets, scale);
  const page = onPage(drawn.sheets[0], measured);

  test('in pixels at 600 dpi', () => {
    const raster = render(pdf, 1);
    const spindle = printed(seenCross(raster, drawn.spindle.x, drawn.spindle.y, page), measured);
    const shares = [0.03, 0.06, 0.1, 0.68, 0.72, 0.76];
    const report: string[] = [];
    for (const [i, point] of drawn.points.entries()) {
      const { along, across } = point.crossing;
      const seen = printed(
        intersection(
          seenLine(raster, along, page, shares),
          seenLine(raster, across, page, [0.05, 0.18, 0.22, 0.78, 0.82, 0.95]),
        ),
        measured,
      );
      const miss = distance(seen, spindle) - figures.nullPointsMm[i];
      report.push(`null ${i + 1} ${miss.toFixed(4)}`);
      expect(Math.abs(miss)).toBeLessThanOrEqual(0.05);
    }
    if (kind === 'arc' && drawn.pivot?.sheet === 0 && figures.effectiveLengthMm !== null) {
      const pivot = printed(seenCross(raster, drawn.pivot.x, drawn.pivot.y, page), measured);
      const toPivot = distance(spindle, pivot) - d;
      report.push(`spindle to pivot ${toPivot.toFixed(4)}`);
      expect(Math.abs(toPivot)).toBeLessThanOrEqual(0.05);
      // the tip's arc, probed towards the pivot at radii that are free of ticks and grids
      for (const r of [95.5, 96.5, 106, 139]) {
        const bearing = Math.acos((d * d + r * r - figures.effectiveLengthMm ** 2) / (2 * d * r));
        const at = page(drawn.spindle.x + r * Math.sin(bearing), drawn.spindle.y - r * Math.cos(bearing));
        const [px, py] = page(drawn.pivot.x, drawn.pivot.y);
        const way: Point = [px - at[0], py - at[1]];
        const length = Math.hypot(...way);
        const seen = printed(crossing(raster, at, [way[0] / length, way[1] / length]), measured);
        const miss = distance(seen, pivot) - figures.effectiveLengthMm;
        report.push(`arc at ${r} ${miss.toFixed(4)}`);
        expect(Math.abs(miss)).toBeLessThanOrEqual(0.05);
      }
    }
    console.log(`${kind} ${d} ${paper}: misses in mm: ${report.join(', ')}`);
  });

  test('in the PDF’s own path coordinates', () => {
    const text = Buffer.from(pdf).toString('latin1');
    const height = Number(/MediaBox \[0 0 [\d.]+ ([\d.]+)\]/.exec(text)?.[1]);
    const lines = [...text.matchAll(/([-\d.]+) ([-\d.]+) m ([-\d.]+) ([-\d.]+) l S/g)].map((m) =>
      m.slice(1, 5).map((value, i) => ((i % 2 === 0 ? Number(value) : height - Number(value)) * 25.4) / 72),
    );
    const sees = (line: Line): boolean =>
      lines.some((found) => ends(line, page).every((value, i) => Math.abs(value - found[i]) < 0.001));
    expect(drawn.points.length).toBe(2);
    for (const [i, { crossing: cross, x, y }] of drawn.points.entries()) {
      expect(sees(cross.along)).toBe(true);
      expect(sees(cross.across)).toBe(true);
      expect(Math.abs(Math.hypot(x - drawn.spindle.x, y - drawn.spindle.y) - figures.nullPointsMm[i])).toBeLessThan(
        1e-9,
      );
    }
    // hairlines: 0.1 mm
    const widths = new Set(
      [...text.matchAll(/([\d.]+) w /g)].map((m) => Number(((Number(m[1]) * 25.4) / 72).toFixed(4))),
    );
    expect([...widths]).toEqual([0.1]);
  });

  test('in the SVG’s coordinates', () => {
    const svg = toSvg(drawn.sheets[0], scale);
    const size =
      paper === 'a4'
        ? 'width="210mm" height="297mm" viewBox="0 0 210 297"'
        : 'width="215.9mm" height="279.4mm" viewBox="0 0 215.9 279.4"';
    expect(svg).toContain(size);
    const lines = [...svg.matchAll(/d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"/g)].map((m) =>
      m.slice(1, 5).map(Number),
    );
    for (const { crossing: cross } of drawn.points) {
      for (const line of [cross.along, cross.across]) {
        const wanted = ends(line, page);
        expect(lines.some((found) => wanted.every((value, i) => Math.abs(value - found[i]) < 0.0001))).toBe(true);
      }
    }
  });
});

test('the 100 mm bars measure 100 mm on the print of a printer that is off', () => {
  const measured = [99.4, 100.3] as const;
  const scale = printerScale(...measured);
  const { template: drawn } = template('arc', 215, 'a4', measured);
  const raster = render(toPdf(drawn.sheets, scale), 1);
  const page = onPage(drawn.sheets[0], measured);
  const ticks = drawn.sheets[0].shapes.filter((shape): shape is Line => shape.shape === 'line');
  const longTicks = (across: boolean) =>
    ticks.filter((line) =>
      across
        ? line.x1 === line.x2 && Math.abs(line.y2 - line.y1 - 6) < 1e-9
        : line.y1 === line.y2 && Math.abs(line.x2 - line.x1 - 6) < 1e-9,
    );
  const [left, right] = longTicks(true);
  const [top, bottom] = longTicks(false);
  const end = (line: Line, across: boolean): Point => {
    const at: Point = across ? page(line.x1, line.y1 + 1) : page(line.x1 + 1, line.y1);
    return printed(crossing(raster, at, across ? [1, 0] : [0, 1]), measured);
  };
  const acrossMm = distance(end(left, true), end(right, true));
  const downMm = distance(end(top, false), end(bottom, false));
  console.log(`bars on the print: ${acrossMm.toFixed(3)} mm across, ${downMm.toFixed(3)} mm down`);
  expect(Math.abs(acrossMm - 100)).toBeLessThanOrEqual(0.05);
  expect(Math.abs(downMm - 100)).toBeLessThanOrEqual(0.05);
});

test('tiles meet: the join marks of two sheets stand the same way from spindle and pivot', () => {
  for (const [d, paper, count] of [
    [290, 'a4', 2],
    [290, 'letter', 2],
    [450, 'a4', 2],
    [450, 'letter', 3],
  ] as const) {
    const drawn: Template = template('arc', d, paper, null).template;
    expect(drawn.sheets.length).toBe(count);
    const marks = (sheet: number) =>
      drawn.sheets[sheet].shapes.flatMap((shape) =>
        shape.shape === 'arc' && Math.abs(shape.r - 2.5) < 1e-12 ? [{ x: shape.cx, y: shape.cy }] : [],
      );
    const pivot = drawn.pivot;
    if (pivot === null) throw new Error('no pivot');
    // laid mark on mark, the way from the spindle to the pivot must be d in all
    let lift = 0;
    for (let i = 0; i + 1 < count; i++) {
      const upper = marks(i).filter(({ y }) => y < 100);
      const lower = marks(i + 1).filter(({ y }) => y > 100);
      expect(upper.map(({ x }) => x)).toEqual(lower.map(({ x }) => x));
      expect(upper.length).toBe(2);
      lift += lower[0].y - upper[0].y;
      expect(lower[1].y).toBe(lower[0].y);
    }
    expect(drawn.spindle.y + lift - pivot.y).toBeCloseTo(d, 9);
    expect(pivot.x).toBe(drawn.spindle.x);
  }
});

test('the same sheet is the same file, to the byte', () => {
  const once = toPdf(template('arc', 222, 'a4', null).template.sheets);
  const again = toPdf(template('arc', 222, 'a4', null).template.sheets);
  expect(Buffer.from(once).equals(Buffer.from(again))).toBe(true);
});

test('strobe bars: as many as the ring says, equal in pitch, as wide as the gaps, in pixels', () => {
  const { drawing, rings } = strobeDisc(50, [100 / 3, 45, 78.26], 'a4');
  const raster = render(toPdf([drawing]), 1);
  const hole = drawing.shapes.find((shape) => shape.shape === 'arc' && Math.abs(shape.r - 3.62) < 1e-9);
  if (hole?.shape !== 'arc') throw new Error('no spindle hole');
  rings.forEach((ring, k) => {
    const r = 85.5 - k * 13.5;
    const starts: number[] = [];
    let darkSteps = 0;
    let before = raster.dark(hole.cx + r * Math.cos(0.001), hole.cy + r * Math.sin(0.001)) > 0.5;
    const steps = 40_000;
    for (let i = 1; i <= steps; i++) {
      const a = 0.001 + (2 * Math.PI * i) / steps;
      const now = raster.dark(hole.cx + r * Math.cos(a), hole.cy + r * Math.sin(a)) > 0.5;
      if (now) darkSteps += 1;
      if (now && !before) starts.push(a);
      before = now;
    }
    expect(starts.length).toBe(ring.bars);
    expect(darkSteps / steps).toBeCloseTo(0.5, 1);
    const pitch = (2 * Math.PI) / ring.bars;
    // a pixel is 0.04 mm, a pitch 3 mm and more
    for (const [i, start] of starts.entries()) {
      expect(Math.abs(start - starts[0] - i * pitch) * r, `bar ${i} of ${ring.bars}`).toBeLessThan(0.06);
    }
  });
});
