/**
 * The built page, read once at the start into a table of paths. A request is looked up in the table, so no path that
 * somebody asks for ever reaches the disk.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';

export interface PageFile {
  readonly body: Uint8Array<ArrayBuffer>;
  readonly type: string;
  readonly etag: string;
  /** its name changes with its content, so a browser may keep it for good */
  readonly immutable: boolean;
}

/** Keys are request paths such as `/assets/index-BX1.js`. */
export type PageFiles = ReadonlyMap<string, PageFile>;

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.md': 'text/markdown; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
  '.wav': 'audio/wav',
  '.flac': 'audio/flac',
  '.pdf': 'application/pdf',
};

/** The bundler's names: `assets/name-8 or more letters and digits.ext`. */
const hashedName = /^\/assets\/.*-[A-Za-z0-9_-]{8,}\.[a-z0-9.]+$/;

export function pageFile(path: string, body: Uint8Array<ArrayBuffer>): PageFile {
  return {
    body,
    type: types[extname(path).toLowerCase()] ?? 'application/octet-stream',
    etag: `"${createHash('sha256').update(body).digest('hex').slice(0, 32)}"`,
    immutable: hashedName.test(path),
  };
}

/**
 * Every file below `folder`; an empty table where the page has not been built.
 * Links that lead out of the folder are not followed.
 */
export function readPageFiles(folder: string): PageFiles {
  const files = new Map<string, PageFile>();
  const visit = (below: string): void => {
    for (const entry of readdirSync(join(folder, below), { withFileTypes: true })) {
      const path = `${below}/${entry.name}`;
      if (entry.isDirectory()) visit(path);
      else if (entry.isFile()) files.set(path, pageFile(path, new Uint8Array(readFileSync(join(folder, path)))));
    }
  };
  try {
    visit('');
  } catch (error) {
    if ((error as { code?: string }).code !== 'ENOENT') throw error;
  }
  return files;
}

/**
 * The file that answers a request, or null. An address of the page itself, such as `/jobs/41/tilt`, has no dot in its
 * last part and is answered with the page.
 */
export function fileFor(files: PageFiles, path: string): PageFile | null {
  const file = files.get(path === '/' ? '/index.html' : path);
  if (file !== undefined) return file;
  const last = path.slice(path.lastIndexOf('/') + 1);
  return last.includes('.') || last.includes('%') ? null : (files.get('/index.html') ?? null);
}
