/** Functions that can be read at a sitting, and calls whose arguments can be told apart. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';

const src = resolve(import.meta.dirname, '../../src');

const MOST_LINES = 100;
const MOST_ARGUMENTS = 7;

/** A kernel: every call in its inner loop would cost more than its sums. */
const KERNEL = 'core/signal/fftPasses.ts radix8';

interface Sized {
  readonly name: string;
  readonly lines: number;
  readonly parameters: number;
}

/** How many stand between the brackets, those inside other brackets not counted. */
function count(list: string): number {
  let [depth, commas] = [0, 0];
  for (const letter of list) {
    if ('([{<'.includes(letter)) depth += 1;
    if (')]}>'.includes(letter)) depth -= 1;
    if (letter === ',' && depth === 0) commas += 1;
  }
  return list.trim() === '' ? 0 : commas + (list.trimEnd().endsWith(',') ? 0 : 1);
}

/** Up to the bracket that closes the first. */
function inBrackets(text: string): string {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    if (text[i] === '(') depth += 1;
    if (text[i] === ')') depth -= 1;
    if (depth === 0) return text.slice(1, i);
  }
  return '';
}

/** Functions, methods and arrows with a body, by the formatter's indents. */
function functionsIn(file: string): Sized[] {
  const lines = readFileSync(join(src, file), 'utf8').split('\n');
  return lines.flatMap((line, at): Sized[] => {
    const found =
      /^(\s*)(?:export )?(?:default )?(?:async )?function\*? ?(\w*)(?:<.*?>)?(\(.*)/.exec(line) ??
      /^(\s*)(?:export )?const (\w+) = (?:async )?(?:<.*?>)?(\(.*)/.exec(line) ??
      /^( {2})(?:private |static |async |\*|get )*(#?\w+)(?:<.*?>)?(\(.*)/.exec(line);
    if (found === null || /^(if|for|while|switch|return|super)$/.test(found[2])) return [];
    const [, indent, name, rest] = found;
    const list = inBrackets([rest, ...lines.slice(at + 1, at + 30)].join('\n'));
    const opens = line.endsWith('(') ? lines.findIndex((one, i) => i > at && one.startsWith(`${indent})`)) : at;
    if (opens < 0 || !lines[opens].endsWith('{'))
      return [{ name: `${file} ${name}`, lines: 1, parameters: count(list) }];
    const ends = lines.findIndex((one, i) => i > opens && one.startsWith(`${indent}}`));
    return [{ name: `${file} ${name}`, lines: ends - at + 1, parameters: count(list) }];
  });
}

it('no function is longer than 100 lines, none has more than seven arguments', () => {
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter(
    (file) => /\.tsx?$/.test(file) && !/\.(test|fixture)\./.test(file),
  );
  const all = files.flatMap(functionsIn);
  expect(all.length).toBeGreaterThan(1500);
  expect(all.filter(({ name, lines }) => lines > MOST_LINES && name !== KERNEL)).toEqual([]);
  expect(all.filter(({ parameters }) => parameters > MOST_ARGUMENTS)).toEqual([]);
});
