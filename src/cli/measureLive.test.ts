/** Sound that comes through a pipe is measured as the page measures it; what comes of a pass can be measured again as a file. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './measure.ts';
import { hearSource, type LiveSource } from './measureLive.ts';
import { startRecorder } from './recorders.ts';

const RATE = 44_100;
const folder = scratchFolder();
afterAll(() => folder.remove());

let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
});

/** 16-bit frames: groove, left tone, groove, right tone, groove; cut where a pipe would cut them. */
async function* piped(): AsyncGenerator<Uint8Array> {
  const seconds = [1, 3, 1, 3, 1];
  const frames = seconds.reduce((sum, s) => sum + s * RATE, 0);
  const samples = new Int16Array(2 * frames);
  let seed = 1;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return 30 * (seed / 2 ** 31 - 1);
  };
  let n = 0;
  for (const [i, s] of seconds.entries()) {
    const [l, r] = i === 1 ? [9000, 270] : i === 3 ? [-180, 9000] : [0, 0];
    for (const until = n + s * RATE; n < until; n++) {
      const wave = Math.sin((2 * Math.PI * 1000 * n) / RATE);
      samples[2 * n] = Math.round(l * wave + hiss());
      samples[2 * n + 1] = Math.round(r * wave + hiss());
    }
  }
  const bytes = new Uint8Array(samples.buffer);
  for (let at = 0; at < bytes.length; at += 4001) yield bytes.subarray(at, at + 4001);
}

const source = (): LiveSource => ({
  name: 'standard input',
  sampleRateHz: RATE,
  channels: 2,
  format: { code: 'int16', bitDepth: 16, encoding: 'integer' },
  samples: piped(),
});

describe('measure --input', () => {
  it('gives a line of JSON for each band and each pass, and keeps the pass', async () => {
    expect(await hearSource(source(), {}, { json: true, keep: folder.path }, heard.io)).toBe(0);
    const lines = heard.out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines.map(({ kind }) => kind)).toEqual(['band', 'band', 'pass']);
    expect(lines.slice(0, 2).map(({ band }) => band.motion)).toEqual(['left', 'right']);
    const tiltOf = ({ findings }: { findings: { quantity: string; value: number }[] }) =>
      findings.find(({ quantity }) => quantity === 'azimuth-error')?.value;
    const live = tiltOf(lines[2]);
    expect(readdirSync(folder.path)).toEqual(['pass 1.wav']);
    const again = heardStreams();
    const path = join(folder.path, 'pass 1.wav');
    expect(lines[2].capture.file).toBe(path);
    expect(await command.run([path, '--json'], again.io)).toBe(0);
    expect(Math.abs((tiltOf(JSON.parse(again.out)) ?? 9) - (live ?? 0))).toBeLessThan(0.02);
    // how it was heard is inside, before the samples
    const bytes = readFileSync(path);
    const comment = /ICMT....(\{.*?\})\0/s.exec(bytes.subarray(0, 4096).toString('latin1'))?.[1] ?? '';
    expect(JSON.parse(comment)).toEqual({
      ...{ begunAt: expect.stringMatching(/^\d{4}-\d\d-\d\dT/), endedAt: expect.stringMatching(/^\d{4}-\d\d-\d\dT/) },
      ...{ input: 'standard input', recorder: null, sampleRateHz: RATE, inputBitDepth: 16, inputChannels: 2 },
      ...{ record: null, rpm: null, nominalSpeedToneHz: null, flat: false, pass: 1 },
    });
    // nothing is written over
    await expect(hearSource(source(), {}, { json: true, keep: folder.path }, heard.io)).rejects.toThrow(
      'it is there already',
    );
    expect(readFileSync(path).equals(bytes)).toBe(true);
  });

  it('tells each band in words, with the tilt once both are heard', async () => {
    await hearSource(source(), {}, { json: false }, heard.io);
    expect(heard.out).toMatch(
      /^band 1 · left only tone 1000\.\d Hz · [23]\.\d s\nband 2 · right only tone .* · tilt [+−]/,
    );
    expect(heard.out).toContain('pass 1');
    expect(heard.err).toContain('Stereo: left and right differ');
  });

  it('refuses what does not go together, in one sentence', async () => {
    const refused = (...args: string[]) => expect(command.run(args, heard.io)).rejects;
    await refused('--input', '-', 'a.wav').toThrow('no file beside it');
    await refused('--input', '-', '--report', 'r.html').toThrow('take recordings');
    await refused('a.wav', '--rate', '48000').toThrow('--rate goes with --input');
    await refused('--input', '-', '--format', 'mp3').toThrow('one of s16le, s24le, s32le, f32le was expected');
    await refused('--input', '-', '--channels', '0').toThrow('a whole number from 1 to 64');
    await refused('--input', 'hw:0', '--format', 's16le').toThrow('go with --input -');
    expect(() => startRecorder('hw:0', RATE, 'rm')).toThrow('one of arecord, sox, ffmpeg was expected');
    expect(() => startRecorder('-o x', RATE)).toThrow('the name of a sound device');
  });
});
