/** The flags that say which arm played, and the second recording with the record turned by half a turn: what they change, what they refuse. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/command.ts';
import { heardStreams } from '../../src/cli/heard.fixture.ts';
import { command } from '../../src/cli/measure.ts';
import { playedArm } from '../../src/cli/playedArmFlags.ts';
import { scratchFolder } from '../../src/store/scratch.fixture.ts';
import { recordFile, waveFile } from '../independent/asRecording.ts';
import { capture } from '../independent/capture.ts';
import { type CutBand, type Faults, noFaults } from '../independent/fault.ts';

interface Figure {
  readonly quantity: string;
  readonly value: number;
  readonly uncertainty: number;
  readonly note: string;
  readonly budget: readonly { readonly source: string }[];
}

const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());

const bands: readonly CutBand[] = [
  { motion: 'lateral', hz: [3150], cmS: [5], radiusMm: 138, durationS: 4.2 },
  { motion: 'lateral', hz: [1000], cmS: [5], radiusMm: 70, durationS: 4.2 },
];
const faults: Faults = {
  ...noFaults,
  sampleRateHz: 32_000,
  wow: { percent: 0.06, phaseDeg: 40 },
  hole: { mm: 0.3, deg: 75 },
  noiseDb: -60,
};
const arm = ['--spindle-to-pivot', '222', '--effective-length', '239.296', '--offset', '22.99'];

beforeAll(() => {
  writeFileSync(at('side.wav'), waveFile(capture(bands, faults)));
  // the same places of the record pass the tip when the platter is half a turn further on
  const turned = { ...faults, wow: { percent: 0.06, phaseDeg: 220 } };
  writeFileSync(at('turned.wav'), waveFile(capture(bands, turned)));
  // flat: what a warp may hide would be most of the hole's uncertainty otherwise
  const sheet = recordFile(bands, faults) as { cut?: object };
  writeFileSync(at('side.record.json'), JSON.stringify({ ...sheet, cut: { ...sheet.cut, warpMm: 0.1 } }));
  writeFileSync(
    at('arm.json'),
    JSON.stringify({
      schema: 1,
      kind: 'arm',
      name: 'Nine inches',
      spindleToPivotMm: 222,
      effectiveLengthMm: 239.296,
      offsetDeg: 22.99,
    }),
  );
});

async function measured(...flags: string[]) {
  const heard = heardStreams();
  expect(await command.run([at('side.wav'), '--record', at('side.record.json'), '--json', ...flags], heard.io)).toBe(0);
  const { findings, problems } = JSON.parse(heard.out) as {
    findings: Figure[];
    problems: { code: string; quantity?: string; message: string }[];
  };
  const figure = (quantity: string) => findings.find((f) => f.quantity === quantity)!;
  return { findings, problems, figure };
}
const refused = (...flags: string[]) => command.run([at('side.wav'), ...flags], heardStreams().io);

describe('the arm that played', { timeout: 60_000 }, () => {
  it('given by its lengths tells the hole within what it says, and more surely than an assumed one', async () => {
    const [known, unknown] = [await measured(...arm), await measured()];
    const [sure, unsure] = [known.figure('eccentricity'), unknown.figure('eccentricity')];
    expect(Math.abs(sure.value - 0.3)).toBeLessThan(sure.uncertainty);
    expect(sure.uncertainty).toBeLessThan(0.02);
    expect(unsure.uncertainty).toBeGreaterThan(1.5 * sure.uncertainty);
    expect(unsure.budget.map(({ source }) => source)).toContain('arm not given');
    expect(sure.budget.map(({ source }) => source)).not.toContain('arm not given');
    // how the record seats is said, not part of the figure's uncertainty
    expect(sure.note).toContain('seated again, it may lie 0.1 mm elsewhere');
    const platter = known.figure('once-per-turn-platter');
    expect(Math.abs(platter.value - 0.06)).toBeLessThan(platter.uncertainty);
    expect(platter.uncertainty).toBeLessThan(unknown.figure('once-per-turn-platter').uncertainty);
  });

  it('given by its file is the same arm; a flag goes over the file', async () => {
    expect((await measured('--arm', at('arm.json'))).findings).toEqual((await measured(...arm)).findings);
    expect(await playedArm({ arm: at('arm.json'), 'effective-length': '241', offset: '21.5' })).toEqual({
      spindleToPivot: 222,
      effectiveLength: 241,
      offsetDeg: 21.5,
    });
  });

  it('that is tangential takes e/r: more hole for the same swing than on a 9-inch arm', async () => {
    const [straight, pivoted] = [await measured('--tangential'), await measured(...arm)];
    const ratio = straight.figure('eccentricity').value / pivoted.figure('eccentricity').value;
    expect(ratio).toBeGreaterThan(1.05);
    expect(ratio).toBeLessThan(1.25);
    expect(straight.figure('eccentricity-direction').note).toContain('to the tip');
  });
});

describe('half a turn', { timeout: 60_000 }, () => {
  it('tells the platter’s own part without any arm, in place of the one by two radii', async () => {
    const { findings, figure } = await measured('--half-turn', at('turned.wav'));
    const platter = figure('once-per-turn-platter');
    expect(findings.filter(({ quantity }) => quantity === 'once-per-turn-platter')).toHaveLength(1);
    expect(platter.note).toContain('turned by half a turn');
    expect(Math.abs(platter.value - 0.06)).toBeLessThan(platter.uncertainty);
    // how the record lies the second time is in this figure
    expect(platter.budget.map(({ source }) => source)).toContain('seating of the hole');
  });

  it('with the same recording twice finds no platter', async () => {
    const { figure } = await measured('--half-turn', at('side.wav'));
    expect(figure('once-per-turn-platter').value).toBeLessThan(0.005);
  });

  it('needs a second recording of the same tones, and one first recording', async () => {
    writeFileSync(at('other.wav'), waveFile(capture([{ ...bands[0], hz: [400] }], faults)));
    const { figure, problems } = await measured('--half-turn', at('other.wav'));
    expect(figure('once-per-turn-platter').note).not.toContain('turned by half a turn');
    expect(problems.find((p) => p.quantity === 'once-per-turn-platter')?.message).toContain('in both recordings');
    await expect(refused(at('turned.wav'), '--half-turn', at('turned.wav'))).rejects.toThrow('one recording at a time');
    await expect(refused('--half-turn', at('none.wav'))).rejects.toThrow(UsageError);
  });
});
