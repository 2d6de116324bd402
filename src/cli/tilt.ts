/** `platterside tilt`: azimuth from meter readings. */

import { parseArgs } from 'node:util';
import { meterDocument } from '../core/advise/meterDocument.ts';
import { ReadingsError, readingsFromCsv } from '../core/advise/readingsCsv.ts';
import { type MeterAnswer, tiltFromReadings, tiltFromTwoReadings } from '../core/advise/voltmeter.ts';
import { say } from '../core/words/statement.ts';
import { adviceText, findingsText } from './adviceText.ts';
import { CannotError, type Command, UsageError } from './command.ts';
import { joinedNegatives, numberFlag } from './numbers.ts';
import { readLearned, readSheet } from './readSheet.ts';
import { readBytes } from './textFile.ts';

const help = `
platterside tilt --left-to-right DB --right-to-left DB [--left-mono DB --right-mono DB] [--record RECORD.json] [--learned LEARNED.json] [--set-by-mirror]
platterside tilt --readings FILE.csv [--record RECORD.json] [--learned LEARNED.json] [--set-by-mirror]

Azimuth from meter readings, sizes without phase.

  --left-to-right DB     how far the right channel lies under the left one on the left-only band, e.g. 28
  --right-to-left DB     how far the left channel lies under the right one on the right-only band, e.g. 24
  --left-mono DB         third reading: the mono sum on the left-only band against the left channel there, e.g. 0.2
  --right-mono DB        the same on the right-only band against the right channel; both or neither
  --readings FILE.csv    readings at several tilts: columns tilt_deg,left_to_right_db,right_to_left_db
                         (tilt clockwise seen from the cartridge's face is positive), and where read left_mono_db,right_mono_db
  --reading-uncertainty DB   of each reading, k = 2; 0.3 unless given, 0.1 for mono sums
  --record RECORD.json   the record played: the tilt and leak that its certificate states are allowed for
  --learned LEARNED.json what record learn found out about this record; needs --record
  --set-by-mirror        the cartridge was set square by mirror: its body is within 0.5° (standard) instead of 0.7°
  --json                 one JSON document on standard output

Measure at line level, never at loudspeaker outputs unless the meter is rated for it.
`;

const expectedDb = 'a separation in dB such as 28';
const expectedMono = 'a level in dB such as 0.2';

/** Text of a file; a spreadsheet's UTF-16 is told by its first two bytes. */
function decoded(bytes: Uint8Array): string {
  const wide =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null;
  return new TextDecoder(wide ?? 'utf-8').decode(bytes);
}

async function answerFrom(values: Record<string, string | boolean | undefined>): Promise<MeterAnswer> {
  const text = (name: string) => values[name] as string | undefined;
  const spread = text('reading-uncertainty');
  const uncertainty =
    spread === undefined ? undefined : numberFlag('--reading-uncertainty', spread, 'dB such as 0.3', 'dB');
  const file = text('readings');
  const leftToRight = text('left-to-right');
  const rightToLeft = text('right-to-left');
  const leftMono = text('left-mono');
  const rightMono = text('right-mono');
  if (file !== undefined) {
    if ([leftToRight, rightToLeft, leftMono, rightMono].some((given) => given !== undefined)) {
      throw new UsageError('--readings and single readings exclude each other; give one of the two');
    }
    const bytes = readBytes(`--readings ${file}`, file, 'a CSV file');
    try {
      return tiltFromReadings(readingsFromCsv(decoded(bytes)), uncertainty);
    } catch (error) {
      if (error instanceof ReadingsError || error instanceof RangeError)
        throw new UsageError(`${file}: ${error.message}`);
      throw error;
    }
  }
  if (leftToRight === undefined || rightToLeft === undefined) {
    throw new UsageError('tilt needs --left-to-right and --right-to-left, or --readings FILE.csv');
  }
  if ((leftMono === undefined) !== (rightMono === undefined)) {
    throw new UsageError('--left-mono and --right-mono belong together; give both or neither');
  }
  try {
    return tiltFromTwoReadings({
      leftToRightDb: numberFlag('--left-to-right', leftToRight, expectedDb, 'dB'),
      rightToLeftDb: numberFlag('--right-to-left', rightToLeft, expectedDb, 'dB'),
      readingUncertaintyDb: uncertainty,
      ...(leftMono === undefined || rightMono === undefined
        ? {}
        : {
            mono: {
              leftMonoDb: numberFlag('--left-mono', leftMono, expectedMono, 'dB'),
              rightMonoDb: numberFlag('--right-mono', rightMono, expectedMono, 'dB'),
            },
          }),
    });
  } catch (error) {
    if (error instanceof RangeError) throw new UsageError(error.message);
    throw error;
  }
}

export const command: Command = {
  name: 'tilt',
  summary: 'azimuth from meter readings: which way to turn, how far, what that brings',
  help,
  async run(args, io) {
    const { values } = parseArgs({
      args: joinedNegatives(args),
      options: {
        'left-to-right': { type: 'string' },
        'right-to-left': { type: 'string' },
        readings: { type: 'string' },
        'left-mono': { type: 'string' },
        'right-mono': { type: 'string' },
        'reading-uncertainty': { type: 'string' },
        record: { type: 'string' },
        learned: { type: 'string' },
        'set-by-mirror': { type: 'boolean' },
        json: { type: 'boolean' },
      },
    });
    const sheet = values.record === undefined ? undefined : readSheet(values.record, '--record');
    const learned = values.learned === undefined ? undefined : readLearned(values.learned, sheet);
    const answer = await answerFrom(values);
    if (!answer.found) throw new CannotError(`no tilt can be given: ${say(answer.why)}`);
    const document = meterDocument(answer, {
      cut: sheet?.cut,
      learned,
      setByMirror: values['set-by-mirror'] === true,
    });
    if (values.json === true) {
      io.out(`${JSON.stringify(document, null, 2)}\n`);
    } else {
      io.out(`${findingsText(document.findings, io.colour)}\n\n${adviceText(document.advice)}\n`);
    }
    return 0;
  },
};
