/** One scale of type and one of space: sizes of text and distances stand in tokens.css, and nowhere else. */
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { verdictWords } from '../../src/core/words/quantities.ts';

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

const read = (file: string): string => readFileSync(resolve(web, file), 'utf8');
const sources = readdirSync(web, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file))
  .map((file) => ({ file, code: read(file) }));
const stations = readdirSync(resolve(web, 'stations'), { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);

it('every station has a stylesheet of its own, which its page imports', () => {
  expect(stations).toHaveLength(9);
  for (const name of stations) {
    const own = files.filter((file) => file.startsWith(`stations/${name}/`));
    expect(own, name).toHaveLength(1);
    const page = sources.find(({ file }) => new RegExp(`^stations/${name}/\\w+Station\\.tsx$`).test(file));
    expect(page?.code, name).toContain(`import './${own[0].split('/').at(-1)}';`);
  }
});

/** Classes that a stylesheet gives a look. Those of a verdict are borne wherever one is told, by its name. */
const classesIn = (file: string): readonly string[] => [
  ...new Set(
    [
      ...read(file)
        .replace(/\{[^{}]*\}/g, ' ')
        .matchAll(/\.([a-z][a-z0-9-]*)/g),
    ]
      .map(([, name]) => name)
      .filter((name) => !Object.hasOwn(verdictWords, name)),
  ),
];
const bearers = (name: string): readonly string[] =>
  sources.flatMap(({ file, code }) => (new RegExp(`["'\`\\s]${name}["'\`\\s$]`).test(code) ? [file] : []));

it('what only one station bears stands in that station’s stylesheet', () => {
  const shared = files.filter((file) => file.startsWith('styles/'));
  const home = (file: string): string => (file.startsWith('stations/') ? file.split('/')[1] : 'shared');
  const odd = shared.flatMap((file) =>
    classesIn(file).flatMap((name) => {
      const homes = [...new Set(bearers(name).map(home))];
      return homes.length === 1 && stations.includes(homes[0]) ? [`${file}: .${name} of ${homes[0]}`] : [];
    }),
  );
  expect(odd).toEqual([]);
});
