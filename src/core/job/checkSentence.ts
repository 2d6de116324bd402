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
  const place = first.path.map(String).join('.');
  const wrongKind = /^Invalid input: expected (\w+), received (\w+)$/.exec(first.message);
  const message =
    wrongKind === null
      ? first.message.replace(/^Invalid input: /, '')
      : wrongKind[2] === 'undefined'
        ? `is missing, ${kind(wrongKind[1])} was expected`
        : `${kind(wrongKind[2])} was found, ${kind(wrongKind[1])} was expected`;
  return place === '' ? message : `${place}: ${message}`;
}
