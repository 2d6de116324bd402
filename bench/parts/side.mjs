// Part `side`: a whole side, everything measured, beside general programs that only decode it or count its samples.
import { spawnSync } from 'node:child_process';
import { rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { writeLongSide } from './longSide.mjs';
import { timed } from './timed.mjs';

const MINUTES = 25;
const RATE = 96_000;

const has = (command) => spawnSync(command, ['--version'], { stdio: 'ignore' }).error === undefined;
const told = ({ seconds, busy }) => `${seconds.toFixed(1)} s, ${busy.toFixed(1)} s of processor time`;

export async function* side({ folder, cli }) {
  const file = join(folder, 'side.wav');
  writeLongSide(cli, folder, file, { minutes: MINUTES, rateHz: RATE });
  const ours = await timed(process.execPath, [cli, 'measure', file, '--json']);
  const name = `${MINUTES} min at 96 kHz/24 bit, ${(statSync(file).size / 1e6).toFixed(0)} MB`;
  yield { what: `${name}: measure`, value: `${told(ours)}, ${ours.megabytes.toFixed(0)} MB of memory` };
  const ffmpeg = (...rest) => ['-hide_banner', '-nostats', '-nostdin', ...rest, '-f', 'null', '-'];
  const others = [
    ['FFmpeg, bare decoding', 'ffmpeg', ffmpeg('-i', file), 2],
    ['FFmpeg astats, as it comes', 'ffmpeg', ffmpeg('-i', file, '-af', 'astats'), null],
    ['FFmpeg astats, one filter thread', 'ffmpeg', ffmpeg('-filter_threads', '1', '-i', file, '-af', 'astats'), null],
    ['SoX stat', 'sox', [file, '-n', 'stat'], null],
  ];
  for (const [what, command, args, aim] of others) {
    if (!has(command)) {
      yield { what, value: `not measured: there is no ${command} here` };
      continue;
    }
    const theirs = await timed(command, args);
    yield { what, value: told(theirs) };
    yield {
      what: `measure against ${what}`,
      value: `${(ours.busy / theirs.busy).toFixed(1)} times the processor time, ${(ours.seconds / theirs.seconds).toFixed(2)} times as long`,
      aim: aim === null ? undefined : `at most ${aim} times the processor time`,
    };
  }
  rmSync(file);
}
