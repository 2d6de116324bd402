/** Reads one side in slices, away from the page: the same core as the command line. Stopped by ending the worker. */

import '../noEval.ts';
import { CaptureError } from '../../core/capture/captureError.ts';
import { openRecording } from '../../core/capture/openRecording.ts';
import { parseSheet, type RecordSheet } from '../../core/record/sheet.ts';
import { examineRecording } from '../../core/side/examineSide.ts';
import { say, statement, stopped } from '../../core/words/statement.ts';
import { fileSource } from '../fileSource.ts';
import type { ReadReply, ReadRequest } from './sideMessages.ts';
import { fingerprintBeside, sideThreads } from './sideThreads.ts';

const REPORT_EVERY_MS = 100;
/** the fingerprint begins at this share of the first pass: two threads are busy until its end, one is while what they heard is joined */
const FINGERPRINT_FROM = 0.95;

const reply = (message: ReadReply): void => self.postMessage(message);

/** Something wrong with what was given beside the recording; the message is for the person. */
class GivenError extends Error {}

function recordOf({ name, text }: { name: string; text: string }): { sheet: RecordSheet; notes: readonly string[] } {
  const parsed = parseSheet(text, name);
  if (!parsed.ok) throw new GivenError(stopped(say(parsed.why)));
  return parsed;
}

async function read(request: ReadRequest): Promise<void> {
  const { file, sheet, rpm, nominalSpeedToneHz, flat, arm, limits, bench, learned, preamp, recordResponse } = request;
  const record = sheet === null ? undefined : recordOf(sheet);
  const source = fileSource(file);
  let stage = '';
  let told = 0;
  const recording = await openRecording(source);
  let atJoining = (): void => undefined;
  const joining = new Promise<void>((resolve) => {
    atJoining = resolve;
  });
  const examined = examineRecording(recording, {
    sheet: record?.sheet,
    rpm: rpm ?? undefined,
    nominalSpeedToneHz: nominalSpeedToneHz ?? undefined,
    flat,
    limits,
    bench,
    learned: learned ?? undefined,
    arm: arm ?? undefined,
    preamp: preamp ?? undefined,
    recordResponse: recordResponse ?? undefined,
    withSpectra: true,
    passes: sideThreads(file, recording) ?? undefined,
    onProgress: (progress) => {
      if (progress.stage !== 'finding-bands' || progress.fraction > FINGERPRINT_FROM) atJoining();
      const now = performance.now();
      if (progress.stage === stage && now - told < REPORT_EVERY_MS && progress.fraction < 1) return;
      stage = progress.stage;
      told = now;
      reply({ kind: 'progress', ...progress });
    },
  });
  // of the same bytes: a file that is changed meanwhile can no longer be read
  const [side, sha256] = await Promise.all([
    examined.then((done) => {
      reply({ kind: 'progress', stage: 'fingerprint', fraction: 0 });
      return done;
    }),
    Promise.race([joining, examined]).then(() => fingerprintBeside(file, recording)),
  ]);
  const { document } = side;
  const whole = { ...side, document: { ...document, capture: { ...document.capture, sha256 } } };
  reply({ kind: 'done', side: whole, notes: record?.notes ?? [] });
}

self.onmessage = async (event: MessageEvent<ReadRequest>) => {
  try {
    await read(event.data);
  } catch (error) {
    if (error instanceof CaptureError) reply({ kind: 'failed', sentence: error.message, code: error.code });
    else if (error instanceof GivenError) reply({ kind: 'failed', sentence: error.message, code: 'sheet' });
    else {
      const why = error instanceof Error ? error.message : String(error);
      reply({ kind: 'failed', sentence: say(statement('measuring-broke-off', { why })), code: 'other' });
    }
  }
};
