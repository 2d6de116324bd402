/** Whether two names mean one file, so that no output is written over an input. */
import { existsSync, realpathSync } from 'node:fs';
import { resolve } from 'node:path';

/** The same file, whatever its two names are. */
export function sameFile(one: string, other: string): boolean {
  const real = (path: string) => (existsSync(path) ? realpathSync(path) : resolve(path));
  return real(one) === real(other);
}
