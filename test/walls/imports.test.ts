/** Holds the table of arrows against every import in src. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { arrows, packages } from './arrows.ts';

const src = resolve(import.meta.dirname, '../../src');

interface Import {
  readonly file: string;
  readonly target: string;
}

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sources(path);
    return /\.(ts|tsx)$/.test(entry.name) && !/\.test\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

/** Static, dynamic, side-effect and `new URL(…, import.meta.url)` references of one file. */
function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
  const found = [
    ...text.matchAll(/(?:^|\n)\s*(?:import|export)\s(?:[^'"`;]*?\sfrom\s*)?['"]([^'"]+)['"]/g),
    ...text.matchAll(/\bimport\(\s*['"]([^'"]+)['"]\s*\)/g),
    ...text.matchAll(/new URL\(\s*['"]([^'"]+)['"]\s*,\s*import\.meta\.url/g),
  ];
  return found.map((match) => ({ file, target: match[1] }));
}

const withoutComments = (text: string): string => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '');

/** `core/measure`, `web`, … of a path below src. */
function folderOf(path: string): string {
  const parts = relative(src, path).split('/');
  return parts[0] === 'core' ? parts.slice(0, 2).join('/') : parts[0];
}

function allowed(from: string, to: string): boolean {
  const list = arrows[from] ?? [];
  return from === to || list.includes(to) || (to.startsWith('core/') && list.includes('core/*'));
}

const imports = sources(src).flatMap(importsOf);

describe('the walls of the house', () => {
  it('reads a believable number of imports', () => {
    expect(imports.length).toBeGreaterThan(100);
  });

  it('knows every folder', () => {
    const unknown = new Set(
      sources(src)
        .map(folderOf)
        .filter((folder) => arrows[folder] === undefined),
    );
    expect([...unknown]).toEqual([]);
  });

  it('lets no import through a wall', () => {
    const broken = imports
      .filter(({ target }) => target.startsWith('.'))
      .map(({ file, target }) => ({ file, to: resolve(dirname(file), target.replace(/\?.*$/, '')) }))
      .filter(({ to }) => !relative(src, to).startsWith('..'))
      .filter(({ file, to }) => !allowed(folderOf(file), folderOf(to)))
      .map(({ file, to }) => `${relative(src, file)} imports ${relative(src, to)}`);
    expect(broken).toEqual([]);
  });

  it('lets no station of the page import another', () => {
    const stationOf = (path: string): string | null =>
      /^web\/stations\/([^/]+)\/./.exec(relative(src, path))?.[1] ?? null;
    const between = imports
      .filter(({ target }) => target.startsWith('.'))
      .map(({ file, target }) => ({ file, to: resolve(dirname(file), target.replace(/\?.*$/, '')) }))
      .filter(({ file }) => stationOf(file) !== null);
    expect(between.length).toBeGreaterThan(50);
    const broken = between
      .filter(({ file, to }) => stationOf(to) !== null && stationOf(to) !== stationOf(file))
      .map(({ file, to }) => `${relative(src, file)} imports ${relative(src, to)}`);
    expect(broken).toEqual([]);
  });

  it('lets the page type, choose and pick through the field kit alone', () => {
    const own = sources(join(src, 'web'))
      .filter((file) => /<(input|select|textarea)\b/.test(readFileSync(file, 'utf8')))
      .map((file) => relative(src, file))
      .filter((file) => !file.startsWith('web/parts/'));
    // the second screen's page is a bundle of its own, which asks for six digits
    expect(own).toEqual(['web/secondScreen/Screen.tsx']);
  });

  it('keeps each folder to its packages', () => {
    const broken = imports
      .filter(({ target }) => !target.startsWith('.') && !target.startsWith('vite/'))
      .filter(({ file, target }) => {
        const list = packages[folderOf(file)] ?? [];
        return !list.some((name) => target === name || target.startsWith(name.endsWith(':') ? name : `${name}/`));
      })
      .map(({ file, target }) => `${relative(src, file)} imports ${target}`);
    expect(broken).toEqual([]);
  });

  it('keeps SQL in the store', () => {
    const sql = /\b(SELECT|INSERT INTO|UPDATE|DELETE FROM|CREATE TABLE)\b/;
    const found = sources(src)
      .filter((file) => folderOf(file) !== 'store' && sql.test(readFileSync(file, 'utf8')))
      .map((file) => relative(src, file));
    expect(found).toEqual([]);
  });

  it('keeps clock and randomness out of core', () => {
    const impure =
      /\bnew Date\b|\bDate\.(now|parse|UTC)\b|\bperformance\b|\bMath\.random\b|\bcrypto\b|\bsetTimeout\b|\bsetInterval\b/;
    const found = sources(join(src, 'core'))
      .filter((file) => impure.test(withoutComments(readFileSync(file, 'utf8'))))
      .map((file) => relative(src, file));
    expect(found).toEqual([]);
  });

  it('in core and on the command line measure and deck meet in one place, selfcheck', () => {
    const reach = (file: string): string[] =>
      imports
        .filter((one) => one.file === file && one.target.startsWith('.'))
        .map(({ target }) => folderOf(resolve(dirname(file), target.replace(/\?.*$/, ''))));
    const meeting = sources(src)
      .filter((file) => {
        const to = new Set(reach(file));
        return to.has('core/deck') && (to.has('core/measure') || to.has('core/side'));
      })
      .map((file) => relative(src, file));
    expect(meeting).toContain('cli/selfcheck/playDecks.ts');
    expect(meeting.filter((file) => file.startsWith('core/') || file.startsWith('cli/'))).toEqual([
      'cli/selfcheck/playDecks.ts',
    ]);
  });

  it('would notice: measure and deck never meet', () => {
    expect(allowed('core/measure', 'core/deck')).toBe(false);
    expect(allowed('core/deck', 'core/signal')).toBe(false);
    expect(allowed('web', 'store')).toBe(false);
    expect(allowed('server', 'core/measure')).toBe(true);
  });
});
