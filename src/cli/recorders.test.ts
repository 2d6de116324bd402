/** Recorders by their names, with programs of the test’s own in their place. */
import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Recorder, startRecorder } from './recorders.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const [bin, other] = ['bin', 'other'].map((name) => join(folder.path, name));

beforeEach(() => {
  for (const place of [bin, other]) {
    folder.remove();
    mkdirSync(place, { recursive: true });
  }
  mkdirSync(bin, { recursive: true });
  // the shell lies beside them, for the programs are scripts
  vi.stubEnv('PATH', ['', '/nowhere', bin, other].join(delimiter));
});
afterEach(() => vi.unstubAllEnvs());

/** @param what it does, in the shell's words; its arguments are what it says */
function program(name: string, what = `printf '%s|' "$@"`, place = bin): void {
  writeFileSync(join(place, name), `#!/bin/sh\n${what}\n`);
  chmodSync(join(place, name), 0o755);
}
async function heard({ samples }: Recorder): Promise<string> {
  let text = '';
  for await (const bytes of samples) text += Buffer.from(bytes).toString();
  return text;
}
const called = async (device: string, named?: string) => {
  const recorder = startRecorder(device, 44_100, named);
  return [recorder.program, (await heard(recorder)).split('|').slice(0, -1).join(' ')];
};

describe('a recorder', () => {
  it('is the first that is there, or the one that is named, and is asked for 32-bit stereo at the rate', async () => {
    program('ffmpeg', undefined, other);
    const ffmpeg = '-nostdin -loglevel error -f alsa -ac 2 -ar 44100 -i hw:1 -f s32le -';
    expect(await called('hw:1')).toEqual(['ffmpeg', ffmpeg]);
    program('sox');
    const sox = '-q --no-show-progress -t alsa -r 44100 -c 2 hw:1 -t raw -e signed-integer -b 32 -L -';
    expect(await called('hw:1')).toEqual(['sox', sox]);
    program('arecord');
    expect(await called('hw:1')).toEqual(['arecord', '-q -t raw -D hw:1 -f S32_LE -c 2 -r 44100 -']);
    expect(await called('hw:1', 'ffmpeg')).toEqual(['ffmpeg', ffmpeg]);
    expect(await called('hw:1', 'sox')).toEqual(['sox', sox]);
  });

  it('of a sound server is FFmpeg and no other', async () => {
    program('arecord');
    expect(() => startRecorder('pulse:mic', 44_100)).toThrow(
      '--input pulse:mic: no recorder was found (ffmpeg); install one',
    );
    program('ffmpeg');
    expect(await called('pulse:mic')).toEqual([
      'ffmpeg',
      '-nostdin -loglevel error -f pulse -ac 2 -ar 44100 -i mic -f s32le -',
    ]);
    expect(() => startRecorder('pulse:mic', 44_100, 'arecord')).toThrow('no recorder was found (arecord)');
  });

  it('that is not there is told with what would do', () => {
    expect(() => startRecorder('hw:1', 44_100)).toThrow(
      '--input hw:1: no recorder was found (arecord, sox, ffmpeg); install one, or pipe samples into --input -',
    );
    program('sox');
    chmodSync(join(bin, 'sox'), 0o644);
    if (process.getuid?.() !== 0) expect(() => startRecorder('hw:1', 44_100)).toThrow(UsageError);
    expect(() => startRecorder('hw:1', 44_100, 'arecord')).toThrow('no recorder was found (arecord)');
    vi.stubEnv('PATH', undefined);
    expect(() => startRecorder('hw:1', 44_100, 'arecord')).toThrow(UsageError);
  });

  it('is asked for by a name that is one, of a device that is one', () => {
    expect(() => startRecorder('hw:1', 44_100, 'rm')).toThrow(
      '--recorder rm: one of arecord, sox, ffmpeg was expected',
    );
    expect(() => startRecorder('hw:1', 44_100, 'constructor')).toThrow('--recorder constructor');
    for (const device of ['-', '-o x', '']) {
      expect(() => startRecorder(device, 44_100)).toThrow('the name of a sound device, or - for standard input');
    }
  });
});

describe('how it ended', () => {
  const ended = async (what: string) => {
    program('arecord', what);
    const recorder = startRecorder('hw:1', 44_100);
    await heard(recorder);
    return recorder.fault();
  };

  it('is told by the last line that it said, or by its status', async () => {
    expect(await ended("printf 'busy\\nno such device \\n\\n' >&2; exit 1")).toBe('no such device');
    expect(await ended('exit 7')).toBe('it ended with status 7');
    expect(await ended('exit 0')).toBe('it ended with status 0');
    // of much that it said the end counts
    expect(await ended("i=0; while [ $i -lt 200 ]; do printf 'x%.0s' 1 2 3 4 5 >&2; i=$((i+1)); done")).toHaveLength(
      400,
    );
  });

  it('is no fault where it was stopped', async () => {
    program('arecord', `printf 'a'; exec /bin/sleep 30`);
    const recorder = startRecorder('hw:1', 44_100);
    for await (const bytes of recorder.samples) {
      expect(Buffer.from(bytes).toString()).toBe('a');
      recorder.stop();
    }
    expect(await recorder.fault()).toBeNull();
  });

  it('is told where it could not be started at all', async () => {
    writeFileSync(join(bin, 'arecord'), '#!/nowhere/interpreter\n');
    chmodSync(join(bin, 'arecord'), 0o755);
    const recorder = startRecorder('hw:1', 44_100);
    expect(await recorder.fault()).toMatch(/ENOENT/);
  });
});
