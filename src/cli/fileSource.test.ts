import { createHash } from 'node:crypto';
import { appendFileSync, mkdtempSync, renameSync, rmSync, truncateSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { fileFingerprint } from './fileFingerprint.ts';
import { openFileSource } from './fileSource.ts';

const folder = mkdtempSync(join(tmpdir(), 'platterside-source-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bytes = Uint8Array.from({ length: 3_000_000 }, (_, n) => (n * 31 + (n >> 9)) & 255);
const opened = async (name: string) => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return { path, source: await openFileSource(path) };
};

describe('a file that changes while it is read', () => {
  it('still grows: it is what it was when it was opened, its fingerprint too', async () => {
    const { path, source } = await opened('growing');
    appendFileSync(path, bytes);
    expect(source.size).toBe(bytes.length);
    expect(await source.read(bytes.length - 10, 100)).toEqual(bytes.subarray(-10));
    expect(await fileFingerprint(source.file)).toBe(createHash('sha256').update(bytes).digest('hex'));
    expect(source.sinceOpened()).toBe('grown');
    await source.close();
  });

  it('has become shorter', async () => {
    const { path, source } = await opened('shorter');
    truncateSync(path, 1000);
    await expect(fileFingerprint(source.file)).rejects.toThrow('ended at byte 1000, where 3000000');
    expect(() => source.sinceOpened()).toThrow('it became shorter');
    await source.close();
  });

  it('was replaced, or written to in place', async () => {
    const { path, source } = await opened('replaced');
    renameSync((await opened('other')).path, path);
    expect(() => source.sinceOpened()).toThrow('another file');
    await source.close();
    const written = await opened('written');
    expect(written.source.sinceOpened()).toBe('same');
    utimesSync(written.path, 1, 1);
    expect(() => written.source.sinceOpened()).toThrow('it was written to');
    await written.source.close();
  });
});
