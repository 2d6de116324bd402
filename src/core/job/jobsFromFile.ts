/** Whatever holds jobs, by its first bytes: a bundle, or the one-file JSON of a single job. */

import { strFromU8 } from 'fflate';
import { statement } from '../words/statement.ts';
import { type Bytes, type ReadBundle, readBundle } from './bundle.ts';
import { readJobFile } from './jobFile.ts';

export function jobsFromFile(bytes: Uint8Array, platform: Bytes): ReadBundle {
  // "PK": a zip file
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return readBundle(bytes, platform);
  let value: unknown;
  try {
    value = JSON.parse(strFromU8(bytes));
  } catch {
    return { found: false, why: statement('jobs-neither') };
  }
  const read = readJobFile(value);
  return read.found ? { found: true, bundle: { withoutOwners: false, jobs: [read.file], recordings: [] } } : read;
}
