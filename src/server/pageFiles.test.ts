import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { headersFor } from './headers.ts';
import { fileFor, type PageFiles, pageFile, readPageFiles } from './pageFiles.ts';

const bytes = new TextEncoder().encode('content');

it.each([
  ['.html', 'text/html; charset=utf-8'],
  ['.js', 'text/javascript; charset=utf-8'],
  ['.mjs', 'text/javascript; charset=utf-8'],
  ['.css', 'text/css; charset=utf-8'],
  ['.json', 'application/json; charset=utf-8'],
  ['.svg', 'image/svg+xml'],
  ['.PNG', 'image/png'],
  ['.woff2', 'font/woff2'],
  ['.wasm', 'application/wasm'],
  ['.flac', 'audio/flac'],
  ['.unknown', 'application/octet-stream'],
  ['', 'application/octet-stream'],
])('a file that ends in “%s” is %s, known by its content', (end, type) => {
  expect(pageFile(`/name${end}`, bytes)).toEqual({
    body: bytes,
    type,
    etag: `"${createHash('sha256').update('content').digest('hex').slice(0, 32)}"`,
    immutable: false,
  });
});

it.each([
  ['/assets/index-Ab3_x9Qz.js', true],
  ['/assets/deep/er-name-12345678.woff2', true],
  ['/assets/index-Ab3_x9Q.js', false],
  ['/assets/index.js', false],
  ['/assetsindex-Ab3_x9Qz.js', false],
  ['/x/assets/index-Ab3_x9Qz.js', false],
  ['/index-Ab3_x9Qz.js', false],
  ['/assets/index-Ab3_x9Qz', false],
  ['/assets/index-Ab3_x9Qz.js?x', false],
])('%s may be kept for good: %s', (path, immutable) => expect(pageFile(path, bytes).immutable).toBe(immutable));

it('addresses of the page itself are answered with the page, those of files that are not there with none', () => {
  const index = pageFile('/index.html', bytes);
  const mark = pageFile('/mark.svg', bytes);
  const files: PageFiles = new Map([
    ['/index.html', index],
    ['/mark.svg', mark],
  ]);
  for (const path of ['/', '/index.html', '/jobs', '/jobs/41/tilt', '/a.b/c'])
    expect(fileFor(files, path), path).toBe(index);
  expect(fileFor(files, '/mark.svg')).toBe(mark);
  for (const path of ['/gone.svg', '/jobs/x.y', '/jobs/%2e', '/.x']) expect(fileFor(files, path), path).toBeNull();
  expect(fileFor(new Map(), '/jobs')).toBeNull();
});

it('a place that is no folder is an error, not a page without files', () => {
  const folder = scratchFolder();
  writeFileSync(join(folder.path, 'file'), '');
  expect(() => readPageFiles(join(folder.path, 'file'))).toThrow(/ENOTDIR/);
  folder.remove();
});

it('page and report carry the same headers but for what may run and who may frame them', () => {
  const { 'Content-Security-Policy': page, ...ofPage } = headersFor('page');
  const { 'Content-Security-Policy': report, ...ofReport } = headersFor('report');
  expect(ofPage).toEqual(ofReport);
  expect(ofPage).toEqual({
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Embedder-Policy': 'require-corp',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Permissions-Policy': 'microphone=(self), camera=(self), geolocation=(), payment=(), usb=()',
  });
  const named = page.split('; ').map((part) => part.split(' ')[0]);
  for (const kind of ['script', 'worker', 'style', 'font', 'img', 'media', 'connect', 'frame', 'manifest', 'object'])
    expect(named).toContain(`${kind}-src`);
  expect(page.split('; ')).toHaveLength(14);
  expect(page).toContain("object-src 'none'");
  expect(report).toBe(
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'",
  );
});
