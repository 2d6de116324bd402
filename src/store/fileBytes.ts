/** Bytes as this platform handles them, for the formats of core that have no platform. */
import { createHash } from 'node:crypto';
import type { Bytes } from '../core/job/bundle.ts';

export const platformBytes: Bytes = {
  fingerprint: (bytes) => createHash('sha256').update(bytes).digest('hex'),
  toBase64: (bytes) => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('base64'),
};
