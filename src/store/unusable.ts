/** Why a store's file cannot be used, in words instead of a library's message; a damaged file is told from one that may only be read. */
import { StoreError } from './storeError.ts';

export const untouched = 'The file was not touched; name another with --store, or bring it back from a copy.';

const DAMAGED = /^SQLITE_(CORRUPT|NOTADB|IOERR_SHORT_READ)/;

/** By the first part of SQLite's or the system's code. */
const reasons: readonly (readonly [code: RegExp, sentence: (file: string) => string])[] = [
  [
    /^(SQLITE_READONLY|EROFS)/,
    (file) =>
      `${file} may only be read, and jobs are kept by writing: make the file and its folder writable, or name another with --store.`,
  ],
  [
    /^(SQLITE_CANTOPEN|EACCES|EPERM)/,
    (file) => `${file} cannot be opened: the rights of the file or of its folder forbid it. Name another with --store.`,
  ],
  [/^SQLITE_(BUSY|LOCKED)/, (file) => `${file} is held by another program; close it, or name another with --store.`],
  [/^(SQLITE_FULL|ENOSPC|EDQUOT)/, (file) => `${file} cannot be written: the disk is full.`],
  [DAMAGED, (file) => `${file} is damaged. ${untouched}`],
  [/^(SQLITE_IOERR|EIO)/, (file) => `${file} cannot be read: the disk gave an error.`],
];

/** Another program is writing at this moment: worth another try. */
export const isBusy = (error: unknown): boolean =>
  /^SQLITE_(BUSY|LOCKED)/.test(String((error as { code?: unknown } | null)?.code));

/** The file itself is no whole store any more. */
export const isDamaged = (error: unknown): boolean => DAMAGED.test(String((error as { code?: unknown } | null)?.code));

/** @param otherwise what to say of an error that is none of the usual ones */
export function unusable(file: string, error: unknown, otherwise: string): StoreError {
  const { code = '', message = String(error) } = error as { code?: string; message?: string };
  const known = reasons.find(([pattern]) => pattern.test(code));
  return new StoreError(known === undefined ? `${otherwise} (${message}).` : known[1](file));
}
