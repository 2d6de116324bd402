/** When, by which version and in whose time a report is made. */
import type { Made } from '../report/sheet.tsx';
import { programVersion } from './installation.ts';

export const madeNow = (): Made => ({
  madeAt: new Date().toISOString(),
  version: programVersion(),
  zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
});
