/** `platterside record`: what the shop's own jobs teach of a record. */

import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { learnedLeaksText } from '../core/advise/budget/learnedRecord.ts';
import { tooFew } from '../core/advise/budget/learnRecord.ts';
import { recordKey } from '../core/record/recordKey.ts';
import { showNumber } from '../core/words/number.ts';
import { say } from '../core/words/statement.ts';
import { CannotError, type Command, type ExitStatus, UsageError } from './command.ts';
import { checkOutput, replaceHelp, replaceOption, writeTextOutput } from './output.ts';
import { readSheet } from './readSheet.ts';
import { openToRead, storeFile, storeHelp } from './storeFlag.ts';

const help = `
platterside record learn FILE.record.json -o LEARNED.json [--store FILE]

From ten decks on that a record was played on, its own leaks, balance and speed are what all of them have in common.
The first recording of each deck counts, as found; recordings measured with another version of the record file do not.
measure --learned LEARNED.json then takes them off; leave the flag out to measure without.

${storeHelp}
  -o FILE        where to write
${replaceHelp}
`;

export const command: Command = {
  name: 'record',
  summary: 'what the jobs of this shop teach of a test record',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { store: { type: 'string' }, output: { type: 'string', short: 'o' }, ...replaceOption },
    });
    const [what, file, ...rest] = positionals;
    if (what !== 'learn') throw new UsageError(`record: '${what ?? ''}' was found; learn was expected`);
    if (file === undefined || rest.length > 0) throw new UsageError('record learn: one record file was expected');
    if (values.output === undefined || values.output === '') {
      throw new UsageError('record learn needs -o FILE to write to');
    }
    const place = storeFile(values.store);
    const output = { flag: '-o', file: values.output, inputs: [file, place], replace: values.replace === true };
    checkOutput(output);
    const sheet = readSheet(file, 'record learn');
    const store = await openToRead(place);
    const { learned, decks } = await store.learned(recordKey(sheet)).finally(() => store.close());
    if (learned === null) throw new CannotError(`nothing can be learned of ${basename(file)}: ${say(tooFew(decks))}`);
    const named = { ...learned, record: { ...learned.record, name: sheet.name } };
    writeTextOutput(output, `${JSON.stringify(named, null, 2)}\n`);
    const tilt =
      learned.leaks === undefined ? [] : [`tilt to ±${showNumber(tiltDeg(learned.leaks.variance.tilt), 2)}°`];
    const speed =
      learned.speedPercent === undefined ? [] : [`speed to ±${showNumber(learned.speedPercent.uncertainty, 3)} %`];
    io.err(`platterside: learned from ${learned.decks} decks: ${[...tilt, ...speed].join(', ')}\n`);
    const leaks = learnedLeaksText(learned);
    if (leaks !== null) io.err(`platterside: ${leaks}\n`);
    return 0;
  },
};

const tiltDeg = (variance: number): number => (2 * Math.atan(Math.sqrt(variance)) * 180) / Math.PI;
