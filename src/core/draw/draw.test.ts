import { describe, expect, test } from 'vitest';
import { pivotedArm } from '../geometry/arm.ts';
import type { CriterionName } from '../geometry/criteria.ts';
import { closedFormArm } from '../geometry/solve.ts';
import { namedSpans, ownSpan } from '../geometry/span.ts';
import { say } from '../words/statement.ts';
import { arcTemplate } from './arcTemplate.ts';
import { brokenLines, textWidth, winAnsi } from './lettering.ts';
import { outline, printerScale } from './outline.ts';
import { barAcross, barDown, speedWords } from './paper.ts';
import { toPdf } from './pdf.ts';
import { armPlan } from './plan.ts';
import { circle, type Drawing, line, polygon, type Shape, type Text, text } from './shape.ts';
import { ringWords, strobeDisc, strobeRing } from './strobe.ts';
import { toSvg } from './svg.ts';
import { twoPointTemplate } from './twoPoint.ts';

/** Corners of everything that a shape covers, generous for text. */
function corners(shape: Shape): (readonly [number, number])[] {
  if (shape.shape === 'text') {
    const width = textWidth(shape.text, shape.size);
    const from = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? -width / 2 : -width;
    const [c, s] = [Math.cos(shape.angle), Math.sin(shape.angle)];
    return [from, from + width].flatMap((along) =>
      [0.22 * shape.size, -0.75 * shape.size].map((up): [number, number] => [
        shape.x + along * c - up * s,
        shape.y + along * s + up * c,
      ]),
    );
  }
  return outline(shape).flatMap((segment) => (segment.op === 'close' ? [] : [[segment.x, segment.y] as const]));
}

const outside = (drawing: Drawing, margin: number): Shape[] =>
  drawing.shapes.filter((shape) =>
    corners(shape).some(
      ([x, y]) => !(x >= margin && y >= margin && x <= drawing.width - margin && y <= drawing.height - margin),
    ),
  );

type Point = readonly [number, number];

/** Straight pieces of what a shape draws. */
function strokes(shape: Shape): (readonly [Point, Point])[] {
  if (shape.shape === 'text') return [];
  if (shape.shape === 'arc') {
    const count = Math.max(12, Math.ceil(Math.abs(shape.to - shape.from) * shape.r));
    const at = (i: number): Point => {
      const a = shape.from + ((shape.to - shape.from) * i) / count;
      return [shape.cx + shape.r * Math.cos(a), shape.cy + shape.r * Math.sin(a)];
    };
    return Array.from({ length: count }, (_, i) => [at(i), at(i + 1)] as const);
  }
  const ends: Point[] = outline(shape).flatMap((s) => (s.op === 'close' ? [] : [[s.x, s.y] as const]));
  return ends.slice(1).map((end, i) => [ends[i], end] as const);
}

/** Whether a stroke comes nearer to the middle of the words' height than a third of their size, somewhere along them. */
function strikes(words: Text): (stroke: readonly [Point, Point]) => boolean {
  const width = textWidth(words.text, words.size);
  const from = words.anchor === 'start' ? 0 : words.anchor === 'middle' ? -width / 2 : -width;
  const [c, s] = [Math.cos(words.angle), Math.sin(words.angle)];
  const half = 0.35 * words.size;
  const local = ([x, y]: Point): Point => [
    (x - words.x) * c + (y - words.y) * s - from,
    (y - words.y) * c - (x - words.x) * s + 0.3 * words.size,
  ];
  const reach = width + words.size;
  return ([p, q]) => {
    if (Math.min(p[0], q[0]) > words.x + reach || Math.max(p[0], q[0]) < words.x - reach) return false;
    if (Math.min(p[1], q[1]) > words.y + reach || Math.max(p[1], q[1]) < words.y - reach) return false;
    const [[a, down], [b, under]] = [local(p), local(q)];
    if (Math.min(a, b) > width || Math.max(a, b) < 0) return false;
    if (Math.min(down, under) > half || Math.max(down, under) < -half) return false;
    return Array.from({ length: 21 }, (_, i) => i / 20).some((t) => {
      const along = a + t * (b - a);
      return along > 0 && along < width && Math.abs(down + t * (under - down)) < half;
    });
  };
}

/** Words that a line strikes through, and words that lie on other words. */
function clashes({ shapes }: Drawing): string[] {
  const all = shapes.flatMap((shape) => (shape.shape === 'text' && shape.text.trim() !== '' ? [shape] : []));
  const lines = shapes.flatMap(strokes);
  const middleLine = (words: Text): readonly [Point, Point] => {
    const [a, , b] = corners(words) as [Point, Point, Point, Point];
    const [c, s] = [Math.cos(words.angle), Math.sin(words.angle)];
    const up: Point = [0.5 * words.size * s, -0.5 * words.size * c];
    return [
      [a[0] + up[0], a[1] + up[1]],
      [b[0] + up[0], b[1] + up[1]],
    ];
  };
  const middles = all.map(middleLine);
  return all.flatMap((words, i) => {
    const struckBy = strikes(words);
    return [
      ...(lines.some(struckBy) ? [`a line goes through "${words.text}"`] : []),
      ...all
        .filter((other, j) => j > i && words.text.length + other.text.length > 2 && struckBy(middles[j]))
        .map((other) => `"${words.text}" lies on "${other.text}"`),
    ];
  });
}

const request = (
  d: number,
  span: (typeof namedSpans)[number],
  paper: 'a4' | 'letter',
  criterion: CriterionName = 'lofgren-a',
) => {
  const solved = closedFormArm({ length: { known: 'spindle-to-pivot', mm: d }, span, criterion });
  if (!solved.found) throw new Error(solved.why.code);
  return { figures: solved.value.figures, span, criterion: 'Löfgren A: equal peaks', paper, measured: null };
};
const words = (drawings: readonly Drawing[]): string =>
  drawings.flatMap(({ shapes }) => shapes.flatMap((shape) => (shape.shape === 'text' ? [shape.text] : []))).join(' ');

describe('templates', () => {
  test('everything lies on the paper, 5 mm from its edge, for every span, arm and paper', () => {
    let sheets = 0;
    for (const paper of ['a4', 'letter'] as const) {
      for (const span of namedSpans) {
        for (const d of [180, 222, 300, 450]) {
          for (const make of [twoPointTemplate, arcTemplate]) {
            const drawn = make(request(d, span, paper));
            if (!drawn.found) throw new Error(drawn.why.code);
            for (const sheet of drawn.value.sheets) {
              sheets += 1;
              expect(outside(sheet, 5), `${sheet.title} ${paper} ${span.name} ${d}`).toEqual([]);
            }
          }
        }
      }
    }
    expect(sheets).toBeGreaterThan(150);
  });

  test('no words lie on a line or on other words, for every span, arm, criterion and paper', () => {
    const faults: string[] = [];
    for (const paper of ['a4', 'letter'] as const) {
      for (const span of [...namedSpans, ownSpan(54, 75)]) {
        // with 437 mm on Letter and 474 mm on A4 the pivot comes to lie beside the upper bar
        const long =
          span === namedSpans[0] ? ([[437, 'lofgren-a'] as const, [474, 'lofgren-a'] as const] as const) : [];
        for (const [d, criterion] of [[180, 'stevenson'], [222, 'lofgren-a'], [450, 'stevenson'], ...long] as const) {
          for (const make of [twoPointTemplate, arcTemplate]) {
            const drawn = make(request(d, span, paper, criterion));
            if (!drawn.found) throw new Error(drawn.why.code);
            for (const sheet of drawn.value.sheets) {
              faults.push(...clashes(sheet).map((fault) => `${sheet.title} ${paper} ${span.name} ${d}: ${fault}`));
            }
          }
        }
      }
    }
    expect(faults).toEqual([]);
  });

  test('every word is 2.5 mm high or more, from the top of a tall letter to the foot of a low one', () => {
    // Helvetica's metrics, Adobe core 14 AFM: ascender 718, descender −207 thousandths of the size
    const heightOf = (size: number): number => ((718 + 207) / 1000) * size;
    for (const paper of ['a4', 'letter'] as const) {
      const disc = strobeDisc(50, [100 / 3, 45, 78.26], paper).drawing;
      const templates = [222, 450].flatMap((d) =>
        [twoPointTemplate, arcTemplate].flatMap((make) => {
          const drawn = make(request(d, ownSpan(54, 75), paper, 'lofgren-a'));
          if (!drawn.found) throw new Error(drawn.why.code);
          return drawn.value.sheets;
        }),
      );
      const low = [disc, ...templates].flatMap(({ shapes }) =>
        shapes.flatMap((shape) => (shape.shape === 'text' && heightOf(shape.size) < 2.5 ? [shape.text] : [])),
      );
      expect(low).toEqual([]);
    }
  });

  test('drawn larger for a printer that shrinks, everything still lies on the paper', () => {
    for (const paper of ['a4', 'letter'] as const) {
      for (const make of [twoPointTemplate, arcTemplate]) {
        const drawn = make(request(222, namedSpans[0], paper, 'lofgren-a'));
        if (!drawn.found) throw new Error(drawn.why.code);
        for (const sheet of drawn.value.sheets) {
          const middle = { x: sheet.width / 2, y: sheet.height / 2 };
          const { x: sx, y: sy } = printerScale(95);
          for (const shape of sheet.shapes) {
            const places =
              shape.shape === 'text'
                ? [[middle.x + (shape.x - middle.x) * sx, middle.y + (shape.y - middle.y) * sy]]
                : outline(shape, { x: sx, y: sy }, middle).flatMap((s) => (s.op === 'close' ? [] : [[s.x, s.y]]));
            for (const [x, y] of places) {
              expect(x > 0 && y > 0 && x < sheet.width && y < sheet.height, `${JSON.stringify(shape)}`).toBe(true);
            }
          }
        }
      }
    }
  });

  test('says what each line is for, the numbers it was drawn for, and the cautions', () => {
    for (const make of [twoPointTemplate, arcTemplate]) {
      const drawn = make(request(222, namedSpans[0], 'a4'));
      if (!drawn.found) throw new Error(drawn.why.code);
      const said = words(drawn.value.sheets);
      for (const part of [
        'effective length 239.30 mm',
        'overhang 17.30 mm',
        'offset 22.99°',
        '66.00',
        '120.89',
        'Grooves from 60.325 to 146.05 mm',
        'power off',
        'platter still',
        'stylus guard on',
        '100 mm across',
        '100 mm down',
        'prick the cross',
        'front of the headshell',
        'clockwise',
        'rim',
        'Tip on the cross',
        'print again with what they measure',
      ]) {
        expect(said).toContain(part);
      }
    }
    const arc = arcTemplate(request(222, namedSpans[0], 'a4'));
    if (!arc.found) throw new Error(arc.why.code);
    expect(words(arc.value.sheets)).toContain(
      'sight line: must point at the centre of the pivot, 222.00 mm from the spindle',
    );
    expect(words(arc.value.sheets).replaceAll(' ', '')).toContain('tipfollowsthisarc');
  });

  test('a correction is printed on the sheet', () => {
    const drawn = twoPointTemplate({ ...request(222, namedSpans[0], 'a4'), measured: [99.4, 100.2] });
    if (!drawn.found) throw new Error(drawn.why.code);
    expect(words(drawn.value.sheets)).toContain('makes 99.4 mm of 100 mm across and 100.2 mm down');
  });

  test('what cannot be drawn is refused with its reason', () => {
    const base = request(222, namedSpans[0], 'a4');
    expect(twoPointTemplate({ ...base, figures: { ...base.figures, nullPointsMm: [] } })).toMatchObject({
      found: false,
    });
    const wide = ownSpan(60, 190);
    const far = arcTemplate(request(222, wide, 'a4'));
    expect(far).toMatchObject({ found: false });
    expect(!far.found && say(far.why)).toContain('does not fit across A4 paper; it must be at most 168 mm');
    const straight = { ...base.figures, spindleToPivotMm: null, effectiveLengthMm: null };
    expect(arcTemplate({ ...base, figures: straight })).toMatchObject({ found: false });
  });
});

describe('strobe', () => {
  test('lies on the paper; each ring says its speed', () => {
    for (const paper of ['a4', 'letter'] as const) {
      const { drawing, rings } = strobeDisc(50, [100 / 3, 45, 78.26, 50 / 3, 80], paper);
      expect(outside(drawing, 5)).toEqual([]);
      const said = words([drawing]).replaceAll(' ', '');
      for (const [bars, speed] of [
        [180, '33⅓'],
        [133, '45.113'],
        [77, '77.922'],
        [360, '16⅔'],
        [75, '80'],
      ]) {
        expect(said).toContain(`${bars}barsstandstillat${speed}rpm`);
      }
      expect(rings.map((ring) => ring.bars)).toEqual([180, 133, 77, 360, 75]);
      expect(said).toContain('Printat100%');
    }
  });

  test('bars drift backward where the ring stands for more than the speed', () => {
    const ring = strobeRing(50, 45);
    expect(ring.driftBarsPerMinute).toBeCloseTo(-15, 10);
    expect(ringWords(ring)).toBe(
      '45 rpm: 133 bars stand still at 45.113 rpm (+0.251 %); at 45 they creep backward 15.0 bars a minute',
    );
    expect(ringWords(strobeRing(60, 45))).toBe('45 rpm: 160 bars, exact');
    // 33.33 would be no exact speed of any ring
    expect(ringWords(strobeRing(50, 100 / 3))).toBe('33⅓ rpm: 180 bars, exact');
    // against the angle itself: from flash to flash at 45 rpm the ring turns a little less than one bar
    const perFlash = ((45 / 60) * 133) / 100;
    expect(perFlash).toBeLessThan(1);
  });

  test('refusals', () => {
    expect(() => strobeRing(Number.NaN, 33)).toThrow('mains is NaN Hz');
    expect(() => strobeRing(50, 0)).toThrow('speed is 0 rpm');
    expect(() => strobeDisc(50, [], 'a4')).toThrow('0 speeds were given');
  });
});

describe('outlines', () => {
  test('arcs in pieces of 15° keep within 3 µm of the circle', () => {
    const r = 300;
    let [x0, y0, worst] = [0, 0, 0];
    for (const s of outline(circle(10, 20, r))) {
      if (s.op === 'curve') {
        for (let t = 0; t <= 1; t += 0.05) {
          const u = 1 - t;
          const x = u ** 3 * x0 + 3 * u * u * t * s.x1 + 3 * u * t * t * s.x2 + t ** 3 * s.x;
          const y = u ** 3 * y0 + 3 * u * u * t * s.y1 + 3 * u * t * t * s.y2 + t ** 3 * s.y;
          worst = Math.max(worst, Math.abs(Math.hypot(x - 10, y - 20) - r));
        }
      }
      if (s.op !== 'close') [x0, y0] = [s.x, s.y];
    }
    expect(worst).toBeLessThan(0.003);
    expect(worst).toBeGreaterThan(0);
  });

  test('a printer that makes 99 mm of 100 is drawn for at 100/99', () => {
    expect(outline(line(0, 0, 99, 50), printerScale(99, 100))[1]).toEqual({ op: 'line', x: 100, y: 50 });
    expect(printerScale(99)).toEqual({ x: 100 / 99, y: 100 / 99 });
    expect(() => printerScale(90)).toThrow(
      'what the printer made of 100 mm across the paper (at 100 %, not fitted to the page) is 90 mm; from 95 to 105 mm was expected',
    );
    expect(() => printerScale(100, Number.NaN)).toThrow(
      '100 mm down the paper (at 100 %, not fitted to the page) is NaN mm',
    );
  });
});

describe('lettering', () => {
  test('widths: known sums, and characters the font has not', () => {
    expect(textWidth('mm', 10)).toBeCloseTo(2 * 8.33, 10);
    expect(textWidth('33⅓', 10)).toBeCloseTo(textWidth('33 1/3', 10), 10);
    expect(winAnsi('±1°–ö')).toEqual([0xb1, 0x31, 0xb0, 0x96, 0xf6]);
    expect(winAnsi('漢')).toEqual([0x3f]);
  });

  test('lines are broken at blanks and keep every word', () => {
    const sentence = 'slide the cartridge forward if the tip stays inside the arc';
    const lines = brokenLines(sentence, 2.5, 30);
    expect(lines.join(' ')).toBe(sentence);
    expect(lines.length).toBeGreaterThan(1);
    for (const broken of lines) expect(textWidth(broken, 2.5)).toBeLessThanOrEqual(30);
  });
});

describe('files', () => {
  const drawing: Drawing = {
    title: 'A & B',
    width: 100,
    height: 50,
    shapes: [
      line(10, 10, 20, 10),
      polygon(
        [
          [1, 1],
          [2, 1],
          [2, 2],
        ],
        true,
      ),
      text(5, 40, '1 < 2 & 3 ± 0.1°', { anchor: 'end', angle: 0.5 }),
    ],
  };

  test('PDF: every object stands where the table says, streams have their stated length', () => {
    const pdf = Buffer.from(toPdf([drawing, drawing])).toString('latin1');
    expect(pdf.startsWith('%PDF-1.6\n')).toBe(true);
    expect(pdf.endsWith('%%EOF\n')).toBe(true);
    const start = Number(/startxref\n(\d+)/.exec(pdf)?.[1]);
    const rows = pdf.slice(start).split('\n').slice(3, 11);
    expect(pdf.slice(start, start + 9)).toBe('xref\n0 9\n');
    rows.forEach((row, i) => {
      expect(pdf.slice(Number(row.slice(0, 10))).startsWith(`${i + 1} 0 obj`)).toBe(true);
    });
    const streams = [...pdf.matchAll(/\/Length (\d+) >>\nstream\n([\s\S]*?)\nendstream/g)];
    expect(streams.length).toBe(2);
    for (const [, length, content] of streams) expect(content.length).toBe(Number(length));
    expect(pdf).toContain('/PrintScaling /None');
    expect(pdf).not.toContain('Date');
    expect(() => toPdf([])).toThrow('0 drawings');
  });

  test('SVG: sizes in mm, text escaped, roles as classes', () => {
    const svg = toSvg(drawing);
    expect(svg).toContain('width="100mm" height="50mm" viewBox="0 0 100 50"');
    expect(svg).toContain('1 &lt; 2 &amp; 3 ± 0.1°');
    expect(svg).toContain('<title>A &amp; B</title>');
    expect(svg).toContain('class="ink" d="M10 10L20 10"');
  });
});

test('speeds as the trade writes them', () => {
  expect([100 / 3, 50 / 3, 45, 78.26, 33.3, 80].map(speedWords)).toEqual(['33⅓', '16⅔', '45', '78.26', '33.3', '80']);
});

test('plan view: tip on its groove, nulls on the tip’s path, everything on the drawing', () => {
  const arm = pivotedArm(222, 239.296, 0.401173);
  const span = namedSpans[0];
  const plan = armPlan(arm, span, { radius: 100, asItStands: pivotedArm(222, 243, 0.35) });
  expect(outside(plan, 0)).toEqual([]);
  const circles = plan.shapes.flatMap((shape) => (shape.shape === 'arc' ? [shape] : []));
  const spindle = circles.find(({ r }) => Math.abs(r - 3.62) < 1e-9);
  const pivot = circles.filter(({ r }) => r === 12).at(-1);
  const tip = circles.filter(({ r }) => r === 1.2).at(-1);
  if (!spindle || !pivot || !tip) throw new Error('parts are missing');
  const apart = (a: { cx: number; cy: number }, b: { cx: number; cy: number }) => Math.hypot(a.cx - b.cx, a.cy - b.cy);
  expect(apart(spindle, tip)).toBeCloseTo(100, 9);
  expect(apart(pivot, tip)).toBeCloseTo(239.296, 9);
  expect(apart(spindle, pivot)).toBeCloseTo(222, 9);
  expect(pivot.cx).toBeGreaterThan(spindle.cx); // to the right
  expect(pivot.cy).toBeLessThan(spindle.cy); // and to the rear
  const nulls = circles.filter(({ r }) => r === 2.6);
  expect(nulls.map((n) => +apart(n, spindle).toFixed(2))).toEqual([66, 120.89]);
  for (const n of nulls) expect(apart(n, pivot)).toBeCloseTo(239.296, 6);
});

describe('the bars that prove the scale', () => {
  test.each([
    ['across', barAcross(12, 30), (x: number, y: number) => [x - 12, y - 30]],
    ['down', barDown(30, 12), (x: number, y: number) => [y - 12, x - 30]],
  ] as const)('the one %s is 100 mm long between its long ticks, with a tick every 10 mm', (_, shapes, along) => {
    const lines = shapes.flatMap((shape) => (shape.shape === 'line' ? [shape] : []));
    const ends = lines.map(({ x1, y1, x2, y2 }) => [along(x1, y1), along(x2, y2)] as const);
    const [bar, ...ticks] = ends;
    expect(bar).toEqual([
      [0, 0],
      [100, 0],
    ]);
    expect(ticks.map(([[from], [to]]) => [from, to])).toEqual(Array.from({ length: 11 }, (_, i) => [10 * i, 10 * i]));
    const lengths = ticks.map(([[, from], [, to]]) => Math.abs(to - from));
    expect(lengths.filter((length) => length === Math.max(...lengths)).length).toBe(2);
    expect([lengths[0], lengths[10]]).toEqual([6, 6]);
  });

  test('in the PDF, whose unit is 1/72 of an inch of 25.4 mm', () => {
    const drawing: Drawing = { title: 't', width: 210, height: 297, shapes: [line(10, 20, 110, 20)] };
    const pdf = Buffer.from(toPdf([drawing])).toString('latin1');
    const [, x1, x2] = /([-\d.]+) [-\d.]+ m ([-\d.]+) [-\d.]+ l S/.exec(pdf)?.map(Number) ?? [];
    expect(x2 - x1).toBeCloseTo((100 / 25.4) * 72, 2);
    expect(pdf).toMatch(/MediaBox \[0 0 595\.2\d+ 841\.8\d+\]/);
  });
});

test('strobe: a ring that is no true match is lettered with the speed that it stands still at', () => {
  // 12000 flashes in two minutes at 50 Hz: 45 rpm wants 133.33 bars, 133 stand for 45.113 rpm
  const words = (rpm: number) => {
    const { drawing } = strobeDisc(50, [rpm], 'a4');
    return drawing.shapes.flatMap((shape) => (shape.shape === 'text' ? [shape.text] : [])).join('');
  };
  expect(words(45)).toContain('45: 133 bars stand still at 45.113 rpm');
  expect(words(100 / 3)).toContain('33⅓: 180 bars stand still at 33⅓ rpm');
});

test('strobe: a bar is as wide as the gap beside it', () => {
  const { drawing, rings } = strobeDisc(50, [100 / 3], 'a4');
  const bars = drawing.shapes.flatMap((shape) => (shape.shape === 'polygon' ? [shape.points] : []));
  const width = Math.hypot(bars[0][1][0] - bars[0][2][0], bars[0][1][1] - bars[0][2][1]);
  expect(width).toBeCloseTo(2 * 90 * Math.sin(Math.PI / rings[0].bars / 2), 9);
});
