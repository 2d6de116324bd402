/**
 * Thousands of damaged files through every reader: 5,000 in the test run, any number with `npm run fuzz N [SEED]`.
 * A fault found becomes a case of corpus.ts, or a file in `corpus/TARGET/`, and is read first ever after.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { knownFaults } from './corpus.ts';
import { seeded } from './mutate.ts';
import { targets } from './targets.ts';

const cases = Number(process.env.PLATTERSIDE_FUZZ_CASES ?? 5000);
const firstSeed = Number(process.env.PLATTERSIDE_FUZZ_SEED ?? 1);
/** where `npm run fuzz` lays down what failed */
const found = process.env.PLATTERSIDE_FUZZ_FOUND;
const folderOf = (name: string): string => name.replaceAll(' ', '-');

describe('damaged files', () => {
  for (const target of targets) {
    const corpus = join('test', 'fuzz', 'corpus', folderOf(target.name));
    const kept = existsSync(corpus) ? readdirSync(corpus) : [];
    for (const name of kept) {
      it(`${target.name}: ${name} stays mended`, async () => {
        await target.read(readFileSync(join(corpus, name)));
      });
    }
    for (const { name, bytes } of knownFaults.filter((fault) => fault.target === target.name)) {
      it(`${target.name}: ${name} stays mended`, async () => {
        await target.read(bytes());
      });
    }
    const count = Math.ceil(cases * target.share);
    it(`${target.name}: ${count} of them give a value or one clear sentence`, async () => {
      const failed: string[] = [];
      for (let seed = firstSeed; seed < firstSeed + count && failed.length < 20; seed++) {
        const bytes = target.damaged(seeded(seed));
        try {
          await target.read(bytes);
        } catch (error) {
          failed.push(`seed ${seed}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
          if (found === undefined) continue;
          mkdirSync(join(found, folderOf(target.name)), { recursive: true });
          writeFileSync(join(found, folderOf(target.name), `seed-${seed}`), bytes);
        }
      }
      expect(failed).toEqual([]);
    });
  }
});
