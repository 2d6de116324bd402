/** The program as users get it: packed, installed into an empty folder, run there. */
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

let folder = '';
let store = '';
const program = () => join(folder, 'node_modules', 'platterside');
const run = (...args: string[]): string =>
  execFileSync(process.execPath, [join(program(), 'bin', 'platterside.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
  });

beforeAll(() => {
  folder = execFileSync(process.execPath, ['scripts/packed.mjs'], { encoding: 'utf8' }).trim();
  store = mkdtempSync(join(tmpdir(), 'platterside-packed-store-'));
});
afterAll(() => {
  for (const path of [folder, store]) rmSync(path, { recursive: true, force: true });
});

describe('the packed program', () => {
  it('says its version and computes', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(run('--version')).toContain(version);
    const place = JSON.parse(run('place', '--spindle-to-pivot', '226.5', '--criterion', 'lofgren-a', '--json'));
    expect(place.effectiveLengthMm).toBeCloseTo(243.48, 1);
  });

  it('holds its licence, the licences of others and its pages, and neither sources nor tests', () => {
    const names = readdirSync(program());
    expect(names).toEqual(expect.arrayContaining(['LICENSE', 'bin', 'dist', 'docs', 'examples', 'package.json']));
    expect(names.filter((name) => ['src', 'test', 'scripts', 'checks'].includes(name))).toEqual([]);
    expect(readFileSync(join(program(), 'docs', 'third-party.md'), 'utf8')).toContain('SIL OPEN FONT LICENSE');
  });

  it('serves the page and its store', async () => {
    const args = [join(program(), 'bin', 'platterside.js'), 'serve', '--port', '0', '--store', join(store, 'p.sqlite')];
    const server = spawn(process.execPath, args, { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
    try {
      const url = await new Promise<string>((resolve, reject) => {
        let said = '';
        const hear = (data: Buffer): void => {
          said += String(data);
          const found = /http:\/\/\S+?:\d+\//.exec(said);
          if (found !== null) resolve(found[0]);
        };
        server.stdout.on('data', hear);
        server.stderr.on('data', hear);
        server.on('exit', () => reject(new Error(`ended: ${said}`)));
      });
      expect(await (await fetch(url)).text()).toContain('<title>Platterside');
      expect(await (await fetch(`${url}api/health`)).json()).toMatchObject({ ok: true, product: 'platterside' });
    } finally {
      server.kill();
    }
  });
});
