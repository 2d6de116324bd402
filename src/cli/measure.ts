/** `platterside measure`: everything that captures of a test record can tell. */
import { basename } from 'node:path';
import type { SideDocument } from '../core/advise/document.ts';
import { type AddedCapacitance, withAddedCapacitance } from '../core/advise/loading/withAddedCapacitance.ts';
import { CaptureError } from '../core/capture/captureError.ts';
import { openRecording } from '../core/capture/openRecording.ts';
import { problem } from '../core/capture/problem.ts';
import { curvesCsv } from '../core/draw/chart/csv.ts';
import { curvesSvg } from '../core/draw/chart/svg.ts';
import { type ExaminedSide, type ExamineOptions, examineRecording, type Progress } from '../core/side/examineSide.ts';
import { withHalfTurn } from '../core/side/withHalfTurn.ts';
import { withSwappedLeads } from '../core/side/withSwappedLeads.ts';
import { benchHelp } from './benchFlags.ts';
import { type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { fileFingerprint } from './fileFingerprint.ts';
import { whyUnread } from './fileReason.ts';
import { FileShelf } from './fileShelf.ts';
import { openFileSource } from './fileSource.ts';
import { jsonPieces } from './jsonPieces.ts';
import { addedCapacitance, checkTogether, examineOptions, readFlags } from './measureFlags.ts';
import { liveHelp, measureLive } from './measureLive.ts';
import { checkOutput, replaceHelp, writeTextOutput } from './output.ts';
import { playedArmHelp } from './playedArmFlags.ts';
import { sideText } from './sideText.ts';
import { type TwoThreads, twoThreads } from './twoThreads.ts';
import { oneLine } from './usageWords.ts';

const help = `
platterside measure FILE… | --input DEVICE [--record RECORD.json] [--rpm RPM] [--nominal-speed-tone HZ] [--flat] [--limits FILE.json] [--learned LEARNED.json] [--json] [--report FILE.html] [--curves FILE.csv|.svg]

Reads recordings of a test record (WAV, RF64, BW64, FLAC; 44.1 to 192 kHz) and tells what they show. The files are only read.

  --record RECORD.json       what is cut on the record; without it the bands are found all the same
  --rpm RPM                 turns a minute of the record; 33.333 unless the record file or you say otherwise
  --nominal-speed-tone HZ   frequency of the tone that speed is judged by, as the record states it
${playedArmHelp.trim().replace(/^/, '  ')}
  --leads-swapped FILE      a second recording, the cartridge's leads exchanged left for right at the preamp (amplifier off before you
                            touch them): tells the cartridge's balance from the chain's
  --capacitance-added FILE --added-capacitance PF [--load-resistance OHM] [--coil-resistance OHM]
                            a second recording of the same sweeps, a known capacitance across both inputs (amplifier off before you put it
                            there): parts the resonance of coil and load from the tip's; 47000 and 700 ± 400 ohm unless given
  --calibration FILE --calibration-volts V
                            a recording of a generator's tone of V volts rms through the same input, at the same setting: levels in volts
  --half-turn FILE          a second recording, the record lifted and turned by half a turn on the platter: tells the
                            platter's own once-per-turn part without any geometry
  --flat                    the recording was made without RIAA playback equalisation
  --preamp-response FILE.csv   the preamp's response as measured, with its RIAA curve or with that taken off: columns
                            frequency_hz and db, or frequency_hz, left_db, right_db
  --preamp FILE.json        the preamp as the parts library exports it, for the response that is kept with it
  --record-response FILE.csv   the record's calibration: what is cut over what is stated, the same columns
  --limits FILE.json        limits that the verdicts go by: a deck class (shop, studio, archive) and what is set otherwise
  --learned LEARNED.json    what record learn found out about this record; leave it out to measure without
${benchHelp.trim().replace(/^/, '  ')}
${liveHelp}
  --json                    one JSON document on standard output (an array of them for several files)
  --report FILE.html        also write a report that opens in any browser
  --curves FILE.csv|.svg    also write every curve as a table: quantity, channel, line, band, x, x_unit, y, y_unit; or, with a
                            name that ends in .svg, as charts one under the other; may be given twice, for both
  --spectra                 the bands' spectra among the curves
${replaceHelp}
`;

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
  const shelf = new FileShelf();
  let threads: TwoThreads | null = null;
  try {
    const recording = await openRecording(source);
    threads = twoThreads(source.file, recording);
    const [side, sha256] = await Promise.all([
      examineRecording(recording, {
        ...options,
        onProgress: bar.show,
        ...(threads === null ? { shelf } : { passes: threads }),
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
    shelf.close();
    await source.close();
  }
}

/** A second recording that belongs to the first: at most one of them is given. */
interface Second {
  readonly half?: string;
  readonly leads?: string;
  readonly capacitance?: string;
  readonly added?: AddedCapacitance;
}

/** Every file, each with the second recording that belongs to it; one of many that cannot be read is told and passed over. */
async function examineAll(
  files: readonly string[],
  { half, leads, capacitance, added }: Second,
  options: ExamineOptions,
  io: Streams,
): Promise<{ readonly documents: SideDocument[]; readonly unread: number }> {
  const documents: SideDocument[] = [];
  let unread = 0;
  for (const file of files) {
    try {
      const side = await examineFile(file, options, io);
      if (half !== undefined) documents.push(withHalfTurn(side, await examineFile(half, options, io)));
      else if (leads !== undefined)
        documents.push(withSwappedLeads(side.document, (await examineFile(leads, options, io)).document));
      else if (capacitance !== undefined && added !== undefined) {
        const second = (await examineFile(capacitance, options, io)).document;
        documents.push(withAddedCapacitance(side.document, second, added));
      } else documents.push(side.document);
    } catch (error) {
      // one file of many that cannot be read does not take the others with it
      if (files.length === 1 || !(error instanceof UsageError)) throw error;
      io.err(`platterside: ${oneLine(error.message)}\n`);
      unread += 1;
    }
  }
  return { documents, unread };
}

/** What each output flag writes. */
const written: Readonly<Record<string, (document: SideDocument, file: string) => string | Promise<string>>> = {
  '--curves': ({ curves }, file) => (/\.svg$/i.test(file) ? curvesSvg(curves) : curvesCsv(curves)),
  async '--report'(document) {
    const { madeNow } = await import('./madeNow.ts');
    const { renderSideReport } = await import('../report/sideReport.tsx');
    return renderSideReport(document, madeNow());
  },
};

export const command: Command = {
  name: 'measure',
  summary: 'everything that a recording of a test record can tell',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values, positionals } = readFlags(args);
    const { input, record, 'half-turn': half, 'leads-swapped': leads } = values;
    const capacitance = values['capacitance-added'];
    checkTogether(values, positionals);
    const added = addedCapacitance(values);
    const read = [record, half, leads, capacitance, values.calibration, values.limits, values.learned];
    const outputs = (['report', 'curves'] as const).flatMap((flag) => {
      const files = [values[flag] ?? []].flat();
      const inputs = [...positionals, ...read];
      return files.map((file) => ({ flag: `--${flag}`, file, inputs, replace: values.replace === true }));
    });
    // says before a long measurement, not after it, that what it is to write has nowhere to go
    for (const output of outputs) checkOutput(output);
    const options = await examineOptions(values);
    if (input !== undefined) return measureLive({ ...values, input }, options, values.json === true, io);
    const several = positionals.length > 1;
    const { documents, unread } = await examineAll(positionals, { half, leads, capacitance, added }, options, io);
    for (const output of outputs) writeTextOutput(output, await written[output.flag](documents[0], output.file));
    if (values.json === true) {
      for (const piece of jsonPieces(several ? documents : documents[0])) io.out(piece);
      io.out('\n');
    } else {
      io.out(documents.map((document) => sideText(document, io.colour)).join('\n'));
    }
    if (unread > 0) return 2;
    return documents.some((document) => document.findings.length === 0) ? 1 : 0;
  },
};
