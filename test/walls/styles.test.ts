/** One scale of type: sizes of text stand in tokens.css, and nowhere else. */
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';

const web = resolve(import.meta.dirname, '../../src/web');

/** Of the scale, of the text around it, or a figure that grows with the page. */
const allowed = /^(var\(--(t\d+|big)\)|inherit|[\d.]+em|clamp\(.*\)|2(\.4)?rem)$/;

it('text has the sizes of the one scale', () => {
  const files = readdirSync(web, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.css'));
  const sizes = files.flatMap((file) =>
    [...readFileSync(resolve(web, file), 'utf8').matchAll(/([^{}]*)\{[^{}]*?font-size:\s*([^;]+);/g)].map(
      ([, selector, size]) => ({ file, selector: selector.trim(), size: size.trim() }),
    ),
  );
  expect(sizes.length).toBeGreaterThan(40);
  // a drawing has units of its own
  const odd = sizes.filter(({ selector, size }) => !allowed.test(size) && !selector.includes('.drawing'));
  expect(odd).toEqual([]);
});
