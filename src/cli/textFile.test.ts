import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readText } from './textFile.ts';

const folder = mkdtempSync(join(tmpdir(), 'platterside-text-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

test('a pipe in a record file’s place is said at once instead of waited for', () => {
  execFileSync('mkfifo', [at('pipe')]);
  expect(() => readText('--record pipe', at('pipe'), 'a record file')).toThrow(
    '--record pipe: cannot be read (it is a pipe or a device, not a file); a record file was expected',
  );
});

test('a file of gigabytes is refused before it is read', () => {
  writeFileSync(at('large'), '');
  truncateSync(at('large'), 3 * 2 ** 30);
  expect(() => readText('--music large', at('large'), 'a CSV file')).toThrow(/it has 3221225472 bytes, more than/);
});

test('an ordinary file comes whole', () => {
  writeFileSync(at('small'), 'µ,1\n');
  expect(readText('small', at('small'), 'a CSV file')).toBe('µ,1\n');
});
