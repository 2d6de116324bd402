/**
 * A sound card that is not there: PulseAudio with a sink that recordings are played into, and a source that
 * hears it. Needs Debian's pulseaudio and pulseaudio-utils; no D-Bus, no hardware, no rights.
 *
 * A browser hides monitors, so the source is a remap of the sink's monitor. The default sink is another one: what the browser
 * itself plays gets into no deck.
 */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export interface SoundCard {
  /** what a program needs around it to reach the card */
  readonly env: NodeJS.ProcessEnv;
  /** plays a file into the deck; resolves once all of it was played, or it was stopped */
  play(path: string): { readonly over: Promise<void>; stop(): void };
  /** `pactl` */
  control(...args: string[]): Promise<string>;
  /** takes the source away, as a plug is pulled */
  unplug(): Promise<void>;
  /** ends the sound server itself */
  kill(): Promise<void>;
  close(): Promise<void>;
}

export const DECK = 'deck';
export const SOURCE = 'stylus';
/** as the browser names it */
export const SOURCE_LABEL = 'Stylus';

const script = (socket: string, rateHz: number): string => {
  const map = 'channels=2 channel_map=front-left,front-right';
  return [
    `load-module module-native-protocol-unix auth-anonymous=1 socket=${socket}`,
    'load-module module-null-sink sink_name=void rate=48000 channels=2',
    `load-module module-null-sink sink_name=${DECK} format=s24le rate=${rateHz} ${map}`,
    `load-module module-remap-source source_name=${SOURCE} master=${DECK}.monitor ${map} master_channel_map=front-left,front-right remix=no source_properties=device.description=${SOURCE_LABEL}`,
    'set-default-sink void',
    `set-default-source ${SOURCE}`,
    '',
  ].join('\n');
};

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) resolve();
    else child.once('exit', () => resolve());
  });

/**
 * One card at one rate: a browser runs every input of a server at that server's own rate, whatever the source's is (tried with
 * Chromium: 44.1 kHz unless the server is told otherwise).
 */
export async function openSoundCard(rateHz: number): Promise<SoundCard> {
  const folder = mkdtempSync(join(tmpdir(), 'platterside-card-'));
  const socket = join(folder, 'native');
  const config = join(folder, 'card.pa');
  writeFileSync(config, script(socket, rateHz));
  const daemon = join(folder, 'daemon.conf');
  writeFileSync(daemon, `default-sample-rate = ${rateHz}\navoid-resampling = yes\n`);
  const own = {
    PULSE_CONFIG: daemon,
    PULSE_RUNTIME_PATH: folder,
    PULSE_STATE_PATH: folder,
    HOME: folder,
    XDG_RUNTIME_DIR: folder,
    DBUS_SESSION_BUS_ADDRESS: 'disabled:',
  };
  const flags = ['-n', '-F', config, '--daemonize=no', '--use-pid-file=no', '--exit-idle-time=-1', '--realtime=no'];
  const server = spawn('pulseaudio', [...flags, `--log-target=file:${join(folder, 'log')}`], {
    env: { ...process.env, ...own },
    stdio: 'ignore',
  });
  const env = { PULSE_SERVER: `unix:${socket}` };
  const players = new Set<ChildProcess>();
  const control = async (...args: string[]): Promise<string> => {
    const { stdout } = await run('pactl', args, { env: { ...process.env, ...env } });
    return stdout.trim();
  };
  const kill = async (): Promise<void> => {
    server.kill('SIGKILL');
    await ended(server);
  };
  const card: SoundCard = {
    env,
    play(path) {
      // a long buffer: a machine with much else to do is not to leave holes
      const child = spawn('paplay', ['-d', DECK, '--latency-msec=1000', path], {
        env: { ...process.env, ...env },
        stdio: 'ignore',
      });
      players.add(child);
      return { over: ended(child), stop: () => void child.kill('SIGKILL') };
    },
    control,
    async unplug() {
      const modules = (await control('list', 'short', 'modules')).split('\n');
      const source = modules.find((line) => line.includes(`source_name=${SOURCE} `));
      await control('unload-module', source?.split('\t')[0] ?? 'none');
    },
    kill,
    async close() {
      for (const child of players) child.kill('SIGKILL');
      await kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  try {
    for (let tries = 1; (await control('get-default-source').catch(() => '')) !== SOURCE; tries++) {
      if (tries > 200 || server.exitCode !== null) throw new Error('the sound server does not start');
      await sleep(50);
    }
    return card;
  } catch (error) {
    await card.close();
    throw error;
  }
}
