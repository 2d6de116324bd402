/** TLS to a shared store, as its address asks for it: against a server with a certificate made here, and against one without. */
import { execFileSync } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Cluster, startCluster } from './cluster.fixture.ts';
import { openPostgres } from './openPostgres.ts';
import { scratchFolder } from './scratch.fixture.ts';
import { openStore } from './store.ts';

const folder = scratchFolder();
const keys = join(folder.path, 'keys');
let [secure, plain]: Cluster[] = [];
let [securePort, plainPort]: number[] = [];

const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });

/** A certificate of its own for `localhost`, and another one that vouches for nobody here. */
function certificates(): void {
  chmodSync(folder.path, 0o755);
  mkdirSync(keys, { mode: 0o755 });
  for (const name of ['server', 'stranger']) {
    const [key, certificate] = [join(keys, `${name}.key`), join(keys, `${name}.crt`)];
    const about = ['-subj', '/CN=localhost', '-addext', 'subjectAltName=DNS:localhost'];
    execFileSync(
      'openssl',
      ['req', '-x509', '-newkey', 'rsa:2048', '-nodes', '-days', '2', ...about, '-keyout', key, '-out', certificate],
      { stdio: 'ignore' },
    );
    chmodSync(key, 0o600);
    if (process.getuid?.() === 0) {
      const id = (what: string): number => Number(execFileSync('id', [what, 'postgres']).toString());
      chownSync(key, id('-u'), id('-g'));
    }
  }
}

beforeAll(async () => {
  certificates();
  [securePort, plainPort] = [await freePort(), await freePort()];
  const ssl = ['ssl=on', `ssl_cert_file=${join(keys, 'server.crt')}`, `ssl_key_file=${join(keys, 'server.key')}`];
  secure = await startCluster(['fsync=off', ...ssl], 'trust', securePort);
  plain = await startCluster(['fsync=off'], 'trust', plainPort);
});
afterAll(async () => {
  await secure?.end();
  await plain?.end();
  folder.remove();
});

const address = (port: number, host: string, query: string): string =>
  `postgresql://postgres@${host}:${port}/postgres?${query}`;
const vouched = `sslmode=verify-full&sslrootcert=${join(keys, 'server.crt')}`;

const refused = async (url: string): Promise<string> => {
  try {
    await (await openStore(url)).close();
  } catch (error) {
    return (error as Error).message;
  }
  return 'it was opened';
};

it('verify-full with the certificate that vouches for the server: the line is encrypted', async () => {
  const db = await openPostgres(address(securePort, 'localhost', vouched), () => '');
  const { rows } = await sql<{ ssl: boolean }>`select ssl from pg_stat_ssl where pid = pg_backend_pid()`.execute(db);
  await db.destroy();
  expect(rows).toEqual([{ ssl: true }]);
  const bare = await openPostgres(address(securePort, 'localhost', 'sslmode=disable'), () => '');
  const open = await sql<{ ssl: boolean }>`select ssl from pg_stat_ssl where pid = pg_backend_pid()`.execute(bare);
  await bare.destroy();
  expect(open.rows).toEqual([{ ssl: false }]);
});

it.each([
  ['verify-full, vouched for by another certificate', 'localhost', 'stranger'],
  ['verify-full, under a name that the certificate does not hold', '127.0.0.1', 'server'],
])('%s: not let in, in a sentence', async (_, host, by) => {
  const query = `sslmode=verify-full&sslrootcert=${join(keys, `${by}.crt`)}`;
  expect(await refused(address(securePort, host, query))).toBe(
    'The certificate of the database is not one that sslrootcert vouches for.',
  );
});

it('require believes no certificate that nobody vouches for', async () => {
  expect(await refused(address(securePort, 'localhost', 'sslmode=require'))).toBe(
    'The certificate of the database is not one that sslrootcert vouches for.',
  );
});

it.each(['require', 'verify-full'])(
  '%s with a server that offers none: refused, and nothing goes over the open line',
  async (mode) => {
    expect(await refused(address(plainPort, 'localhost', `sslmode=${mode}`))).toBe(
      'The database does not offer TLS, which the address asks for.',
    );
  },
);
