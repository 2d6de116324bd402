/** The part that an output is written to is nobody else's: a link that lies in wait under its name is not written through. */
import { readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, vi } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { writeTextOutput } from './output.ts';

// chance gives the same name every time, as one who waits for it would wish
vi.mock('node:crypto', async (original) => ({
  ...(await original<typeof import('node:crypto')>()),
  randomBytes: (count: number) => Buffer.alloc(count, 7),
}));

it('refuses, and what the link leads to is unharmed', () => {
  const folder = scratchFolder();
  const at = (name: string) => join(folder.path, name);
  writeFileSync(at('precious.txt'), 'precious');
  symlinkSync(at('precious.txt'), at(`.platterside-${'07'.repeat(9)}.part`));
  expect(() => writeTextOutput({ flag: '-o', file: at('report.html'), inputs: [] }, 'new')).toThrow(
    'cannot be written',
  );
  expect(readFileSync(at('precious.txt'), 'utf8')).toBe('precious');
  folder.remove();
});
