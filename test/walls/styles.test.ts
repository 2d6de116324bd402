/** One scale of type and one of space: sizes of text and distances stand in tokens.css, and nowhere else. */
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';

const web = resolve(import.meta.dirname, '../../src/web');

/** Of the scale, of the text around it, or a figure that grows with the page. */
const allowed = /^(var\(--(t\d+|big)\)|inherit|[\d.]+em|clamp\(.*\)|2(\.4)?rem)$/;

const files = readdirSync(web, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.css'));

it('text has the sizes of the one scale', () => {
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

it('margins, paddings and gaps have the distances of the one scale', () => {
  const spaces = files.flatMap((file) =>
    [
      ...readFileSync(resolve(web, file), 'utf8').matchAll(
        /(?:^|[;{\s])((?:margin|padding|(?:row-|column-)?gap)[a-z-]*):\s*([^;}]+)/g,
      ),
    ].map(([, name, size]) => ({ file, name, size: size.trim() })),
  );
  expect(spaces.length).toBeGreaterThan(200);
  // what goes with the text or the page may be in its units; one pixel is a line's own width
  expect(spaces.filter(({ size }) => /(?<![\d.])(?!1px)[\d.]+px/.test(size))).toEqual([]);
});
