/** Files of limits as commands read them. */

import { basename } from 'node:path';
import { type NamedLimits, parseLimits } from '../core/advise/limitsFile.ts';
import { say, stopped } from '../core/words/statement.ts';
import { UsageError } from './command.ts';
import { readText } from './textFile.ts';

/** @throws UsageError with one sentence */
export function readLimits(file: string): NamedLimits {
  const parsed = parseLimits(readText(`--limits ${file}`, file, 'a limits file'), basename(file));
  if (!parsed.ok) throw new UsageError(stopped(say(parsed.why)));
  return parsed;
}
