// Part `memory`: the most that `measure` holds, from ten seconds to three hours.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { writeLongSide } from './longSide.mjs';
import { timed } from './timed.mjs';

/** 48 kHz: three hours of it stay under the 4 GB that a WAV can say. */
const RATE = 48_000;
const MINUTES = [1 / 6, 25, 50, 180];

export async function* memory({ folder, cli }) {
  let first = null;
  for (const minutes of MINUTES) {
    const file = join(folder, 'long.wav');
    writeLongSide(cli, folder, file, { minutes, rateHz: RATE });
    const { megabytes, seconds } = await timed(process.execPath, [cli, 'measure', file, '--json']);
    rmSync(file);
    first ??= megabytes;
    const long = minutes < 1 ? `${(minutes * 60).toFixed(0)} s` : `${minutes} min`;
    yield {
      what: `memory, ${long} at 48 kHz/24 bit`,
      value: `${megabytes.toFixed(0)} MB, ${(megabytes / first).toFixed(2)} times that of 10 s; ${seconds.toFixed(1)} s`,
      aim: minutes === MINUTES.at(-1) ? 'flat' : undefined,
    };
  }
}
