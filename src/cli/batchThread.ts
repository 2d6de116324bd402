/** A thread of `batch work`: takes the fingerprint of a recording, or measures one by a record file that comes as text. */

import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import { parentPort } from 'node:worker_threads';
import type { SideDocument } from '../core/advise/document.ts';
import type { NamedLimits } from '../core/advise/limitsFile.ts';
import { CaptureError } from '../core/capture/captureError.ts';
import { openRecording } from '../core/capture/openRecording.ts';
import { parseSheet } from '../core/record/sheet.ts';
import { examineRecording } from '../core/side/examineSide.ts';
import { say } from '../core/words/statement.ts';
import { whyUnread } from './fileReason.ts';
import { openFileSource } from './fileSource.ts';

export interface BatchRequest {
  readonly file: string;
  /** left out: only the fingerprint is asked for */
  readonly measure?: { readonly record: string; readonly sha256: string; readonly limits?: NamedLimits };
}
type Wanted = NonNullable<BatchRequest['measure']>;
export type BatchReply =
  | { readonly ok: true; readonly result: string | SideDocument }
  | { readonly ok: false; readonly why: string };

async function fingerprintOf(file: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const bytes of createReadStream(file)) hash.update(bytes);
  return hash.digest('hex');
}

async function measure(file: string, { record, sha256, limits }: Wanted): Promise<SideDocument> {
  const parsed = parseSheet(record, 'the record file of the batch');
  if (!parsed.ok) throw new Error(say(parsed.why));
  const source = await openFileSource(file);
  try {
    const { document } = await examineRecording(await openRecording(source), { sheet: parsed.sheet, sha256, limits });
    if ((await fingerprintOf(file)) !== sha256) {
      throw new Error(`${basename(file)} was changed since its fingerprint was taken; batch add takes it in anew`);
    }
    return { ...document, capture: { ...document.capture, path: file } };
  } finally {
    await source.close();
  }
}

const whyOf = (error: unknown, file: string): string => {
  if (error instanceof CaptureError) return error.message;
  const { code, message } = error as NodeJS.ErrnoException;
  return code === undefined
    ? message
    : `${basename(file)} cannot be read (${whyUnread(error as NodeJS.ErrnoException)})`;
};

const port = parentPort!;
port.on('message', ({ file, measure: wanted }: BatchRequest) => {
  const work = wanted === undefined ? fingerprintOf(file) : measure(file, wanted);
  work.then(
    (result) => port.postMessage({ ok: true, result } satisfies BatchReply),
    (error: unknown) => port.postMessage({ ok: false, why: whyOf(error, file) } satisfies BatchReply),
  );
});
