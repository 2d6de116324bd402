import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { CaptureError } from './captureError.ts';
import { type ProblemCode, problem, sentenceOf, sentences } from './sentences.ts';

const page = readFileSync(new URL('../../../docs/errors.md', import.meta.url), 'utf8');
const rows = [...page.matchAll(/^\| `([a-z0-9-]+)` \| (error|warning|note) \| (.{20,}) \|$/gm)].map((row) => ({
  code: row[1]!,
  severity: row[2]!,
}));

describe('the catalogue', () => {
  it('and docs/errors.md name the same codes, each once, with the same severity', () => {
    const fromTable = Object.entries(sentences).map(([code, [severity]]) => ({ code, severity }));
    const byCode = (a: { code: string }, b: { code: string }): number => (a.code < b.code ? -1 : 1);
    expect(rows.toSorted(byCode)).toEqual(fromTable.toSorted(byCode));
  });

  it('every row of the page that looks like a code was read', () => {
    expect(page.match(/^\| `/gm)).toHaveLength(rows.length);
  });

  it('every sentence is one line that begins with a capital or a value and ends with a stop or a question mark', () => {
    for (const [code, [, sentence]] of Object.entries(sentences)) {
      expect(code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(sentence, code).toMatch(/^[A-Z{].*[.?]$/);
      expect(sentence, code).not.toMatch(/\n|TODO|undefined/);
    }
  });

  it('every code in it is used somewhere', () => {
    const src = fileURLToPath(new URL('../../', import.meta.url));
    const sources = readdirSync(src, { recursive: true, encoding: 'utf8' })
      .filter((path) => /\.tsx?$/.test(path) && !/\.test\.tsx?$/.test(path) && !path.endsWith('sentences.ts'))
      .map((path) => readFileSync(join(src, path), 'utf8'))
      .join('\n');
    for (const code of Object.keys(sentences)) expect(sources, `'${code}' is used nowhere`).toContain(`'${code}'`);
  });
});

describe('a sentence', () => {
  it('takes its parameters, numbers in at most four digits', () => {
    expect(sentenceOf('half-frame', { bytes: 5 })).toBe(
      'The last 5 bytes do not make a whole frame and were left out.',
    );
    expect(sentenceOf('rate-unusual', { rateHz: 22050 })).toMatch(/^22050 Hz/);
    expect(sentenceOf('too-short', { seconds: 0.123456, leastS: 1 })).toContain('0.1235 s');
  });

  it('refuses a code that is not there, a parameter that is missing and a number that is none', () => {
    expect(() => sentenceOf('no-such-code' as ProblemCode)).toThrow(/'no-such-code'/);
    expect(() => sentenceOf('toString' as ProblemCode)).toThrow(/catalogue/);
    expect(() => problem('half-frame')).toThrow(/'bytes'/);
    expect(() => problem('half-frame', { bytes: Number.NaN })).toThrow(/NaN/);
  });

  it('becomes a problem with its place, or an error with its code', () => {
    expect(
      problem('clipped', { tops: '3 flat tops', levelDb: '0.00', channel: 'left channel' }, { startS: 1, endS: 2 }),
    ).toEqual({
      code: 'clipped',
      severity: 'error',
      message: 'Clipped, left channel: 3 flat tops at 0.00 dBFS. Lower the level and record again.',
      startS: 1,
      endS: 2,
    });
    const error = new CaptureError('empty-file', { file: 'a.wav' });
    expect(error).toBeInstanceOf(Error);
    expect([error.code, error.name, error.message.split(' ')[0]]).toEqual(['empty-file', 'CaptureError', 'a.wav']);
  });
});
