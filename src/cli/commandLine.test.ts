/** Which command runs, and how what it throws is said; each command has tests of its own. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { CannotError, UsageError } from './command.ts';
import { runCommandLine } from './commandLine.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';

const tilt = vi.hoisted(() => ({ run: async (_: readonly string[]): Promise<number> => 0 }));
vi.mock('./tilt.ts', () => ({
  command: {
    name: 'tilt',
    summary: 'azimuth',
    help: '\nplatterside tilt\n\n',
    run: (args: string[]) => tilt.run(args),
  },
}));

let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
  tilt.run = async () => 0;
});
const run = (...argv: string[]) => runCommandLine(argv, heard.io);

describe('a command', () => {
  it('is run with what stands behind its name, and its status is the program’s', async () => {
    const told: unknown[] = [];
    for (const status of [0, 1, 2]) {
      tilt.run = async (args) => {
        told.push(args);
        return status;
      };
      expect(await run('tilt', '--json', 'x')).toBe(status);
    }
    expect(told).toEqual([
      ['--json', 'x'],
      ['--json', 'x'],
      ['--json', 'x'],
    ]);
    expect([heard.out, heard.err]).toEqual(['', '']);
  });

  it('tells its help instead, wherever that is asked for', async () => {
    tilt.run = async () => 2;
    for (const args of [['--help'], ['-h'], ['--json', '--help']]) expect(await run('tilt', ...args)).toBe(0);
    expect(heard.out).toBe('platterside tilt\n'.repeat(3));
  });
});

describe('without a command', () => {
  it('all of them are listed; that is no success where none was asked for', async () => {
    expect(await run()).toBe(2);
    const { out } = heard;
    expect(out).toMatch(/^platterside: fit, align and prove phono cartridges\n\n {2}measure {4}everything that/);
    expect(out).toContain('\n  tilt       azimuth\n');
    expect(out).toMatch(/\n\nplatterside COMMAND --help tells its flags\.\n$/);
    const names = [...out.matchAll(/^ {2}(\w+) +\S/gm)].map(([, name]) => name);
    expect(names).toEqual([
      ...['measure', 'serve', 'simulate', 'tilt', 'place', 'template', 'strobe', 'match', 'job', 'store', 'batch'],
      ...['chain', 'record', 'selfcheck'],
    ]);
    for (const ask of ['help', '--help', '-h']) {
      heard.out = '';
      expect(await run(ask)).toBe(0);
      expect(heard.out).toBe(out);
    }
    expect(heard.err).toBe('');
  });

  it('the version is told', async () => {
    expect(await run('--version')).toBe(0);
    expect(heard.out).toMatch(/^platterside \S+\n$/);
  });

  it.each(['polish', 'constructor', '--tilt'])('%s is none', async (name) => {
    expect(await run(name)).toBe(2);
    expect(heard.err).toMatch(
      new RegExp(`^platterside: no command '${name}'; there are: measure, serve, .*selfcheck\n$`),
    );
  });
});

describe('what a command throws', () => {
  it.each([
    [new UsageError('the flag\nis none'), 2, 'platterside: the flag is none\n'],
    [new RangeError('seed is 1.5'), 2, 'platterside: seed is 1.5\n'],
    [new CannotError('no tilt can be given'), 1, 'platterside: no tilt can be given\n'],
    [
      new TypeError('x is not a function\n    at y'),
      1,
      'platterside: something failed that should not: x is not a function. Nothing of yours was changed.\n',
    ],
    ['just so', 1, 'platterside: something failed that should not: just so. Nothing of yours was changed.\n'],
    [
      Object.assign(new Error("Unknown option '--prot'. To specify"), { code: 'ERR_PARSE_ARGS_UNKNOWN_OPTION' }),
      2,
      "platterside: tilt has no flag '--prot'; platterside tilt --help tells its flags\n",
    ],
  ])('%s', async (error, status, said) => {
    tilt.run = async () => {
      throw error;
    };
    expect(await run('tilt')).toBe(status);
    expect([heard.out, heard.err]).toEqual(['', said]);
  });
});
