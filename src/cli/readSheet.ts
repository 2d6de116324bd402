/** Record files and what was learned of them, as commands read them. */

import { basename } from 'node:path';
import { type LearnedRecord, parseLearned } from '../core/advise/budget/learnedRecord.ts';
import { recordKey } from '../core/record/recordKey.ts';
import { parseSheet, type RecordSheet } from '../core/record/sheet.ts';
import { say, stopped } from '../core/words/statement.ts';
import { UsageError } from './command.ts';
import { readText } from './textFile.ts';

/** @param flag what the complaint begins with, before the file's name @throws UsageError with one sentence */
export function readSheet(file: string, flag: string): RecordSheet {
  const parsed = parseSheet(readText(`${flag} ${file}`, file, 'a record file'), basename(file));
  if (!parsed.ok) throw new UsageError(stopped(say(parsed.why)));
  return parsed.sheet;
}

/** What was learned counts for the record that it was learned of, and for no other. */
export function readLearned(file: string, sheet: RecordSheet | undefined): LearnedRecord {
  if (sheet === undefined)
    throw new UsageError(`--learned ${file}: --record with the record file it was learned for was expected beside it`);
  const parsed = parseLearned(readText(`--learned ${file}`, file, 'a file that record learn wrote'), basename(file));
  if (!parsed.ok) throw new UsageError(stopped(say(parsed.why)));
  const { record } = parsed.learned;
  if (record.key !== recordKey(sheet)) {
    throw new UsageError(
      `--learned ${file}: it was learned of "${record.name}" as that record file was; learn it again from this one`,
    );
  }
  return parsed.learned;
}
