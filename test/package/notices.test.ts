/** What others wrote is named with its licence, as the lock file stands; a licence nobody has looked at stops here. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/** Looked at: each lets the program be given away as it is, with its notice. */
const lookedAt = new Set(['MIT', 'ISC', 'BSD-3-Clause', 'Apache-2.0', 'OFL-1.1', 'LGPL-3.0-or-later']);
const eitherOf = (licence: string): boolean =>
  licence
    .replace(/[()]/g, '')
    .split(' OR ')
    .some((one) => lookedAt.has(one));

describe('third-party notices', () => {
  const page = readFileSync('docs/third-party.md', 'utf8');

  it('are those of the lock file (npm run notices writes them)', () => {
    execFileSync(process.execPath, ['scripts/notices.mjs', '--check'], { stdio: 'pipe' });
  });

  it('name no licence that was not looked at', () => {
    const rows = [...page.matchAll(/^\| (\S+) \| \d\S* \| (.+) \|$/gm)].map(([, name, licence]) => ({ name, licence }));
    expect(rows.length).toBeGreaterThan(15);
    expect(rows.filter(({ licence }) => !eitherOf(licence))).toEqual([]);
  });

  it('every version in package.json is exact', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8'));
    const loose = Object.entries<string>({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^(npm:[@\w/-]+@)?\d+\.\d+\.\d+$/.test(version),
    );
    expect(loose).toEqual([]);
  });

  it('every package that the program brings along is imported by it', () => {
    const sources = readdirSync('src', { recursive: true, encoding: 'utf8' })
      .filter((path) => /\.(tsx?|css)$/.test(path) && !/\.(test|fixture)\.tsx?$/.test(path))
      .map((path) => readFileSync(join('src', path), 'utf8'));
    const { dependencies } = JSON.parse(readFileSync('package.json', 'utf8'));
    const unused = Object.keys(dependencies).filter(
      (name) => !sources.some((text) => text.includes(`'${name}'`) || text.includes(`'${name}/`)),
    );
    expect(unused).toEqual([]);
  });
});
