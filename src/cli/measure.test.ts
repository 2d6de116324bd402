/** The command as it is called; what is measured has its own tests. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './measure.ts';

const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());

let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
});

const noise = wave(seededIntegers(240_000, 16, 5), 16);
writeFileSync(at('one.wav'), noise);
writeFileSync(at('two.wav'), noise);
writeFileSync(at('list.wav'), 'a shopping list');

describe('measure', () => {
  it('one file of many that cannot be read is told, and does not take the others with it', async () => {
    const status = await command.run([at('one.wav'), at('list.wav'), at('two.wav'), '--json'], heard.io);
    expect(status).toBe(2);
    expect(heard.err).toMatch(/^platterside: list\.wav is not a recording: .*\n$/);
    const documents = JSON.parse(heard.out) as { capture: { file: string } }[];
    expect(documents.map(({ capture }) => capture.file)).toEqual(['one.wav', 'two.wav']);
  });

  it('one file that cannot be read alone is bad usage, and nothing is printed', async () => {
    await expect(command.run([at('list.wav')], heard.io)).rejects.toThrow(UsageError);
    expect(heard.out).toBe('');
  });

  it('says before it measures that the report has nowhere to go, and never writes over an input', async () => {
    await expect(command.run([at('one.wav'), '--report', at('none/report.html')], heard.io)).rejects.toThrow(
      'cannot be written (there is no such folder)',
    );
    await expect(command.run([at('one.wav'), '--report', folder.path], heard.io)).rejects.toThrow(
      'cannot be written (it is a folder)',
    );
    await expect(command.run([at('one.wav'), '--report', join(folder.path, '.', 'one.wav')], heard.io)).rejects.toThrow(
      'which this command reads',
    );
    expect(readFileSync(at('one.wav')).equals(noise)).toBe(true);
  });

  it('counts the bands of the page for people from one, as the problems do', async () => {
    await command.run([at('one.wav')], heard.io);
    expect(heard.out).toMatch(/\nbands\n {3}1 .* s {2}.*noise/);
    expect(heard.out).toContain('Band 1 was already playing when the recording began.');
  });
});
