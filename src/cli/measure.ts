/** `platterside measure`: everything that captures of a test record can tell. */
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { type LearnedRecord, parseLearned } from '../core/advise/budget/learnedRecord.ts';
import type { SideDocument } from '../core/advise/document.ts';
import { type NamedLimits, parseLimits } from '../core/advise/limitsFile.ts';
import { CaptureError } from '../core/capture/captureError.ts';
import { openRecording } from '../core/capture/openRecording.ts';
import { problem } from '../core/capture/problem.ts';
import { readCalibration } from '../core/measure/calibration.ts';
import type { PreampResponse } from '../core/measure/chainLevel.ts';
import { parseResponse } from '../core/measure/responseCsv.ts';
import { recordKey } from '../core/record/recordKey.ts';
import type { RecordSheet } from '../core/record/sheet.ts';
import { type ExaminedSide, type ExamineOptions, examineRecording, type Progress } from '../core/side/examineSide.ts';
import { withHalfTurn } from '../core/side/withHalfTurn.ts';
import { withSwappedLeads } from '../core/side/withSwappedLeads.ts';
import { say } from '../core/words/statement.ts';
import { benchFromFlags, benchHelp, benchOptions } from './benchFlags.ts';
import { type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { fileFingerprint } from './fileFingerprint.ts';
import { whyUnread } from './fileReason.ts';
import { openFileSource } from './fileSource.ts';
import { playedArm, playedArmHelp, playedArmOptions } from './geometryFlags.ts';
import { type LiveFlags, liveHelp, liveOptions, measureLive } from './measureLive.ts';
import { joinedNegatives, numberFlag } from './numbers.ts';
import { checkOutput, replaceHelp, replaceOption, writeTextOutput } from './output.ts';
import { readSheet } from './readSheet.ts';
import { sideText } from './sideText.ts';
import { readText } from './textFile.ts';
import { type TwoThreads, twoThreads } from './twoThreads.ts';
import { oneLine } from './usageWords.ts';

const help = `
platterside measure FILE… | --input DEVICE [--record RECORD.json] [--rpm RPM] [--nominal-speed-tone HZ] [--flat] [--limits FILE.json] [--learned LEARNED.json] [--json] [--report FILE.html]

Reads recordings of a test record (WAV, RF64, BW64, FLAC; 44.1 to 192 kHz) and tells what they show. The files are only read.

  --record RECORD.json       what is cut on the record; without it the bands are found all the same
  --rpm RPM                 turns a minute of the record; 33.333 unless the record file or you say otherwise
  --nominal-speed-tone HZ   frequency of the tone that speed is judged by, as the record states it
${playedArmHelp.trim().replace(/^/, '  ')}
  --leads-swapped FILE      a second recording, the cartridge's leads exchanged left for right at the preamp (amplifier off before you
                            touch them): tells the cartridge's balance from the chain's
  --calibration FILE --calibration-volts V
                            a recording of a generator's tone of V volts rms through the same input, at the same setting: levels in volts
  --half-turn FILE          a second recording, the record lifted and turned by half a turn on the platter: tells the
                            platter's own once-per-turn part without any geometry
  --flat                    the recording was made without RIAA playback equalisation
  --preamp-response FILE.csv   the preamp's response as measured, with its RIAA curve or with that taken off: columns
                            frequency_hz and db, or frequency_hz, left_db, right_db
  --record-response FILE.csv   the record's calibration: what is cut over what is stated, the same columns
  --limits FILE.json        limits that the verdicts go by: a deck class (shop, studio, archive) and what is set otherwise
  --learned LEARNED.json    what record learn found out about this record; leave it out to measure without
${benchHelp.trim().replace(/^/, '  ')}
${liveHelp}
  --json                    one JSON document on standard output (an array of them for several files)
  --report FILE.html        also write a report that opens in any browser
${replaceHelp}
`;

function readLimits(file: string): NamedLimits {
  const parsed = parseLimits(readText(`--limits ${file}`, file, 'a limits file'), basename(file));
  if (!parsed.ok) throw new UsageError(parsed.why);
  return parsed;
}

function readResponse(flag: string, file: string | undefined): PreampResponse | undefined {
  if (file === undefined) return undefined;
  const parsed = parseResponse(readText(`${flag} ${file}`, file, 'a response as CSV'), basename(file));
  if (!parsed.ok) throw new UsageError(`${flag} ${parsed.why}`);
  return parsed.response;
}

/** What was learned counts for the record that it was learned of, and for no other. */
function readLearned(file: string, sheet: RecordSheet | undefined): LearnedRecord {
  if (sheet === undefined)
    throw new UsageError(`--learned ${file}: --record with the record file it was learned for was expected beside it`);
  const parsed = parseLearned(readText(`--learned ${file}`, file, 'a file that record learn wrote'), basename(file));
  if (!parsed.ok) throw new UsageError(parsed.why);
  const { record } = parsed.learned;
  if (record.key !== recordKey(sheet)) {
    throw new UsageError(
      `--learned ${file}: it was learned of "${record.name}" as that record file was; learn it again from this one`,
    );
  }
  return parsed.learned;
}

/** What full scale is in volts, from a recording of a generator. */
async function calibrated(file: string | undefined, text: string | undefined) {
  if (file === undefined && text === undefined) return {};
  if (file === undefined || text === undefined) {
    throw new UsageError('--calibration FILE and --calibration-volts V go together; one of them was given alone');
  }
  const volts = numberFlag('--calibration-volts', text, 'volts rms such as 0.005', 'V');
  if (!(volts > 0 && volts <= 100))
    throw new UsageError(`--calibration-volts ${text}: above 0 and up to 100 V was expected`);
  const source = await openFileSource(file).catch((error: NodeJS.ErrnoException) => {
    throw new UsageError(`--calibration ${file}: cannot be read (${whyUnread(error)}); a recording was expected`);
  });
  try {
    const full = await readCalibration(await openRecording(source), volts);
    if (!full.found) throw new UsageError(`--calibration ${file}: ${say(full.why)}`);
    return { fullScaleV: { left: full.left, right: full.right } };
  } catch (error) {
    if (error instanceof CaptureError) throw new UsageError(error.message);
    throw error;
  } finally {
    await source.close();
  }
}

/** Draws the bar on standard error, at most ten times a second. */
function progressBar(file: string, io: Streams): { show(progress: Progress): void; clear(): void } {
  let shown = 0;
  return {
    show({ stage, fraction }) {
      const now = Date.now();
      if (!io.progress || now - shown < 100) return;
      shown = now;
      const whole = stage === 'finding-bands' ? fraction / 2 : 0.5 + fraction / 2;
      const words = stage === 'finding-bands' ? 'finding the bands' : 'measuring';
      io.err(
        `\r\u001b[K${'█'.repeat(Math.round(whole * 24)).padEnd(24, '░')} ${Math.round(whole * 100)} % ${words} · ${file}`,
      );
    },
    clear() {
      if (io.progress && shown > 0) io.err('\r\u001b[K');
    },
  };
}

async function examineFile(file: string, options: ExamineOptions, io: Streams): Promise<ExaminedSide> {
  const source = await openFileSource(file).catch((error: NodeJS.ErrnoException) => {
    throw new UsageError(`${file}: cannot be read (${whyUnread(error)}); a recording was expected`);
  });
  const bar = progressBar(basename(file), io);
  let threads: TwoThreads | null = null;
  try {
    const recording = await openRecording(source);
    threads = twoThreads(source.file, recording);
    const [side, sha256] = await Promise.all([
      examineRecording(recording, {
        ...options,
        onProgress: bar.show,
        ...(threads === null ? {} : { passes: threads }),
      }),
      fileFingerprint(source.file),
    ]);
    const grown = source.sinceOpened() === 'grown';
    const present = recording.format.durationS.toFixed(1);
    const { document } = side;
    return {
      ...side,
      document: {
        ...document,
        capture: { ...document.capture, path: file, sha256 },
        problems: [...document.problems, ...(grown ? [problem('still-growing', { present })] : [])],
      },
    };
  } catch (error) {
    if (error instanceof CaptureError) throw new UsageError(error.message);
    throw error;
  } finally {
    bar.clear();
    await threads?.end();
    await source.close();
  }
}

export const command: Command = {
  name: 'measure',
  summary: 'everything that a recording of a test record can tell',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values, positionals } = parseArgs({
      args: joinedNegatives(args),
      allowPositionals: true,
      options: {
        record: { type: 'string' },
        rpm: { type: 'string' },
        'nominal-speed-tone': { type: 'string' },
        flat: { type: 'boolean' },
        'preamp-response': { type: 'string' },
        'record-response': { type: 'string' },
        ...playedArmOptions,
        'half-turn': { type: 'string' },
        'leads-swapped': { type: 'string' },
        calibration: { type: 'string' },
        'calibration-volts': { type: 'string' },
        json: { type: 'boolean' },
        report: { type: 'string' },
        limits: { type: 'string' },
        learned: { type: 'string' },
        ...benchOptions,
        ...liveOptions,
        ...replaceOption,
      },
    });
    const { input } = values;
    if (input !== undefined && positionals.length > 0) {
      throw new UsageError(`--input ${input} listens live: no file beside it was expected`);
    }
    if (input !== undefined && (values.report !== undefined || values['half-turn'] !== undefined)) {
      throw new UsageError(
        '--report and --half-turn take recordings: keep the pass with --keep and measure it as a file',
      );
    }
    const stray = Object.keys(liveOptions).find((flag) => values[flag as keyof LiveFlags] !== undefined);
    if (input === undefined && stray !== undefined) {
      throw new UsageError(`--${stray} goes with --input, which was not given`);
    }
    if (input === undefined && positionals.length === 0)
      throw new UsageError('measure needs at least one recording: measure FILE…');
    if (values.report !== undefined && positionals.length > 1) {
      throw new UsageError('--report takes one recording at a time');
    }
    const half = values['half-turn'];
    if (half !== undefined && positionals.length > 1) {
      throw new UsageError('--half-turn takes one recording at a time, and the second one of the same record');
    }
    const leads = values['leads-swapped'];
    if (leads !== undefined && (positionals.length > 1 || half !== undefined)) {
      throw new UsageError('--leads-swapped takes one recording at a time, and no --half-turn beside it');
    }
    const { report, record } = values;
    const output =
      report === undefined
        ? null
        : {
            flag: '--report',
            file: report,
            inputs: [...positionals, record, half, leads, values.calibration, values.limits, values.learned],
            replace: values.replace === true,
          };
    // says before a long measurement, not after it, that its report has nowhere to go
    if (output !== null) checkOutput(output);
    const rpm =
      values.rpm === undefined ? undefined : numberFlag('--rpm', values.rpm, 'turns a minute such as 33.333', 'rpm');
    if (rpm !== undefined && !(10 <= rpm && rpm <= 120)) {
      throw new UsageError(`--rpm ${values.rpm}: between 10 and 120 turns a minute was expected`);
    }
    const tone = values['nominal-speed-tone'];
    const nominalSpeedToneHz =
      tone === undefined ? undefined : numberFlag('--nominal-speed-tone', tone, 'Hz such as 3150', 'Hz');
    if (nominalSpeedToneHz !== undefined && !(20 <= nominalSpeedToneHz && nominalSpeedToneHz <= 20000)) {
      throw new UsageError(`--nominal-speed-tone ${tone}: between 20 and 20000 Hz was expected`);
    }
    const sheet = values.record === undefined ? undefined : readSheet(values.record, '--record');
    const own = values.limits === undefined ? undefined : readLimits(values.limits);
    const learned = values.learned === undefined ? undefined : readLearned(values.learned, sheet);
    const options: ExamineOptions = {
      sheet,
      rpm,
      nominalSpeedToneHz,
      flat: values.flat === true,
      preamp: readResponse('--preamp-response', values['preamp-response']),
      recordResponse: readResponse('--record-response', values['record-response']),
      limits: own,
      learned,
      bench: { ...benchFromFlags(values), ...(await calibrated(values.calibration, values['calibration-volts'])) },
      arm: await playedArm(values),
    };
    if (input !== undefined) return measureLive({ ...values, input }, options, values.json === true, io);
    const several = positionals.length > 1;
    const documents: SideDocument[] = [];
    let unread = 0;
    for (const file of positionals) {
      try {
        const side = await examineFile(file, options, io);
        if (half !== undefined) documents.push(withHalfTurn(side, await examineFile(half, options, io)));
        else if (leads !== undefined)
          documents.push(withSwappedLeads(side.document, (await examineFile(leads, options, io)).document));
        else documents.push(side.document);
      } catch (error) {
        // one file of many that cannot be read does not take the others with it
        if (!several || !(error instanceof UsageError)) throw error;
        io.err(`platterside: ${oneLine(error.message)}\n`);
        unread += 1;
      }
    }
    if (output !== null) {
      const { madeNow } = await import('./madeNow.ts');
      const { renderSideReport } = await import('../report/sideReport.tsx');
      writeTextOutput(output, renderSideReport(documents[0], madeNow()));
    }
    if (values.json === true) {
      io.out(`${JSON.stringify(several ? documents : documents[0], null, 2)}\n`);
    } else {
      io.out(documents.map((document) => sideText(document, io.colour)).join('\n'));
    }
    if (unread > 0) return 2;
    return documents.some((document) => document.findings.length === 0) ? 1 : 0;
  },
};
