/** For tests: a line to PostgreSQL that can fall silent, or break just as a change is being kept. */
import { mkdtempSync, rmSync } from 'node:fs';
import { connect, createServer, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Line {
  readonly url: string;
  /** nothing comes through any more, and nobody is told */
  freeze(): void;
  thaw(): void;
  /** the next COMMIT reaches the server; its answer does not come back */
  loseNextCommit(): void;
  end(): Promise<void>;
}

/** @param to an address whose host is a folder of sockets */
export async function lineTo(to: string): Promise<Line> {
  const target = new URL(to);
  const folder = mkdtempSync(join(tmpdir(), 'line-'));
  const name = '.s.PGSQL.5432';
  const sockets = new Set<Socket>();
  let frozen = false;
  let loses = false;
  const server = createServer((near) => {
    const far = connect(join(decodeURIComponent(target.hostname), name));
    for (const socket of [near, far]) {
      sockets.add(socket);
      socket.on('error', () => undefined);
      socket.on('close', () => {
        sockets.delete(socket);
        near.destroy();
        far.destroy();
      });
    }
    near.on('data', (bytes) => {
      if (frozen) return;
      const lost = loses && bytes.toString('latin1').includes('commit');
      far.write(bytes);
      if (!lost) return;
      loses = false;
      far.removeAllListeners('data');
      // the server has done it when it answers
      far.once('data', () => near.destroy());
    });
    far.on('data', (bytes) => void (frozen || near.write(bytes)));
  });
  await new Promise<void>((resolve) => server.listen(join(folder, name), resolve));
  const url = new URL(to);
  return {
    url: url.href.replace(target.hostname, encodeURIComponent(folder)),
    freeze() {
      frozen = true;
    },
    thaw() {
      frozen = false;
    },
    loseNextCommit() {
      loses = true;
    },
    async end() {
      for (const socket of sockets) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
