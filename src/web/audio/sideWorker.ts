/** Reads one side in slices, away from the page: the same core as the command line. Stopped by ending the worker. */

import { CaptureError } from '../../core/capture/captureError.ts';
import { openRecording } from '../../core/capture/openRecording.ts';
import { bandSpectra } from '../../core/measure/bandSpectra.ts';
import { parseSheet, type RecordSheet } from '../../core/record/sheet.ts';
import { examineRecording } from '../../core/side/examineSide.ts';
import { fileSource } from '../fileSource.ts';
import { watchReads } from './readWatch.ts';
import type { ReadReply, ReadRequest } from './sideMessages.ts';

const REPORT_EVERY_MS = 100;

const reply = (message: ReadReply): void => self.postMessage(message);

/** Something wrong with what was given beside the recording; the message is for the person. */
class GivenError extends Error {}

function recordOf({ name, text }: { name: string; text: string }): { sheet: RecordSheet; notes: readonly string[] } {
  const parsed = parseSheet(text, name);
  if (!parsed.ok) throw new GivenError(parsed.why);
  return parsed;
}

async function read(request: ReadRequest): Promise<void> {
  const { file, sheet, rpm, nominalSpeedToneHz, flat } = request;
  const record = sheet === null ? undefined : recordOf(sheet);
  const source = await watchReads(fileSource(file));
  let stage = '';
  let told = 0;
  const recording = await openRecording(source);
  const side = await examineRecording(recording, {
    sheet: record?.sheet,
    rpm: rpm ?? undefined,
    nominalSpeedToneHz: nominalSpeedToneHz ?? undefined,
    flat,
    onProgress: (progress) => {
      if (progress.stage !== stage) {
        stage = progress.stage;
        told = 0;
        source.rewind();
      }
      const now = performance.now();
      if (now - told < REPORT_EVERY_MS && progress.fraction < 1) return;
      told = now;
      reply({ kind: 'progress', ...progress, bytes: source.position() });
    },
  });
  reply({ kind: 'progress', stage: 'spectra', fraction: 0, bytes: file.size });
  const spectra = await bandSpectra(recording, side.document.bands);
  reply({ kind: 'progress', stage: 'fingerprint', fraction: 0, bytes: file.size });
  const sha256 = await source.fingerprint();
  const { document } = side;
  const whole = {
    ...side,
    document: {
      ...document,
      capture: { ...document.capture, sha256 },
      curves: [...document.curves, ...spectra],
    },
  };
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
      reply({ kind: 'failed', sentence: `Measuring broke off: ${why}. The recording was not touched.`, code: 'other' });
    }
  }
};
