/** One sentence out of a failed check, for the server, imports and the command line alike. */
import type { z } from 'zod';

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  record: 'an object',
  array: 'a list',
};
const kind = (name: string): string => (Object.hasOwn(KINDS, name) ? KINDS[name] : name);

/**
 * Where it failed, what was found and what was expected.
 *
 * @example "stations.tilt.revision: text was found, a number was expected"
 */
export function checkSentence(error: z.ZodError): string {
  const [first] = error.issues;
  if (first === undefined) return 'the data is not what was expected';
  const { path, message } = meant(first);
  const place = path.map(String).join('.');
  return place === '' ? message : `${place}: ${message}`;
}

interface Fault {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/** Of what may stand in several shapes, the fault in the shape that it comes nearest to. */
function meant(issue: z.core.$ZodIssue): Fault {
  const { path } = issue;
  if (issue.code === 'invalid_union') {
    const inner = issue.errors.flatMap(([fault]) => (fault === undefined ? [] : [meant(fault)]));
    const [nearest] = inner.toSorted((a, b) => b.path.length - a.path.length);
    if (nearest !== undefined) return { ...nearest, path: [...path, ...nearest.path] };
  }
  if (issue.code === 'invalid_value' && issue.message.startsWith('Invalid ')) {
    const one = issue.values.map((value) => JSON.stringify(value)).join(', ');
    return { path, message: `${issue.values.length === 1 ? '' : 'one of '}${one} was expected` };
  }
  return { path, message: inWords(issue.message) };
}

function inWords(message: string): string {
  const wrongKind = /^Invalid input: expected (\w+), received (\w+)$/.exec(message);
  if (wrongKind === null) return message.replace(/^Invalid input: /, '');
  const [, expected, found] = wrongKind;
  return found === 'undefined'
    ? `is missing, ${kind(expected)} was expected`
    : `${kind(found)} was found, ${kind(expected)} was expected`;
}
