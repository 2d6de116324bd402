/** Small files of text that a command reads: an ordinary file, of a bounded size, in one go. */
import { closeSync, fstatSync, openSync, readFileSync, statSync } from 'node:fs';
import { UsageError } from './command.ts';
import { whyUnread } from './fileReason.ts';

/** bytes; a record file has some kilobytes, a long table of readings a few hundred */
const MOST_BYTES = 8 * 2 ** 20;

/**
 * @param name as every complaint begins: `--record side.record.json`
 * @param expected "a record file"
 * @param most bytes
 * @throws UsageError when it is missing, no ordinary file, or too large
 */
export function readBytes(name: string, file: string, expected: string, most = MOST_BYTES): Uint8Array {
  const refuse = (why: string) => new UsageError(`${name}: cannot be read (${why}); ${expected} was expected`);
  try {
    // looked at before it is opened: opening a pipe waits until somebody writes to it
    const found = statSync(file);
    if (!found.isFile()) throw Object.assign(new Error(), { code: found.isDirectory() ? 'EISDIR' : 'ENOTFILE' });
    const handle = openSync(file, 'r');
    try {
      const { size } = fstatSync(handle);
      if (size > most) throw refuse(`it has ${size} bytes, more than ${most}`);
      return readFileSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    throw error instanceof UsageError ? error : refuse(whyUnread(error));
  }
}

export const readText = (name: string, file: string, expected: string, most?: number): string =>
  new TextDecoder().decode(readBytes(name, file, expected, most));
