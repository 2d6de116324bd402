import jsQR from 'jsqr';
import { expect, it } from 'vitest';
import { qrPath } from './qrPath.ts';

/** The path as a camera would have it: a picture of light and dark, some pixels a square. */
function picture({ size, path }: { size: number; path: string }, scale = 6): { data: Uint8ClampedArray; side: number } {
  const side = size * scale;
  const data = new Uint8ClampedArray(4 * side * side).fill(255);
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
    for (let row = 0; row < scale; row++) {
      for (let column = 0; column < scale; column++) {
        const at = 4 * ((Number(y) * scale + row) * side + Number(x) * scale + column);
        data.fill(0, at, at + 3);
      }
    }
  }
  return { data, side };
}

it.each(['http://192.168.1.20:4143/', 'http://10.255.255.254:65535/'])('%s is read back by another library', (text) => {
  const { data, side } = picture(qrPath(text));
  expect(jsQR(data, side, side)?.data).toBe(text);
});

it('has a quiet zone of four squares all around', () => {
  const { size, path } = qrPath('http://192.168.1.20:4143/');
  const places = [...path.matchAll(/M(\d+) (\d+)/g)].flatMap(([, x, y]) => [Number(x), Number(y)]);
  expect(Math.min(...places)).toBe(4);
  expect(Math.max(...places)).toBe(size - 5);
});
