/** What the flags and part files of `match` come to, every key of it; the verdicts have tests of their own. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { withheld } from '../core/capture/problem.ts';
import { tiltedSide, turnAdvice } from '../core/job/side.fixture.ts';
import { statement } from '../core/words/statement.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './match.ts';

const told = vi.hoisted(() => ({ asked: [] as object[], document: {} as object }));
vi.mock('../core/advise/match.ts', () => ({
  matchDocument(asked: object) {
    told.asked.push(asked);
    return told.document;
  },
}));
const folder = scratchFolder();
afterAll(() => folder.remove());
const at = (name: string) => join(folder.path, name);
let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
  Object.assign(told, { asked: [], document: { findings: [], advice: [], problems: [] } });
});
const run = (...args: string[]) => command.run(args, heard.io);
const asked = async (line: string): Promise<object> => {
  await run(...line.split(' ').filter(Boolean));
  return Object.fromEntries(Object.entries(told.asked.at(-1) as object).filter(([, value]) => value !== undefined));
};
const arm = (more: object) => {
  writeFileSync(at('arm.json'), JSON.stringify({ schema: 1, kind: 'arm', name: 'x', ...more }));
  return `--arm ${at('arm.json')}`;
};

it('each flag gives its figure', async () => {
  expect(await asked('')).toEqual({});
  expect(await asked('--effective-mass 11 --gain 40 --friction 0.3 --step-up 10 --stub-from 5 --stub-to 60')).toEqual({
    ...{ effectiveMassG: 11, gainDb: 40, friction: 0.3, stepUp: 10, stubFromMm: 5, stubToMm: 60 },
  });
  expect(await asked('--groove 60,146 --offset 23')).toEqual({ grooveInnerMm: 60, grooveOuterMm: 146 });
  for (const basis of ['static', '10hz', '100hz'])
    expect(await asked(`--compliance-at ${basis}`)).toEqual({ complianceAt: basis });
});

it('a flag goes over the figure of a part', async () => {
  const file = arm({ effectiveMassG: 9, effectiveLengthMm: 239 });
  expect(await asked(file)).toMatchObject({ effectiveMassG: 9, effectiveLengthMm: 239 });
  expect(await asked(`${file} --effective-mass 11`)).toMatchObject({ effectiveMassG: 11, effectiveLengthMm: 239 });
  writeFileSync(at('c.json'), JSON.stringify({ schema: 1, kind: 'cartridge', name: 'c', massG: 6 }));
  expect(await asked(`${file} --cartridge ${at('c.json')}`)).toMatchObject({ effectiveMassG: 9, cartridgeMassG: 6 });
});

describe('an overhang', () => {
  it('gives the length that no flag gave', async () => {
    expect(await asked('--overhang 17')).toEqual({});
    expect(await asked('--overhang 17 --effective-length 239')).toEqual({
      effectiveLengthMm: 239,
      spindleToPivotMm: 222,
    });
    expect(await asked('--overhang 17 --spindle-to-pivot 222')).toEqual({
      effectiveLengthMm: 239,
      spindleToPivotMm: 222,
    });
    expect(await asked(`--overhang 17 ${arm({ spindleToPivotMm: 222 })}`)).toMatchObject({ effectiveLengthMm: 239 });
    expect(await asked(`--overhang 17 ${arm({ effectiveLengthMm: 239 })}`)).toMatchObject({ spindleToPivotMm: 222 });
    const both = arm({ spindleToPivotMm: 222, effectiveLengthMm: 240 });
    expect(await asked(`--overhang 17 ${both}`)).toMatchObject({ spindleToPivotMm: 222, effectiveLengthMm: 239 });
    expect(await asked(`--overhang 17 ${both} --effective-length 238`)).toMatchObject({
      ...{ effectiveLengthMm: 238, spindleToPivotMm: 221 },
    });
    expect(await asked(`--overhang 17 ${both} --spindle-to-pivot 230`)).toMatchObject({
      ...{ effectiveLengthMm: 247, spindleToPivotMm: 230 },
    });
  });

  it.each([
    ['--overhang 17 --effective-length 239 --spindle-to-pivot 222', 'two of the three were expected'],
    ['--overhang 101', '--overhang is 101 mm; from -100 to 100 mm was expected'],
    ['--overhang much', "--overhang: 'much' is no number; a length in mm was expected"],
    ['--offset 61', '--offset is 61 deg; from -60 to 60 deg was expected'],
    ['--offset much', 'an angle in degrees was expected'],
    ['--compliance-at 20hz', "--compliance-at: found '20hz'; static, 10hz or 100hz was expected"],
    ['--friction much', "--friction: 'much' is no number; a number from 0 to 1 was expected"],
    ['--gain much', 'a number from 0 to 120 dB was expected'],
    ['--load-resistance 47,000', "--load-resistance: '47,000' may mean two numbers"],
  ])('or a figure that is none is refused: %s', async (line, sentence) => {
    await expect(asked(line)).rejects.toThrow(sentence);
    expect(told.asked).toEqual([]);
  });
});

describe('the answer', () => {
  const [finding] = tiltedSide.findings;
  const missing = withheld('arm-resonance', statement('no-chains'));

  it('without a figure ends with 1 and says how to ask', async () => {
    expect(await run('--json')).toBe(1);
    expect(heard.out).toBe(`${JSON.stringify(told.document, null, 2)}\n`);
    expect(heard.err).toBe(
      'platterside: nothing can be matched from what was given; platterside match --help tells the flags.\n',
    );
    heard = heardStreams();
    expect(await run()).toBe(1);
    expect(heard.out).toBe('\n');
  });

  it('has figures, advice and what is withheld under each other', async () => {
    told.document = { findings: [{ ...finding, low: 28, high: 32 }], advice: [turnAdvice], problems: [] };
    expect(await run()).toBe(0);
    const parts = heard.out.split('\n\n');
    // a part's range is no interval of a reading
    expect(parts[0]).toMatch(/^ {2}Separation, left into right {2}30\.30 ± 0\.10 dB/);
    expect(parts[1]).toMatch(/^ {2}turn the cartridge: /);
    expect(parts).toHaveLength(2);
    expect(heard.err).toBe('');
    told.document = { findings: [finding], advice: [], problems: [missing] };
    heard = heardStreams();
    expect(await run()).toBe(0);
    expect(heard.out.split('\n\n')[1]).toMatch(/^ {2}withheld: arm-resonance\n {4}\S.*[.!?]\n$/);
    heard = heardStreams();
    await command.run([], { ...heard.io, colour: true });
    expect(heard.out).toContain('\u001b[33madjust');
  });

  it('goes by the limits of a file', async () => {
    writeFileSync(at('own.limits.json'), '{"schema": 1, "class": "archive"}');
    expect(await asked(`--limits ${at('own.limits.json')}`)).toEqual({ limits: expect.any(Object) });
    await expect(run('--limits', at('none.json'))).rejects.toThrow(UsageError);
  });
});
