import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { readPart } from './partFile.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const file = join(folder.path, 'parts.json');
const part = (kind: string, name: string) => ({ schema: 1, kind, name });
const read = (content: unknown) => {
  writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
  return readPart('arm', file);
};

it('one part of the kind is taken, whatever other kinds stand beside it', async () => {
  expect(await read(part('arm', 'nine inches'))).toMatchObject({ kind: 'arm', name: 'nine inches' });
  const parts = [part('headshell', 'h'), part('arm', 'nine inches'), part('cable', 'c')];
  expect(await read({ schema: 1, kind: 'parts', parts })).toMatchObject({ kind: 'arm' });
});

it('none, or two, are told by what was found', async () => {
  await expect(read(part('headshell', 'h'))).rejects.toThrow(
    `--arm ${file}: found headshell 'h'; exactly one arm was expected`,
  );
  const two = { schema: 1, kind: 'parts', parts: [part('arm', 'a'), part('arm', 'b')] };
  await expect(read(two)).rejects.toThrow(`found arm 'a', arm 'b'; exactly one arm was expected`);
  await expect(read({ schema: 1, kind: 'parts', parts: [] })).rejects.toThrow(UsageError);
});

it('a part with a fault, and a file that is none, are refused by the file', async () => {
  await expect(read({ ...part('arm', 'a'), effectiveMassG: 'heavy' })).rejects.toThrow(/^--arm .*effectiveMassG/);
  await expect(read('{')).rejects.toThrow(UsageError);
  await expect(readPart('arm', '/nowhere/a')).rejects.toThrow(
    '--arm /nowhere/a: cannot be read (there is no such file); a JSON file of one arm was expected',
  );
});
