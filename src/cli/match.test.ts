import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { demoArm, demoParts } from '../core/job/demoParts.ts';
import { partsToJson } from '../core/job/partsJson.ts';
import { heardStreams } from './heard.fixture.ts';
import { command } from './match.ts';

const folder = mkdtempSync(join(tmpdir(), 'platterside-match-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function run(...args: string[]) {
  const heard = heardStreams();
  const status = await command.run(args, heard.io);
  const { out, err } = heard;
  return { status, out, err, json: () => JSON.parse(out) };
}

const whole = [
  ...[
    '--effective-mass',
    '10',
    '--cartridge-mass',
    '7',
    '--hardware-mass',
    '1',
    '--compliance',
    '12',
    '--compliance-at',
    '10hz',
  ],
  ...['--tracking-force', '19.6133', '--effective-length', '239.296', '--spindle-to-pivot', '222'],
  ...['--coil-resistance', '1000', '--coil-inductance', '500', '--output-mv', '5', '--load-resistance', '47000'],
  ...['--load-capacitance', '250', '--gain', '40', '--max-output', '8'],
];
const values = (document: { findings: { quantity: string; value: number }[] }) =>
  Object.fromEntries(document.findings.map((f) => [f.quantity, f.value]));

describe('match', () => {
  test('--limits decides the verdicts, and a file with a fault is refused', async () => {
    const file = join(folder, 'own.limits.json');
    writeFileSync(file, JSON.stringify({ schema: 1, limits: { 'arm-resonance-to': { good: 9, bad: 10 } } }));
    const verdict = async (...args: string[]) =>
      (await run(...whole, ...args, '--json'))
        .json()
        .findings.find(({ quantity }: { quantity: string }) => quantity === 'arm-resonance').verdict;
    expect([await verdict(), await verdict('--limits', file)]).toEqual(['good', 'bad']);
    writeFileSync(file, JSON.stringify({ schema: 1, limits: { 'arm-resonance': { good: 9, bad: 10 } } }));
    await expect(run(...whole, '--limits', file)).rejects.toThrow(/limits.arm-resonance: no such limit/);
  });

  test('--json is one document with the contract’s keys', async () => {
    const { status, json, err } = await run(...whole, '--json');
    expect(status).toBe(0);
    expect(err).toBe('');
    const document = json();
    expect(Object.keys(document)).toEqual(['schema', 'findings', 'advice', 'problems', 'curves']);
    expect(document.schema).toBe(1);
    expect(values(document)['arm-resonance']).toBeCloseTo(10.82912, 5);
    for (const finding of document.findings) {
      expect(Object.keys(finding)).toEqual(
        expect.arrayContaining(['quantity', 'value', 'unit', 'uncertainty', 'bands', 'verdict', 'note']),
      );
    }
  });

  test('a readable table without --json, with what is withheld and why', async () => {
    const { status, out } = await run('--gain', '40', '--output-mv', '5', '--max-output', '8');
    expect(status).toBe(0);
    expect(out).toContain('Headroom of the preamp');
    expect(out).toContain('withheld: load-peak, load-peak-frequency, load-deviation-20khz, thermal-noise');
    expect(out).not.toMatch(/NaN|undefined/);
  });

  test('nothing that can be given: status 1, and the document says why', async () => {
    const { status, json, err } = await run('--json');
    expect(status).toBe(1);
    expect(json().findings).toEqual([]);
    expect(json().problems.length).toBeGreaterThan(0);
    expect(err).toContain('nothing can be matched');
  });

  test('part files, and a flag over them', async () => {
    const arm = join(folder, 'arm.json');
    const cartridge = join(folder, 'cartridge.json');
    writeFileSync(arm, JSON.stringify(demoArm));
    writeFileSync(cartridge, partsToJson(demoParts.filter((part) => part.name === 'bench moving magnet')));
    const first = values((await run('--arm', arm, '--cartridge', cartridge, '--json')).json());
    expect(first['arm-resonance']).toBeCloseTo(159.154943 / Math.sqrt(16.5 * 13), 5);
    const over = values((await run('--arm', arm, '--cartridge', cartridge, '--compliance', '10', '--json')).json());
    expect(over['arm-resonance']).toBeCloseTo(159.154943 / Math.sqrt(16.5 * 10), 5);
  });

  test('distance and overhang give the length', async () => {
    const skating = async (...flags: string[]) =>
      values((await run('--tracking-force', '20', '--json', ...flags)).json())['skating-force-inner'];
    const direct = await skating('--effective-length', '239.3', '--spindle-to-pivot', '222');
    expect(await skating('--overhang', '17.3', '--spindle-to-pivot', '222')).toBeCloseTo(direct, 9);
    expect(await skating('--overhang', '17.3', '--effective-length', '239.3')).toBeCloseTo(direct, 9);
    expect(await skating('--effective-length', '239.3', '--spindle-to-pivot', '222', '--friction', '0.15')).toBeCloseTo(
      direct / 2,
      9,
    );
  });

  test('a flag takes its figure with its unit, comma or point', async () => {
    const flags = ['--effective-mass', '11.5', '--cartridge-mass', '6.5', '--hardware-mass', '1', '--compliance', '12'];
    const whole = async (...more: string[]) => JSON.stringify((await run('--json', ...flags, ...more)).json());
    const plain = await whole('--tracking-force', '17.65197', '--effective-length', '239.3');
    expect(await whole('--tracking-force', '1.8 g', '--effective-length', '23,93cm')).toBe(plain);
    expect(await whole('--tracking-force', '17.65197mN', '--effective-length', '239.3 mm')).toBe(plain);
  });

  test.each([
    [['--gain', 'loud'], /--gain: 'loud' is no number; a number from 0 to 120 dB was expected/],
    [['--gain', '300'], /--gain is 300 dB; from 0 to 120 dB was expected/],
    [['--compliance-at', '20hz'], /--compliance-at: found '20hz'; static, 10hz or 100hz was expected/],
    [
      ['--arm', join(folder, 'none.json')],
      /none.json: cannot be read \(there is no such file\); a JSON file of one arm was expected/,
    ],
    [['--load-resistance', '47,000'], /'47,000' may mean two numbers; a number from 1 to 10000000 Ω was expected/],
    [['--groove', '60'], /groove span '60'/],
    [['--overhang', '17', '--effective-length', '239', '--spindle-to-pivot', '222'], /two of the three/],
    [['--wobble', '3'], /wobble/],
  ])('%j is refused in one sentence', async (args, sentence) => {
    await expect(run(...(args as string[]))).rejects.toThrow(sentence as RegExp);
  });

  test('a part of another kind is refused by name', async () => {
    const file = join(folder, 'shell.json');
    writeFileSync(file, JSON.stringify({ schema: 1, kind: 'headshell', name: 'shell', massG: 8 }));
    await expect(run('--arm', file)).rejects.toThrow("found headshell 'shell'; exactly one arm was expected");
    writeFileSync(file, '{"schema": 1, "kind": "arm", "name": "x", "effectiveMassG": "heavy"}');
    await expect(run('--arm', file)).rejects.toThrow(
      "effectiveMassG: found 'heavy', expected a number from 0.5 to 300 g",
    );
  });
});
