/** A thread that takes a recording's fingerprint while others listen to it. */
import { CaptureError } from '../../core/capture/captureError.ts';
import { fingerprint } from '../../core/capture/fingerprint.ts';
import type { ThreadFailure } from '../../core/side/threadMessages.ts';
import { fileSource } from '../fileSource.ts';

export type FingerprintReply = { readonly kind: 'fingerprint'; readonly sha256: string } | ThreadFailure;

async function answer(file: File): Promise<FingerprintReply> {
  try {
    return { kind: 'fingerprint', sha256: await fingerprint(fileSource(file)) };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { kind: 'failed', message, code: error instanceof CaptureError ? error.code : null };
  }
}

self.onmessage = async ({ data }: MessageEvent<File>) => self.postMessage(await answer(data));
