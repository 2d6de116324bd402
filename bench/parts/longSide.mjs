// Writes a long capture by repeating a simulated side: 24 bit, as many minutes as asked for.
import { spawnSync } from 'node:child_process';
import { closeSync, openSync, readFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';

/** A 44-byte header for 24-bit stereo PCM. */
function header(sampleRate, dataBytes) {
  const bytes = Buffer.alloc(44);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(36 + dataBytes, 4);
  bytes.write('WAVEfmt ', 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(2, 22);
  bytes.writeUInt32LE(sampleRate, 24);
  bytes.writeUInt32LE(sampleRate * 6, 28);
  bytes.writeUInt16LE(6, 32);
  bytes.writeUInt16LE(24, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(dataBytes, 40);
  return bytes;
}

/** Offset and length of the samples in a WAV of known good make. */
function samplesOf(bytes) {
  let at = 12;
  for (;;) {
    const length = bytes.readUInt32LE(at + 4);
    if (bytes.toString('latin1', at, at + 4) === 'data') return bytes.subarray(at + 8, at + 8 + length);
    at += 8 + length + (length % 2);
  }
}

export function writeLongSide(cli, folder, file, { minutes, rateHz }) {
  const short = join(folder, 'short.wav');
  const made = spawnSync(
    process.execPath,
    [cli, 'simulate', '--seed', '1', '--rate', String(rateHz), '--bits', '24', '-o', short, '--replace'],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  );
  if (made.status !== 0) throw new Error('the side to repeat could not be simulated');
  const samples = samplesOf(readFileSync(short));
  const total = Math.round(minutes * 60 * rateHz) * 6;
  const out = openSync(file, 'w');
  writeSync(out, header(rateHz, total));
  for (let written = 0; written < total; ) {
    const part = samples.subarray(0, Math.min(samples.length, total - written));
    writeSync(out, part);
    written += part.length;
  }
  closeSync(out);
}
