import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { UsageError } from './command.ts';
import { readBytes, readText } from './textFile.ts';

const folder = mkdtempSync(join(tmpdir(), 'platterside-text-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

test('a pipe in a record file’s place is said at once instead of waited for', () => {
  execFileSync('mkfifo', [at('pipe')]);
  expect(() => readText('--record pipe', at('pipe'), 'a record file')).toThrow(
    '--record pipe: cannot be read (it is a pipe or a device, not a file); a record file was expected',
  );
});

test('a folder, and what is not there, are said so', () => {
  mkdirSync(at('folder'));
  expect(() => readText('folder', at('folder'), 'a CSV file')).toThrow(
    'folder: cannot be read (it is a folder); a CSV file was expected',
  );
  expect(() => readText('none', at('none'), 'a CSV file')).toThrow(UsageError);
  expect(() => readText('none', at('none'), 'a CSV file')).toThrow('none: cannot be read (there is no such file)');
});

test('a file of gigabytes is refused before it is read', () => {
  writeFileSync(at('large'), '');
  truncateSync(at('large'), 3 * 2 ** 30);
  expect(() => readText('--music large', at('large'), 'a CSV file')).toThrow(/it has 3221225472 bytes, more than/);
});

test('an ordinary file comes whole, up to what it may be large', () => {
  writeFileSync(at('small'), 'µ,1\n');
  expect(readText('small', at('small'), 'a CSV file')).toBe('µ,1\n');
  expect(readBytes('small', at('small'), 'a CSV file', 5)).toEqual(Buffer.from('µ,1\n'));
  expect(() => readBytes('small', at('small'), 'a CSV file', 4)).toThrow(
    'small: cannot be read (it has 5 bytes, more than 4); a CSV file was expected',
  );
  truncateSync(at('large'), 8 * 2 ** 20);
  expect(readBytes('large', at('large'), 'a CSV file')).toHaveLength(8_388_608);
  truncateSync(at('large'), 8 * 2 ** 20 + 1);
  expect(() => readBytes('large', at('large'), 'a CSV file')).toThrow('it has 8388609 bytes, more than 8388608');
});
