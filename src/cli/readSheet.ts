/** Record files as commands read them. */
import { basename } from 'node:path';
import { parseSheet, type RecordSheet } from '../core/record/sheet.ts';
import { UsageError } from './command.ts';
import { readText } from './textFile.ts';

/** @param flag what the complaint begins with, before the file's name @throws UsageError with one sentence */
export function readSheet(file: string, flag: string): RecordSheet {
  const parsed = parseSheet(readText(`${flag} ${file}`, file, 'a record file'), basename(file));
  if (!parsed.ok) throw new UsageError(parsed.why);
  return parsed.sheet;
}
