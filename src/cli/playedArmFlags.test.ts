/** The arm that played, from flags and from its file; what it does to the figures is shown in test/loops. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { playedArm } from './playedArmFlags.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const file = join(folder.path, 'arm.json');
const part = (more: object): void =>
  writeFileSync(file, JSON.stringify({ schema: 1, kind: 'arm', name: 'Nine inches', ...more }));
const lengths = { 'spindle-to-pivot': '222', 'effective-length': '239' };

describe('the arm that played', () => {
  it('is told by its lengths, with its offset where that was given', async () => {
    expect(await playedArm({})).toBeUndefined();
    expect(await playedArm(lengths)).toEqual({ spindleToPivot: 222, effectiveLength: 239 });
    expect(await playedArm({ ...lengths, offset: '23' })).toEqual({
      spindleToPivot: 222,
      effectiveLength: 239,
      offsetDeg: 23,
    });
    expect(await playedArm({ tangential: true })).toBe('tangential');
    expect(await playedArm({ ...lengths, tangential: false })).toEqual({ spindleToPivot: 222, effectiveLength: 239 });
  });

  it('is told by its file, each flag going over it', async () => {
    part({ spindleToPivotMm: 222, effectiveLengthMm: 239, offsetDeg: 23 });
    const whole = { spindleToPivot: 222, effectiveLength: 239, offsetDeg: 23 };
    expect(await playedArm({ arm: file })).toEqual(whole);
    expect(await playedArm({ arm: file, offset: '0' })).toEqual({ ...whole, offsetDeg: 0 });
    expect(await playedArm({ arm: file, 'spindle-to-pivot': '221' })).toEqual({ ...whole, spindleToPivot: 221 });
    expect(await playedArm({ arm: file, 'effective-length': '241' })).toEqual({ ...whole, effectiveLength: 241 });
    part({ spindleToPivotMm: 222 });
    expect(await playedArm({ arm: file, 'effective-length': '239' })).toEqual({
      spindleToPivot: 222,
      effectiveLength: 239,
    });
  });

  it('has an overhang within 50 mm either way', async () => {
    const arm = (effective: string) => playedArm({ 'spindle-to-pivot': '222', 'effective-length': effective });
    expect(await arm('271.9')).toEqual({ spindleToPivot: 222, effectiveLength: 271.9 });
    expect(await arm('172.1')).toEqual({ spindleToPivot: 222, effectiveLength: 172.1 });
    await expect(arm('272')).rejects.toThrow(
      '--effective-length: 272 mm with 222 mm from spindle to pivot was given; an overhang within 50 mm was expected',
    );
    await expect(arm('172')).rejects.toThrow('within 50 mm');
  });

  it('is refused by one sentence where it is half given, or twice, or is no arm', async () => {
    part({});
    const bare = [{ 'spindle-to-pivot': '222' }, { 'effective-length': '239' }, { offset: '23' }, { arm: file }];
    const missing = ['--effective-length', '--spindle-to-pivot', '--spindle-to-pivot', '--spindle-to-pivot'];
    for (const [i, values] of bare.entries()) {
      await expect(playedArm(values)).rejects.toThrow(
        `${missing[i]}: nothing given; spindle to pivot and effective length are both needed`,
      );
    }
    for (const values of bare) {
      await expect(playedArm({ ...values, tangential: true })).rejects.toThrow(
        `--tangential and --${Object.keys(values)[0]} exclude each other; give one of the two`,
      );
    }
    await expect(playedArm({ ...lengths, 'spindle-to-pivot': 'long' })).rejects.toThrow(UsageError);
    await expect(playedArm({ ...lengths, offset: '95' })).rejects.toThrow('--offset: 95 deg was given');
    await expect(playedArm({ arm: join(folder.path, 'none.json') })).rejects.toThrow(UsageError);
  });
});
