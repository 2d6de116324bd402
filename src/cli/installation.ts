/** What lies beside the bundled program: its version and the built page. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const bundleFolder = dirname(fileURLToPath(import.meta.url));

/** Version in package.json, one folder above the bundle. */
export function programVersion(): string {
  try {
    const text = readFileSync(join(bundleFolder, '..', 'package.json'), 'utf8');
    return (JSON.parse(text) as { version: string }).version;
  } catch {
    return 'unknown';
  }
}

/** Folder of the built page, beside the bundle. */
export const pageFolder = (): string => join(bundleFolder, 'web');

/** Folder of the second screen's page. */
export const secondScreenFolder = (): string => join(bundleFolder, 'second-screen');
