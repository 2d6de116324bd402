import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect, createServer, type Server } from 'node:net';
import { join } from 'node:path';
import { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { listen, PortError, USUAL_PORT } from './listen.ts';
import { fileFor, readPageFiles } from './pageFiles.ts';

const app = new Hono().get('/', (c) => c.text('here'));

const occupy = (port: number): Promise<Server> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve(server));
  });

describe('the socket', () => {
  it('opens on loopback and tells where', async () => {
    const listening = await listen(app, 0);
    expect(listening.address).toBe(`http://127.0.0.1:${listening.port}/`);
    expect(await (await fetch(listening.address)).text()).toBe('here');
    await listening.close();
    await expect(fetch(listening.address)).rejects.toThrow();
  });

  it('takes one of the next ports where the usual one is taken and nobody asked for one', async () => {
    // whoever has it already does as well
    const taken = await occupy(USUAL_PORT).catch(() => null);
    const listening = await listen(app);
    expect(listening.port).toBeGreaterThan(USUAL_PORT);
    expect(listening.port).toBeLessThanOrEqual(USUAL_PORT + 9);
    await listening.close();
    taken?.close();
  });

  it('says in a sentence that a port asked for is taken', async () => {
    const taken = await occupy(0);
    const { port } = taken.address() as { port: number };
    const error = await listen(app, port).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(PortError);
    expect((error as Error).message).toBe(`Port ${port} is taken by another program; name another with --port.`);
    taken.close();
  });

  it('closes although a browser keeps a connection open', async () => {
    const listening = await listen(app, 0);
    const idle = connect(listening.port, '127.0.0.1');
    await new Promise((resolve) => idle.once('connect', resolve));
    await listening.close();
    idle.destroy();
  });

  it('answers a request that is no HTTP without its insides', async () => {
    const listening = await listen(app, 0);
    for (const text of ['nonsense\r\n\r\n', 'GET / HTTP/1.1\r\nHost: a b\r\n\r\n', 'GET // HTTP/1.1\r\n\r\n']) {
      const answer = await new Promise<string>((resolve) => {
        const socket = connect(listening.port, '127.0.0.1', () => socket.write(text));
        socket.setEncoding('utf8');
        socket.once('data', (data) => {
          resolve(String(data));
          socket.destroy();
        });
      });
      expect(answer).toMatch(/^HTTP\/1\.1 400 /);
      expect(answer).not.toContain('node_modules');
    }
    await listening.close();
  });
});

describe('the files of the page', () => {
  let folder: ReturnType<typeof scratchFolder>;
  beforeEach(() => {
    folder = scratchFolder();
  });
  afterEach(() => folder.remove());

  it('are a table read once; links that lead elsewhere are not in it', () => {
    mkdirSync(join(folder.path, 'assets'));
    writeFileSync(join(folder.path, 'index.html'), 'page');
    writeFileSync(join(folder.path, 'assets', 'mark-12345678.svg'), '<svg/>');
    symlinkSync('/etc/hostname', join(folder.path, 'host.txt'));
    const files = readPageFiles(folder.path);
    expect([...files.keys()].sort()).toEqual(['/assets/mark-12345678.svg', '/index.html']);
    expect(files.get('/assets/mark-12345678.svg')?.immutable).toBe(true);
    expect(fileFor(files, '/')).toBe(files.get('/index.html'));
    expect(fileFor(files, '/host.txt')).toBeNull();
    expect(fileFor(files, '/../index.html')).toBeNull();
    expect(fileFor(files, '/a/%2e%2e')).toBeNull();
  });

  it('may be missing', () => {
    expect(readPageFiles(join(folder.path, 'none')).size).toBe(0);
  });
});
