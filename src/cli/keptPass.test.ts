import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { CannotError } from './command.ts';
import { KeptPass } from './keptPass.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const conditions = (path: string) =>
  JSON.parse(/ICMT....(\{.*?\})\0/s.exec(readFileSync(path).toString('latin1'))?.[1] ?? 'null');

it('grows piece by piece, can be read at any time, and has its length and what was found at the end', () => {
  const kept = new KeptPass(folder.path, 3, 48_000, { input: 'hw:1' } as never);
  expect(kept.path).toBe(join(folder.path, 'pass 3.wav'));
  const begun = readFileSync(kept.path);
  expect(begun.subarray(0, 4).toString()).toBe('RIFF');
  expect(conditions(kept.path)).toEqual({ input: 'hw:1', pass: 3 });
  const [left, right] = [Float64Array.of(0.5, -0.25, 9), Float64Array.of(-1, 0.125, 9)];
  kept.write(left, right, 2);
  kept.write(right, left, 1);
  const samples = (bytes: Buffer) => Array.from({ length: 6 }, (_, i) => bytes.readFloatLE(bytes.length - 24 + 4 * i));
  expect(samples(readFileSync(kept.path))).toEqual([0.5, -1, -0.25, 0.125, -1, 0.5]);
  kept.close({ input: 'hw:1', endedAt: 'now' } as never);
  const bytes = readFileSync(kept.path);
  expect(samples(bytes)).toEqual([0.5, -1, -0.25, 0.125, -1, 0.5]);
  expect(bytes.readUInt32LE(bytes.length - 28)).toBe(24);
  expect(conditions(kept.path)).toMatchObject({ input: 'hw:1', pass: 3, endedAt: 'now' });
});

it('goes over nothing, and says why it cannot be made', () => {
  const at = join(folder.path, 'other');
  mkdirSync(at);
  writeFileSync(join(at, 'pass 1.wav'), 'mine');
  const make = (place: string) => () => new KeptPass(place, 1, 48_000, {} as never);
  expect(make(at)).toThrow(CannotError);
  expect(make(at)).toThrow(
    `--keep ${at}: ${join(at, 'pass 1.wav')} cannot be written (it is there already); an empty folder was expected`,
  );
  expect(readFileSync(join(at, 'pass 1.wav'), 'utf8')).toBe('mine');
  rmSync(at, { recursive: true });
  expect(make(at)).toThrow('cannot be written (there is no such file)');
});
