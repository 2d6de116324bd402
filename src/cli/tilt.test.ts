/** The command as it is called: which way it turns, what a reading's uncertainty does, and what it refuses. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { recordKey } from '../core/record/recordKey.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { readSheet } from './readSheet.ts';
import { command } from './tilt.ts';

const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());
let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
});

async function answer(...args: string[]) {
  heard.out = '';
  await command.run([...args, '--json'], heard.io);
  return JSON.parse(heard.out) as {
    findings: { quantity: string; value: number; uncertainty: number; repeatability: number; verdict: string }[];
    advice: { action: string; amount: number; direction: string; predicts: { value: number }[] }[];
  };
}
const pair = (leftToRight: string, rightToLeft: string) => [
  '--left-to-right',
  leftToRight,
  '--right-to-left',
  rightToLeft,
];

describe('tilt', () => {
  it('28 and 24 dB ask for a trial anticlockwise and predict 25.8 dB; exchanged, for one clockwise', async () => {
    const { findings, advice } = await answer(...pair('28', '24'));
    expect(advice[0]).toMatchObject({ action: 'trial-tilt', direction: 'anticlockwise-from-front' });
    expect(advice[0].predicts.map(({ value }) => value.toFixed(1))).toEqual(['25.8', '25.8']);
    expect(findings[0]).toMatchObject({ quantity: 'azimuth-error', verdict: 'undecided' });
    expect(findings[0].value).toBeCloseTo(0.667, 3);
    // ±2.94° of the phase and ±1.22° of a record without a certificate
    expect(findings[0].uncertainty).toBeCloseTo(Math.hypot(2.94, 1.22), 1);
    const exchanged = await answer(...pair('24', '28'));
    expect(exchanged.advice[0].direction).toBe('clockwise-from-front');
    expect(exchanged.findings[0].value).toBeCloseTo(-0.667, 3);
  });

  it('uses the reading’s uncertainty that it is given', async () => {
    const [wide, narrow] = [
      await answer(...pair('28', '24'), '--reading-uncertainty', '0.4'),
      await answer(...pair('28', '24'), '--reading-uncertainty', '0.1'),
    ];
    expect(wide.findings[0].repeatability).toBeCloseTo(4 * narrow.findings[0].repeatability, 9);
    const mono = ['--left-mono', '0.1', '--right-mono', '0.4'];
    const [wider, surer] = [
      await answer(...pair('28', '24'), ...mono, '--reading-uncertainty', '0.2'),
      await answer(...pair('28', '24'), ...mono, '--reading-uncertainty', '0.05'),
    ];
    expect(wider.findings[0].uncertainty).toBeGreaterThan(surer.findings[0].uncertainty);
  });

  it('uses it for readings from a table too', async () => {
    writeFileSync(
      at('tilts.csv'),
      'tilt_deg,left_to_right_db,right_to_left_db\n-2,26.5,22.8\n0,28,24\n2,27.1,25.4\n4,24.2,26.9\n',
    );
    const [wide, narrow] = [
      await answer('--readings', at('tilts.csv'), '--reading-uncertainty', '0.4'),
      await answer('--readings', at('tilts.csv'), '--reading-uncertainty', '0.1'),
    ];
    expect(wide.findings[0].repeatability).toBeCloseTo(4 * narrow.findings[0].repeatability, 9);
  });

  it('mono sums need no assumption: the sign comes from their difference', async () => {
    // Re c is what the sums say: right louder in mono than left is a tilt clockwise
    const { findings } = await answer(...pair('26', '26'), '--left-mono', '-0.3', '--right-mono', '0.3');
    expect(findings[0].value).toBeCloseTo(1.98, 1);
    const other = await answer(...pair('26', '26'), '--left-mono', '0.3', '--right-mono', '-0.3');
    expect(other.findings[0].value).toBeCloseTo(-findings[0].value, 9);
  });

  it('takes off what is known of the record, and of no other', async () => {
    const sheet = {
      schema: 1,
      name: 'Askew',
      rpm: 33.333,
      bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }],
    };
    writeFileSync(at('plain.json'), JSON.stringify(sheet));
    writeFileSync(at('askew.json'), JSON.stringify({ ...sheet, cut: { tiltDeg: 1, tiltUncertaintyDeg: 0.1 } }));
    const mono = [...pair('26', '26'), '--left-mono', '-0.3', '--right-mono', '0.3'];
    const [blind, told] = [await answer(...mono), await answer(...mono, '--record', at('askew.json'))];
    expect(told.findings[0].value).toBeCloseTo(blind.findings[0].value - 1, 6);
    expect(told.findings[0].uncertainty).toBeLessThan(blind.findings[0].uncertainty);
    const mirror = await answer(...mono, '--set-by-mirror');
    expect(mirror.advice[0].amount).toBeLessThan(blind.advice[0].amount);
    const parts = { re: 0, im: 0 };
    const learned = {
      schema: 1,
      kind: 'learned-record',
      record: { name: 'Askew', key: recordKey(readSheet(at('plain.json'), '--record')) },
      decks: 12,
      leaks: {
        mean: { leftIntoRight: { re: -0.0175, im: 0 }, rightIntoLeft: { ...parts, re: 0.0175 } },
        variance: { tilt: 1e-6, common: 1e-6, quadrature: 1e-6 },
      },
    };
    writeFileSync(at('learned.json'), JSON.stringify(learned));
    const [taught] = (await answer(...mono, '--record', at('plain.json'), '--learned', at('learned.json'))).findings;
    expect(taught.value).toBeCloseTo(blind.findings[0].value - 1, 2);
    writeFileSync(at('other.json'), JSON.stringify({ ...sheet, bands: [{ ...sheet.bands[0], frequencyHz: 315 }] }));
    const other = command.run([...mono, '--record', at('other.json'), '--learned', at('learned.json')], heard.io);
    await expect(other).rejects.toThrow(/learn it again from this one/);
  });

  it('reads mono sums from the table too', async () => {
    writeFileSync(
      at('mono.csv'),
      'tilt_deg,left_to_right_db,right_to_left_db,left_mono_db,right_mono_db\n0,26,26,-0.3,0.3\n',
    );
    expect((await answer('--readings', at('mono.csv'))).findings[0].value).toBeCloseTo(1.98, 1);
  });

  it.each([
    [['--left-to-right', '28'], /needs --left-to-right and --right-to-left/],
    [[...pair('28', '24'), '--left-mono', '0.1'], /belong together/],
    [[...pair('28', '-24')], /right into left is -24/],
    [[...pair('28', '24'), '--left-mono', '-28', '--right-mono', '0'], /left mono is -28/],
  ])('refuses %s with one sentence', async (args, words) => {
    const refused = command.run(args, heard.io);
    await expect(refused).rejects.toThrow(UsageError);
    await expect(refused).rejects.toThrow(words);
    expect(heard.out).toBe('');
  });

  it('a table with one mono column, or a row with one mono cell, is refused by its line', async () => {
    writeFileSync(at('one.csv'), 'tilt_deg,left_to_right_db,right_to_left_db,left_mono_db\n0,26,26,0.1\n');
    await expect(command.run(['--readings', at('one.csv')], heard.io)).rejects.toThrow(/expected together/);
    const header = 'tilt_deg,left_to_right_db,right_to_left_db,left_mono_db,right_mono_db';
    writeFileSync(at('half.csv'), `${header}\n0,26,26,0.1,\n`);
    await expect(command.run(['--readings', at('half.csv')], heard.io)).rejects.toThrow(
      /line 2: nothing in column right_mono_db/,
    );
  });
});
