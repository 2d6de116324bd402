/** Recordings below folders, in the order of their names. Links are not followed, hidden files and folders left out. */
import { type Dirent, lstatSync, readdirSync } from 'node:fs';
import { basename, join } from 'node:path';

const RECORDING = /\.(wav|wave|rf64|bw64|flac)$/i;

export interface Recorded {
  readonly file: string;
  readonly bytes: number;
  readonly modifiedMs: number;
}

/** @throws Error of the file system where a folder cannot be read */
export function* findRecordings(place: string): Generator<Recorded> {
  const stat = lstatSync(place);
  if (stat.isFile()) {
    yield { file: place, bytes: stat.size, modifiedMs: stat.mtimeMs };
    return;
  }
  const entries: Dirent[] = readdirSync(place, { withFileTypes: true });
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (basename(entry.name).startsWith('.')) continue;
    const path = join(place, entry.name);
    if (entry.isDirectory()) yield* findRecordings(path);
    else if (entry.isFile() && RECORDING.test(entry.name)) yield* findRecordings(path);
  }
}
