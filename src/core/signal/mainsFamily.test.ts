import { expect, it } from 'vitest';
import { gaussian } from './gaussian.fixture.ts';
import { mainsFamily } from './mainsFamily.ts';
import { WelchSpectrum } from './spectra.ts';

const RATE = 2800;

function heard(
  lines: readonly { hz: number; left: number; right: number }[],
  noise: number,
  seconds = 12,
  size = 8192,
) {
  const draw = gaussian(7);
  const n = seconds * RATE;
  const left = new Float64Array(n);
  const right = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    left[i] = noise * draw();
    right[i] = noise * draw();
    for (const line of lines) {
      left[i] += line.left * Math.sin((2 * Math.PI * line.hz * i) / RATE);
      right[i] += line.right * Math.sin((2 * Math.PI * line.hz * i) / RATE + 1);
    }
  }
  const welch = new WelchSpectrum(RATE, size);
  welch.push(left, right);
  return mainsFamily(welch.spectrum());
}

it.each([50, 60] as const)('tells %i Hz, a little off, its lines and each channel', (mains) => {
  const f = mains * 1.001;
  const family = heard(
    [
      { hz: f, left: 0.01, right: 0.002 },
      { hz: 3 * f, left: 0.004, right: 0.004 },
    ],
    0.0005,
  );
  expect(family?.mains).toBe(mains);
  expect(Math.abs(family!.hz - f)).toBeLessThan(0.02);
  expect(family?.lines.map(({ order }) => order)).toEqual([1, 3]);
  // mean squares of two sines
  expect(family!.left.power).toBeCloseTo((0.01 ** 2 + 0.004 ** 2) / 2, 6);
  expect(10 * Math.log10(family!.right.power / ((0.002 ** 2 + 0.004 ** 2) / 2))).toBeCloseTo(0, 1);
});

it('hears no hum in noise, and says what it stays under', () => {
  const family = heard([], 0.001);
  expect(family?.lines).toEqual([]);
  expect(family?.left.power).toBe(0);
  // a line of that size would be seen
  expect(family!.left.atMost).toBeLessThan(0.001 ** 2 / 20);
  expect(family!.left.atMost).toBeGreaterThan(0);
});

it('a tone of another frequency is no mains line', () => {
  expect(heard([{ hz: 55, left: 0.01, right: 0.01 }], 0.001)?.lines).toEqual([]);
});

it('says nothing where 50 and 60 Hz cannot be parted', () => {
  expect(heard([], 0.001, 2, 512)).toBeNull();
});
