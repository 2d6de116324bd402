/** `platterside serve`: the bench page and its local server. */
import { isIPv4, isIPv6 } from 'node:net';
import { hostname, networkInterfaces } from 'node:os';
import { parseArgs } from 'node:util';
import { demoJob } from '../core/job/demoJob.ts';
import { demoParts } from '../core/job/demoParts.ts';
import { statement } from '../core/words/statement.ts';
import { renderJobReport } from '../report/jobReport.tsx';
import { createApp } from '../server/app.ts';
import { doorWith, keyOf } from '../server/door.ts';
import { type Listening, listen, PortError, USUAL_PORT } from '../server/listen.ts';
import { readPageFiles } from '../server/pageFiles.ts';
import { type LanAddress, lanAddresses } from '../server/secondScreen/lanAddresses.ts';
import { SecondScreen } from '../server/secondScreen/secondScreen.ts';
import { isPostgresUrl } from '../store/postgresPlace.ts';
import { CannotError, type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { openerFor, startOpener } from './desktop.ts';
import { pageFolder, programVersion, secondScreenFolder } from './installation.ts';
import { madeNow } from './madeNow.ts';
import { keyPlace, openStoreFile, storeFile, storeHelp } from './storeFlag.ts';

const help = `
platterside serve [--port PORT] [--store FILE] [--bench NAME] [--open] [--second-screen ADDRESS]

Serves the bench page on this machine alone, until it is stopped with Ctrl-C.

  --port PORT    this port and no other; 0 takes any free one
                 (left out: ${USUAL_PORT}, or one of the next few where that is taken)
${storeHelp}
  --bench NAME   which bench of a shared store this is: each goes on where it was left (left out: this machine's name)
  --open         open the page in a browser where there is a desktop
  --second-screen ADDRESS  of this machine, IPv4 or IPv6: where a second screen is offered once the page turns it on
                 (left out: its addresses in private networks)
`;

function portFlag(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (!/^[0-9]{1,5}$/.test(text) || Number(text) > 65535) {
    throw new UsageError(`--port '${text}': a whole number from 0 to 65535 was expected`);
  }
  return Number(text);
}

function benchFlag(name: string | undefined, place: string): string {
  if (name === undefined) return isPostgresUrl(place) ? hostname() : '';
  if (/^[^\0%_]{1,60}$/.test(name) && name.trim() !== '') return name.trim();
  throw new UsageError(`--bench '${name}': a name of 1 to 60 letters was expected`);
}

/** As browsers write it in `Host`; null for what is no address that a browser can be sent to. */
function addressFlag(text: string): string | null {
  if (isIPv4(text)) return text === '0.0.0.0' ? null : text;
  // a link-local one needs a zone, which no browser takes
  if (!isIPv6(text) || text.includes('%') || /^fe[89ab]/i.test(text)) return null;
  const written = new URL(`http://[${text}]/`).hostname.slice(1, -1);
  return written === '::' ? null : written;
}

/** Where a second screen may be offered. */
function offeredAt(flag: string | undefined): () => readonly LanAddress[] {
  if (flag === undefined) return () => lanAddresses(networkInterfaces());
  const address = addressFlag(flag);
  if (address === null) {
    throw new UsageError(
      `--second-screen '${flag}': one address of this machine was expected, such as 192.168.1.20 or fd00::20`,
    );
  }
  return () => [{ address, name: '' }];
}

/** Resolves when the person stops the program. */
const stopped = (): Promise<void> =>
  new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
    process.once('SIGHUP', () => resolve());
  });

async function openPage(address: string, io: Streams): Promise<void> {
  const opener = openerFor(address, process.env, process.platform);
  if (opener === null) io.err('No desktop here: open the address in a browser on this machine.\n');
  else if (!(await startOpener(opener)))
    io.err(`No browser could be started (${opener.command}): open the address yourself.\n`);
}

export const command: Command = {
  name: 'serve',
  summary: 'the bench page and its local server',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values } = parseArgs({
      args: [...args],
      options: {
        port: { type: 'string' },
        store: { type: 'string' },
        bench: { type: 'string' },
        open: { type: 'boolean' },
        'second-screen': { type: 'string' },
      },
    });
    const wanted = portFlag(values.port);
    const addresses = offeredAt(values['second-screen']);
    const version = programVersion();
    const secondScreen = new SecondScreen({ page: readPageFiles(secondScreenFolder()), addresses });
    const place = storeFile(values.store);
    const store = await openStoreFile(place, benchFlag(values.bench, place));
    const stop = stopped();
    let listening: Listening | undefined;
    try {
      await store.beginWith((at) => ({ job: demoJob({ at, madeBy: `platterside ${version}` }), parts: demoParts }));
      const key = keyOf(keyPlace(store.file));
      const door = doorWith(key);
      const page = readPageFiles(pageFolder());
      const app = createApp({
        store,
        page,
        version,
        port: () => listening?.port ?? 0,
        door,
        secondScreen,
        reportOf: (job, captures, whom) => renderJobReport(job, captures, { ...whom, made: madeNow() }),
        onFailure: (error) => io.err(`platterside: the server failed at a request: ${reasonOf(error)}\n`),
      });
      listening = await listen(app, wanted);
      if (wanted === undefined && listening.port !== USUAL_PORT) {
        io.err(`Port ${USUAL_PORT} is taken by another program; using ${listening.port}.\n`);
      }
      if (page.size === 0) io.err('The page has not been built: run npm run build, then start again.\n');
      io.out(
        `The bench page is at ${listening.address}?key=${key}\nThe key in it lets this account in and no other. Jobs are kept in ${store.file}\nStop with Ctrl-C.\n`,
      );
      if (values.open === true) await openPage(`${listening.address}?key=${door.ticket()}`, io);
      await stop;
      io.err('Stopping.\n');
    } catch (error) {
      if (error instanceof PortError) throw new CannotError(error.message);
      throw error;
    } finally {
      await secondScreen.turnOff(statement('second-off-stopped'));
      await listening?.close();
      await store.close();
    }
    return 0;
  },
};

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
