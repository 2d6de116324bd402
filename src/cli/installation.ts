/** What lies beside the bundled program: its version and the built page. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Version in package.json, one folder above the bundle. */
export function programVersion(): string {
  try {
    const text = readFileSync(new URL('../package.json', import.meta.url), 'utf8');
    return (JSON.parse(text) as { version: string }).version;
  } catch {
    return 'unknown';
  }
}

/** Folder of the built page, beside the bundle. */
export const pageFolder = (): string => fileURLToPath(new URL('./web/', import.meta.url));
