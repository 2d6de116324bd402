/** The command in this process, with the page’s folders and the signals in the test’s hands; serve.test.ts runs the program. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { USUAL_PORT } from '../server/listen.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './serve.ts';

const installed = vi.hoisted(() => ({ page: '', opened: [] as string[], starts: true, addresses: [] as unknown[] }));
vi.mock('./installation.ts', () => ({
  pageFolder: () => installed.page,
  secondScreenFolder: () => installed.page,
  programVersion: () => '1.2.3',
}));
vi.mock('./desktop.ts', async (original) => ({
  ...(await original<typeof import('./desktop.ts')>()),
  async startOpener({ args }: { args: string[] }) {
    installed.opened.push(...args);
    return installed.starts;
  },
}));
vi.mock('../server/secondScreen/secondScreen.ts', async (original) => {
  const { SecondScreen } = await original<typeof import('../server/secondScreen/secondScreen.ts')>();
  return {
    SecondScreen: class extends SecondScreen {
      constructor(made: ConstructorParameters<typeof SecondScreen>[0]) {
        super(made);
        installed.addresses.push(made.addresses());
      }
    },
  };
});

const benches = vi.hoisted(() => [] as string[]);
vi.mock('./storeFlag.ts', async (original) => {
  const own = await original<typeof import('./storeFlag.ts')>();
  return {
    ...own,
    openStoreFile(place: string, bench: string) {
      benches.push(bench);
      if (place.startsWith('postgresql:')) throw new Error('not asked');
      return own.openStoreFile(place, bench);
    },
  };
});

let folder: ReturnType<typeof scratchFolder>;
let heard: Heard;
const signals = new Map<string, () => void>();
const store = () => join(folder.path, 'bench.sqlite');
beforeEach(() => {
  folder = scratchFolder();
  heard = heardStreams();
  Object.assign(installed, { page: join(folder.path, 'web'), opened: [], starts: true, addresses: [] });
  mkdirSync(installed.page);
  writeFileSync(join(installed.page, 'index.html'), '<!doctype html><title>bench</title>');
  signals.clear();
  const once = process.once.bind(process);
  vi.spyOn(process, 'once').mockImplementation(((name: string, tell: () => void) => {
    if (!name.startsWith('SIG')) return once(name as 'exit', tell);
    signals.set(name, tell);
    return process;
  }) as typeof process.once);
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllEnvs();
  folder.remove();
});

/** Runs until it has said where it is, does what the test wants, and stops it. */
async function served(args: string[], meanwhile: (address: string, key: string) => Promise<void>, by = 'SIGTERM') {
  heard = heardStreams();
  const running = command.run(['--store', store(), ...args], heard.io);
  await Promise.race([
    running,
    vi.waitFor(() => expect(heard.out).toContain('Ctrl-C'), { timeout: 20_000, interval: 5 }),
  ]);
  const [, address, key] = /(http:\/\/127\.0\.0\.1:\d+\/)\?key=(\S+)/.exec(heard.out) as RegExpExecArray;
  try {
    await meanwhile(address, key);
  } finally {
    signals.get(by)?.();
  }
  expect(await running).toBe(0);
  await expect(fetch(`${address}api/health`)).rejects.toThrow();
  return { address, key };
}
const nothing = async (): Promise<void> => undefined;

describe('serve', () => {
  it('serves the page and the store with its key, tells where, and stops', async () => {
    const { address, key } = await served(['--port', '0'], async (at, its) => {
      expect(await (await fetch(`${at}api/health`)).json()).toMatchObject({ version: '1.2.3' });
      const authorization = `Bearer ${its}`;
      const { job } = (await (await fetch(`${at}api/last`, { headers: { authorization } })).json()) as {
        job: { id: string };
      };
      const report = await (await fetch(`${at}api/jobs/${job.id}/report`, { headers: { authorization } })).text();
      expect(report).toContain('Not final');
      expect((await fetch(`${at}api/last`)).status).toBe(401);
    });
    expect(heard.out).toBe(
      `The bench page is at ${address}?key=${key}\nThe key in it lets this account in and no other. Jobs are kept in ${store()}\nStop with Ctrl-C.\n`,
    );
    expect(heard.err).toBe('Stopping.\n');
    expect(installed.opened).toEqual([]);
    expect(readFileSync(`${store()}.key`, 'utf8').trim()).toBe(key);
    const jobs = await openStore(store());
    expect((await jobs.jobs()).jobs.map(({ title }) => title)).toEqual(['Job 41 · bench deck 3']);
    await jobs.close();
  });

  it.each(['SIGINT', 'SIGHUP'])('stops by %s too, and says that the page was not built', async (by) => {
    installed.page = join(folder.path, 'none');
    await served(['--port', '0'], nothing, by);
    expect(heard.err).toBe('The page has not been built: run npm run build, then start again.\nStopping.\n');
  });

  it('opens the page where there is a desktop, and says where there is none or no browser', async () => {
    vi.stubEnv('DISPLAY', ':0');
    vi.stubEnv('SSH_CONNECTION', '');
    const { address } = await served(['--port', '0', '--open'], nothing);
    expect(installed.opened.at(-1)).toMatch(new RegExp(`^${address}\\?key=\\S+$`));
    // a ticket for once, not the key that stays
    expect(heard.out).not.toContain(installed.opened.at(-1));
    expect(heard.err).toBe('Stopping.\n');
    installed.starts = false;
    await served(['--port', '0', '--open'], nothing);
    expect(heard.err).toMatch(/^No browser could be started \(\S+\): open the address yourself\.\nStopping\.\n$/);
    vi.stubEnv('DISPLAY', '');
    vi.stubEnv('WAYLAND_DISPLAY', '');
    await served(['--port', '0', '--open'], nothing);
    if (process.platform === 'linux')
      expect(heard.err).toBe('No desktop here: open the address in a browser on this machine.\nStopping.\n');
  });

  it('takes another port where its own is taken and none was asked for, and refuses where one was', async () => {
    const other = createServer();
    const taken = await new Promise<number>((resolve) => {
      other.once('error', () => resolve(USUAL_PORT));
      other.listen(USUAL_PORT, '127.0.0.1', () => resolve(USUAL_PORT));
    });
    try {
      const { address } = await served([], nothing);
      expect(heard.err).toBe(
        `Port ${USUAL_PORT} is taken by another program; using ${new URL(address).port}.\nStopping.\n`,
      );
      await expect(command.run(['--store', store(), '--port', String(taken)], heard.io)).rejects.toThrow(CannotError);
      await expect(command.run(['--store', store(), '--port', String(taken)], heard.io)).rejects.toThrow(
        `Port ${taken} is taken by another program; name another with --port.`,
      );
    } finally {
      await new Promise((resolve) => other.close(resolve));
    }
  });

  it('offers a second screen at one address of this machine, as browsers write it', async () => {
    const offered = async (flag: string) => {
      installed.addresses = [];
      await expect(command.run(['--store', '', '--second-screen', flag], heard.io)).rejects.toThrow("--store ''");
      return installed.addresses;
    };
    const at = (address: string) => [[{ address, name: '' }]];
    expect(await offered('192.168.1.20')).toEqual(at('192.168.1.20'));
    expect(await offered('FD00:0:0::20')).toEqual(at('fd00::20'));
    installed.addresses = [];
    await expect(command.run(['--store', ''], heard.io)).rejects.toThrow("--store ''");
    expect(installed.addresses).toEqual([expect.any(Array)]);
    for (const flag of ['0.0.0.0', '::', '0::0', 'fe80::1', 'FEBF::1', 'fd00::1%eth0', 'bench.local', '', '1.2.3'])
      await expect(command.run(['--store', '', '--second-screen', flag], heard.io), flag).rejects.toThrow(
        `--second-screen '${flag}': one address of this machine was expected`,
      );
    expect(await offered('fec0::1')).toEqual(at('fec0::1'));
    expect(await offered('fd00::fe80')).toEqual(at('fd00::fe80'));
  });

  it.each(['x', '65536', '123456', '-1', '', '1.5', ' 1', '1 '])('refuses --port %j', async (port) => {
    await expect(command.run(['--store', '', `--port=${port}`], heard.io)).rejects.toThrow(UsageError);
    await expect(command.run(['--store', '', `--port=${port}`], heard.io)).rejects.toThrow(
      `--port '${port}': a whole number from 0 to 65535 was expected`,
    );
  });

  it('takes the largest port there is, and the name of a bench of up to 60 letters', async () => {
    await expect(command.run(['--store', '', '--port', '65535'], heard.io)).rejects.toThrow("--store ''");
    for (const name of ['', '  ', 'x'.repeat(61), '50%', 'a_b', 'a\0b'])
      await expect(command.run(['--store', store(), `--bench=${name}`], heard.io)).rejects.toThrow(
        `--bench '${name}': a name of 1 to 60 letters was expected`,
      );
  });
});

describe('which bench of the store it is', () => {
  it('is this machine for a shared one, none for a file, or what was said', async () => {
    benches.length = 0;
    await served(['--port', '0'], nothing);
    await served(['--port', '0', '--bench', ` ${'x'.repeat(58)} `], nothing);
    await expect(command.run(['--store', 'postgresql://u@h/d'], heard.io)).rejects.toThrow('not asked');
    await expect(command.run(['--store', 'postgresql://u@h/d', '--bench', 'east'], heard.io)).rejects.toThrow();
    expect(benches).toEqual(['', 'x'.repeat(58), hostname(), 'east']);
  });
});
