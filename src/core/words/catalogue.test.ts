import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { CaptureError } from '../capture/captureError.ts';
import { problem, withheld } from '../capture/problem.ts';
import { catalogue, tables } from './catalogue.ts';
import { problems } from './problems.ts';
import { say, statement, type Values } from './statement.ts';
import { fill } from './template.ts';

const page = readFileSync(new URL('../../../docs/errors.md', import.meta.url), 'utf8');
const rows = [...page.matchAll(/^\| `([a-z0-9-]+)` \| (error|warning|note) \| (.{20,}) \|$/gm)].map((row) => ({
  code: row[1]!,
  severity: row[2]!,
}));

describe('the problems', () => {
  it('and docs/errors.md name the same codes, each once, with the same severity', () => {
    const fromTable = Object.entries(problems).map(([code, [severity]]) => ({ code, severity }));
    const byCode = (a: { code: string }, b: { code: string }): number => (a.code < b.code ? -1 : 1);
    expect(rows.toSorted(byCode)).toEqual(fromTable.toSorted(byCode));
  });

  it('every row of the page that looks like a code was read', () => {
    expect(page.match(/^\| `/gm)).toHaveLength(rows.length);
  });

  it('every sentence is one line that begins with a capital or a value and ends with a stop or a question mark', () => {
    for (const [code, [, sentence]] of Object.entries(problems)) {
      expect(code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(sentence, code).toMatch(/^[A-Z{].*[.?]$/);
      expect(sentence, code).not.toMatch(/\n|TO.?DO|undefined/);
    }
  });
});

describe('the catalogue', () => {
  it('has every code in one table only', () => {
    const codes = [...Object.values(tables).flatMap((table) => Object.keys(table)), ...Object.keys(problems)];
    expect(codes.toSorted()).toEqual(Object.keys(catalogue).toSorted());
  });

  it('every sentence is one line; reasons begin small and have no stop, labels have none, all others begin large and end with one or with the sentence of a reason', () => {
    for (const [name, table] of Object.entries(tables)) {
      for (const [code, sentence] of Object.entries(table as Record<string, string>)) {
        expect(code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
        expect(sentence, code).toMatch(
          /reasons$/i.test(name) || name === 'sources'
            ? /^[a-z{0-9].*[^.?\s]$/
            : /Labels$/.test(name)
              ? /^[A-Za-z{0-9].*[^.?\s]$/
              : /^[A-Z{0-9±].*([.?]|why\})$/,
        );
        expect(sentence, code).not.toMatch(/\n|TO.?DO|undefined/);
      }
    }
  });

  it('every code in it is used somewhere', () => {
    const src = fileURLToPath(new URL('../../', import.meta.url));
    const sources = readdirSync(src, { recursive: true, encoding: 'utf8' })
      .filter((path) => /\.tsx?$/.test(path) && !/\.test\.tsx?$/.test(path) && !/core\/words\/\w+\.ts$/.test(path))
      .map((path) => readFileSync(join(src, path), 'utf8'))
      .join('\n');
    const unused = Object.keys(catalogue).filter((code) => !sources.includes(`'${code}'`));
    expect(unused).toEqual([]);
  });
});

describe('a sentence', () => {
  it('takes its values: numbers in at most four digits, by decimals, by significant digits, with a plus', () => {
    const words = (template: string, values: Values) => fill('test', template, values, say);
    expect(say(statement('half-frame', { bytes: 5 }))).toBe(
      'The last 5 bytes do not make a whole frame and were left out.',
    );
    expect(words('{x}', { x: 0.123456 })).toBe('0.1235');
    expect(words('{x:.2} {x:+.1} {x:3} {y:+.1}', { x: -12.345, y: 0.34 })).toBe('−12.35 −12.3 −12.3 +0.3');
    expect(words('{x:.1} {x:+.1}', { x: -0.04 })).toBe('0.0 0.0');
    expect(words('{n} {n?top|tops}', { n: 1 })).toBe('1 top');
    expect(words('{n} {n?top|tops}', { n: 3 })).toBe('3 tops');
  });

  it('shows a figure to the digit that its uncertainty supports', () => {
    const words = (template: string, values: Values) => fill('test', template, values, say);
    expect(words('{x±u dB}', { x: 32.2149, u: 0.0377 })).toBe('32.21 ± 0.04 dB');
    expect(words('{+x±u deg}', { x: 0.5, u: null })).toMatch(/^\+0\.5/);
  });

  it('may hold another statement and a quantity by its title', () => {
    const p = withheld('azimuth-error', statement('no-speed-tone'));
    expect(p.message).toBe('Tilt (azimuth error) is withheld: no tone tells the speed.');
    expect(p).toMatchObject({ code: 'withheld', severity: 'note', quantity: 'azimuth-error' });
  });

  it('refuses a code that is not there, a value that is missing, of another kind, or no number', () => {
    expect(() => say({ code: 'no-such-code', values: {} })).toThrow(/'no-such-code'/);
    expect(() => say({ code: 'toString', values: {} })).toThrow(/catalogue/);
    expect(() => say({ code: 'half-frame', values: {} })).toThrow(/'bytes'/);
    expect(() => statement('half-frame', { bytes: Number.NaN })).toThrow(/NaN/);
    expect(() => say({ code: 'too-short', values: { seconds: '1', leastS: 1 } })).toThrow(/not a number/);
  });

  it('becomes a problem with its place, or an error with its code', () => {
    expect(problem('clipped', { tops: 3, levelDb: -0.001, channel: 'left channel' }, { startS: 1, endS: 2 })).toEqual({
      code: 'clipped',
      severity: 'error',
      message: 'Clipped, left channel: 3 flat tops at 0.00 dBFS. Lower the level and record again.',
      values: { tops: 3, levelDb: -0.001, channel: 'left channel' },
      startS: 1,
      endS: 2,
    });
    const error = new CaptureError('empty-file', { file: 'a.wav' });
    expect(error).toBeInstanceOf(Error);
    expect([error.code, error.name, error.message.split(' ')[0]]).toEqual(['empty-file', 'CaptureError', 'a.wav']);
  });
});
