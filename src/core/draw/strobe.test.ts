import { expect, test } from 'vitest';
import type { Drawing, Shape, Text } from './shape.ts';
import { ringWords, speedNames, strobeDisc, strobeRing } from './strobe.ts';
import { toldShape } from './told.fixture.ts';

const bars = ({ shapes }: Drawing) => shapes.flatMap((shape) => (shape.shape === 'polygon' ? [shape] : []));
const letters = ({ shapes }: Drawing): Text[] =>
  shapes.flatMap((shape) => (shape.shape === 'text' && [...shape.text].length === 1 ? [shape] : []));
const others = ({ shapes }: Drawing): Shape[] =>
  shapes.filter((shape) => shape.shape !== 'polygon' && !(shape.shape === 'text' && [...shape.text].length === 1));

test('a ring, whole: 60 Hz flash 7200 times a minute', () => {
  expect(strobeRing(60, 78.26)).toEqual({
    nominalRpm: 78.26,
    bars: 92,
    standsForRpm: 7200 / 92,
    errorPercent: 100 * (7200 / 92 / 78.26 - 1),
    driftBarsPerMinute: 78.26 * 92 - 7200,
  });
  expect(strobeRing(50, 100 / 3)).toMatchObject({ bars: 180, standsForRpm: 100 / 3 });
});

test('a ring is as near to the speed as whole bars let it, at every speed and mains', () => {
  for (const mains of [40, 50, 60, 70]) {
    for (let rpm = 10; rpm <= 120; rpm += 5.5) {
      const { bars, standsForRpm, errorPercent, driftBarsPerMinute } = strobeRing(mains, rpm);
      const still = (n: number): number => (120 * mains) / n;
      // by drift, which is what a person sees
      const drift = (n: number): number => Math.abs(rpm * n - 120 * mains);
      expect(drift(bars)).toBeLessThanOrEqual(Math.min(drift(bars - 1), drift(bars + 1)));
      expect(standsForRpm).toBeCloseTo(still(bars), 9);
      expect(errorPercent).toBeCloseTo((100 * (still(bars) - rpm)) / rpm, 9);
      expect(driftBarsPerMinute).toBeCloseTo(rpm * bars - 120 * mains, 9);
    }
  }
});

test('mains and speeds just outside their bounds are refused by name', () => {
  for (const [mains, rpm, why] of [
    [39.9, 33, 'mains is 39.9 Hz'],
    [70.1, 33, 'mains is 70.1 Hz'],
    [50, 9.9, 'speed is 9.9 rpm'],
    [50, 120.1, 'speed is 120.1 rpm'],
  ] as const) {
    expect(() => strobeRing(mains, rpm)).toThrow(why);
  }
});

test('bars creep forward where the ring stands for less than the speed', () => {
  // 12000 in two minutes over 77 bars: 77.922
  expect(ringWords(strobeRing(50, 78.26))).toBe(
    '78.26 rpm: 77 bars stand still at 77.922 rpm (−0.432 %); at 78.26 they creep forward 26.0 bars a minute',
  );
  expect(ringWords(strobeRing(50, 80))).toBe('80 rpm: 75 bars, exact');
});

test('the names of the speeds', () => {
  expect(speedNames).toEqual({ '16': 50 / 3, '33': 100 / 3, '45': 45, '78': 78.26, '80': 80 });
});

test('each ring has its bars evenly about the spindle, the first straight up, as wide as the gaps, 9 mm high and 4.5 mm apart', () => {
  const { drawing, rings } = strobeDisc(60, [45, 100 / 3], 'letter');
  const drawn = bars(drawing);
  expect(drawn).toHaveLength(160 + 216);
  const [cx, cy] = [215.9 / 2 - 3, 8 + 4 + 90 + 4];
  let first = 0;
  rings.forEach((ring, k) => {
    const outer = 90 - 13.5 * k;
    for (let i = 0; i < ring.bars; i++) {
      const middle = -Math.PI / 2 + (2 * Math.PI * i) / ring.bars;
      const half = Math.PI / 2 / ring.bars;
      const corner = (r: number, a: number) => [cx + r * Math.cos(a), cy + r * Math.sin(a)].map((v) => +v.toFixed(6));
      const { points, filled } = drawn[first + i];
      expect(filled).toBe(true);
      expect(points.map((point) => point.map((v) => +v.toFixed(6)))).toEqual([
        corner(outer - 9, middle - half),
        corner(outer, middle - half),
        corner(outer, middle + half),
        corner(outer - 9, middle + half),
      ]);
    }
    first += ring.bars;
  });
});

test('the words of each ring stand 3 mm inside its bars, their middle straight up', () => {
  const { drawing } = strobeDisc(50, [100 / 3, 45], 'a4');
  const [cx, cy] = [102, 106];
  const at = letters(drawing).map(({ x, y, size, anchor, text }) => ({
    r: +Math.hypot(x - cx, y - cy).toFixed(6),
    a: Math.atan2(x - cx, cy - y),
    size,
    anchor,
    text,
  }));
  for (const [r, speed] of [
    [78, '33⅓: 180 bars stand still at 33⅓ rpm'],
    [64.5, '45: 133 bars stand still at 45.113 rpm'],
  ] as const) {
    const ring = at.filter((letter) => letter.r === r);
    expect(ring.map(({ text }) => text).join('')).toContain(speed);
    expect(ring.every(({ size, anchor }) => size === 2.75 && anchor === 'middle')).toBe(true);
    const [from, to] = [ring[0].a, ring[ring.length - 1].a];
    expect(from).toBeLessThan(0);
    expect(Math.abs(from + to)).toBeLessThan(0.02);
  }
  expect(at.every(({ r }) => r === 78 || r === 64.5)).toBe(true);
});

test('all else on the sheet, line for line', () => {
  const { drawing } = strobeDisc(50, [45], 'a4', [99.4, 100.2]);
  const { title, width, height } = drawing;
  expect([title, width, height]).toEqual(['Platterside strobe disc, 50 Hz', 210, 297]);
  expect(others(drawing).map(toldShape)).toEqual([
    'arc 102 106 93 0 6.283',
    'text 102 15.4 middle: cut out along this circle',
    'arc 102 106 3.62 0 6.283',
    'arc 102 106 0.6 0 6.283',
    'line 96 106 108 106',
    'line 102 100 102 112',
    'text 102 115 middle: spindle: prick the cross,',
    'text 102 118.438 middle: cut out to the circle, 7.24 mm',
    'text 102 97 middle size 3: 50 Hz lamp',
    'text 12 208: Platterside strobe disc for 50 Hz mains: a lamp on it flashes 100 times a second. From the outside in.',
    'text 12 212.813: 45 rpm: 133 bars stand still at 45.113 rpm (+0.251 %); at 45 they creep backward 15.0 bars a minute',
    'text 12 217.625: Use a filament or neon lamp, or a lamp known to flash with the mains; most lamps with an electronic supply do not. Bars that creep with the',
    'text 12 221.063: rotation: the deck runs fast; against it: slow. The mains itself is off by up to 0.1 % at times.',
    'text 12 225.875: Print at 100 %, not fitted to the page, so that the hole fits the spindle; the bars tell the same speed at any size. Play a record while you look:',
    'text 12 229.313: the stylus’s drag counts. Mind the arm and the stylus; keep sleeves and hair clear of the turning platter.',
    'text 12 234.125: Corrected for a printer that makes 99.4 mm of 100 mm across and 100.2 mm down: both bars must now measure 100.0 mm.',
    'line 20 283 120 283',
    'line 20 280 20 286',
    'line 30 282 30 283',
    'line 40 282 40 283',
    'line 50 282 50 283',
    'line 60 282 60 283',
    'line 70 281 70 283',
    'line 80 282 80 283',
    'line 90 282 90 283',
    'line 100 282 100 283',
    'line 110 282 110 283',
    'line 120 280 120 286',
    'text 70 286.2 middle: 100 mm across, between the long ticks: lay a steel ruler here before use',
    'line 196 185 196 285',
    'line 193 185 199 185',
    'line 196 195 197 195',
    'line 196 205 197 205',
    'line 196 215 197 215',
    'line 196 225 197 225',
    'line 196 235 198 235',
    'line 196 245 197 245',
    'line 196 255 197 255',
    'line 196 265 197 265',
    'line 196 275 197 275',
    'line 193 285 199 285',
    'text 194.4 235 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use',
  ]);
});

test('a disc holds one to five speeds', () => {
  const five = [16, 33, 45, 78, 80];
  expect(strobeDisc(50, five, 'a4').rings).toHaveLength(5);
  expect(() => strobeDisc(50, [...five, 100], 'a4')).toThrow('6 speeds were given; a disc holds 1 to 5');
  expect(() => strobeDisc(50, [], 'a4')).toThrow('0 speeds were given; a disc holds 1 to 5');
});
