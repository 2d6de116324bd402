/** The flags of `measure`: what they are, which go together, and what they ask of the listener. */
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import type { AddedCapacitance } from '../core/advise/loading/withAddedCapacitance.ts';
import { CaptureError } from '../core/capture/captureError.ts';
import { openRecording } from '../core/capture/openRecording.ts';
import { readCalibration } from '../core/measure/calibration.ts';
import type { PreampResponse } from '../core/measure/chainLevel.ts';
import { parseResponse } from '../core/measure/responseCsv.ts';
import type { ExamineOptions } from '../core/side/examineSide.ts';
import { say, stopped } from '../core/words/statement.ts';
import { benchFromFlags, benchOptions } from './benchFlags.ts';
import { UsageError } from './command.ts';
import { whyUnread } from './fileReason.ts';
import { openFileSource } from './fileSource.ts';
import { type LiveFlags, liveOptions } from './measureLive.ts';
import { joinedNegatives, numberFlag } from './numbers.ts';
import { replaceOption } from './output.ts';
import { playedArm, playedArmOptions } from './playedArmFlags.ts';
import { readLimits } from './readLimits.ts';
import { readLearned, readSheet } from './readSheet.ts';
import { readText } from './textFile.ts';

const measureOptions = {
  record: { type: 'string' },
  rpm: { type: 'string' },
  'nominal-speed-tone': { type: 'string' },
  flat: { type: 'boolean' },
  preamp: { type: 'string' },
  'preamp-response': { type: 'string' },
  'record-response': { type: 'string' },
  ...playedArmOptions,
  'half-turn': { type: 'string' },
  'leads-swapped': { type: 'string' },
  'capacitance-added': { type: 'string' },
  'added-capacitance': { type: 'string' },
  'load-resistance': { type: 'string' },
  'coil-resistance': { type: 'string' },
  calibration: { type: 'string' },
  'calibration-volts': { type: 'string' },
  json: { type: 'boolean' },
  report: { type: 'string' },
  /** a table, or charts where the name ends in .svg */
  curves: { type: 'string', multiple: true },
  spectra: { type: 'boolean' },
  limits: { type: 'string' },
  learned: { type: 'string' },
  ...benchOptions,
  ...liveOptions,
  ...replaceOption,
} as const;

export const readFlags = (args: readonly string[]) =>
  parseArgs({ args: joinedNegatives(args), allowPositionals: true, options: measureOptions });

export type MeasureFlags = ReturnType<typeof readFlags>['values'];

/** @throws UsageError for flags and files that exclude each other */
export function checkTogether(values: MeasureFlags, positionals: readonly string[]): void {
  const { input, 'half-turn': half, 'leads-swapped': leads } = values;
  if (input !== undefined && positionals.length > 0) {
    throw new UsageError(`--input ${input} listens live: no file beside it was expected`);
  }
  if (
    input !== undefined &&
    (values.report !== undefined || values.curves !== undefined || values['half-turn'] !== undefined)
  ) {
    throw new UsageError(
      '--report, --curves and --half-turn take recordings: keep the pass with --keep and measure it as a file',
    );
  }
  const stray = Object.keys(liveOptions).find((flag) => values[flag as keyof LiveFlags] !== undefined);
  if (input === undefined && stray !== undefined) {
    throw new UsageError(`--${stray} goes with --input, which was not given`);
  }
  if (input === undefined && positionals.length === 0)
    throw new UsageError('measure needs at least one recording: measure FILE…');
  const one = (['report', 'curves'] as const).find((flag) => values[flag] !== undefined);
  if (one !== undefined && positionals.length > 1) {
    throw new UsageError(`--${one} takes one recording at a time`);
  }
  if (half !== undefined && positionals.length > 1) {
    throw new UsageError('--half-turn takes one recording at a time, and the second one of the same record');
  }
  if (
    values['capacitance-added'] !== undefined &&
    (positionals.length !== 1 || half !== undefined || leads !== undefined)
  ) {
    throw new UsageError(
      '--capacitance-added takes one recording at a time, and neither --half-turn nor --leads-swapped beside it',
    );
  }
  if (leads !== undefined && (positionals.length > 1 || half !== undefined)) {
    throw new UsageError('--leads-swapped takes one recording at a time, and no --half-turn beside it');
  }
}

/**
 * What was put across the inputs for the second recording; undefined without one.
 * @throws UsageError naming the flag, what was found and what was expected
 */
export function addedCapacitance(values: MeasureFlags): AddedCapacitance | undefined {
  const { 'capacitance-added': file, 'added-capacitance': added } = values;
  const [load, coil] = [values['load-resistance'], values['coil-resistance']];
  if (file === undefined && added === undefined) {
    if (load !== undefined || coil !== undefined) {
      throw new UsageError('--load-resistance and --coil-resistance go with --capacitance-added, which was not given');
    }
    return undefined;
  }
  if (file === undefined || added === undefined) {
    throw new UsageError(
      '--capacitance-added FILE and --added-capacitance PF go together; one of them was given alone',
    );
  }
  const within = (flag: string, text: string, low: number, high: number, unit: string): number => {
    // the sentences say ohm; 47k and 0.7 kΩ are read as everywhere
    const value = numberFlag(flag, text, `${unit} such as ${low === 10 ? 100 : 700}`, unit === 'ohm' ? 'Ω' : unit);
    if (!(value >= low && value <= high))
      throw new UsageError(`${flag} ${text}: ${low} to ${high} ${unit} was expected`);
    return value;
  };
  return {
    addedF: 1e-12 * within('--added-capacitance', added, 10, 5000, 'pF'),
    ...(load === undefined ? {} : { loadOhm: within('--load-resistance', load, 100, 1e6, 'ohm') }),
    ...(coil === undefined ? {} : { coilOhm: within('--coil-resistance', coil, 1, 10_000, 'ohm') }),
  };
}

function readResponse(flag: string, file: string | undefined): PreampResponse | undefined {
  if (file === undefined) return undefined;
  const parsed = parseResponse(readText(`${flag} ${file}`, file, 'a response as CSV'), basename(file));
  if (!parsed.ok) throw new UsageError(`${flag} ${stopped(say(parsed.why))}`);
  return parsed.response;
}

/** As measured on its own, else as the parts library keeps it with the preamp. */
async function preampResponse(own: string | undefined, file: string | undefined): Promise<PreampResponse | undefined> {
  if (own !== undefined && file !== undefined)
    throw new UsageError('--preamp and --preamp-response both tell the preamp; one of them was expected');
  if (file === undefined) return readResponse('--preamp-response', own);
  const { readPart } = await import('./partFile.ts');
  const part = await readPart('preamp', file);
  const csv = part.kind === 'preamp' ? part.responseCsv : undefined;
  const parsed = csv === undefined ? null : parseResponse(csv, basename(file));
  if (parsed === null) throw new UsageError(`--preamp ${file}: ${part.name} has no responseCsv; one was expected`);
  if (!parsed.ok) throw new UsageError(`--preamp ${stopped(say(parsed.why))}`);
  return parsed.response;
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

/** @throws UsageError naming the flag, what was found and what was expected */
export async function examineOptions(values: MeasureFlags): Promise<ExamineOptions> {
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
  return {
    sheet,
    rpm,
    nominalSpeedToneHz,
    flat: values.flat === true,
    withSpectra: values.spectra === true,
    preamp: await preampResponse(values['preamp-response'], values.preamp),
    recordResponse: readResponse('--record-response', values['record-response']),
    limits: own,
    learned,
    bench: { ...benchFromFlags(values), ...(await calibrated(values.calibration, values['calibration-volts'])) },
    arm: await playedArm(values),
  };
}
