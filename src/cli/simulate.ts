/** `simulate`: a recording from a practice deck with known faults, its truth beside it. */
import { createHash } from 'node:crypto';
import { parseArgs } from 'node:util';
import { readDeck } from '../core/deck/deck.ts';
import { demoDeck, demoSheet } from '../core/deck/demo.ts';
import { readSheet } from '../core/deck/sheet.ts';
import { simulateSide } from '../core/deck/simulate.ts';
import { type WavBits, wavFrames, wavHeader } from '../core/deck/wavBytes.ts';
import { type Command, UsageError } from './command.ts';
import { checkOutput, replaceHelp, replaceOption, writeOutput, writeTextOutput } from './output.ts';
import { readText } from './textFile.ts';

const help = `
platterside simulate -o FILE.wav [flags]

Plays a record side on a practice deck with known faults and writes what a bench would record.
Without --deck and --record it plays the invented house test side on "bench deck 3".

  --deck FILE.json     the deck's faults (*.deck.json; docs/virtual-deck.md lists every key)
  --record RECORD.json  what is cut on the record (*.record.json)
  --seed N             integer from 0 to 4294967295; the same seed gives the same recording (default 1)
  --rate HZ            sample rate, 32000 to 384000 (default 48000)
  --bits 16|24|32|float  sample format, instead of the deck's own
  --truth TRUTH.json   writes what is true of this recording
  -o, --output FILE.wav  the recording
${replaceHelp}
`;

export const command: Command = {
  name: 'simulate',
  summary: 'a recording from a practice deck with known faults, its truth beside it',
  help,
  async run(args, io) {
    const { values } = parseArgs({
      args: [...args],
      allowPositionals: false,
      options: {
        deck: { type: 'string' },
        record: { type: 'string' },
        seed: { type: 'string', default: '1' },
        rate: { type: 'string', default: '48000' },
        bits: { type: 'string' },
        truth: { type: 'string' },
        output: { type: 'string', short: 'o' },
        ...replaceOption,
      },
    });
    const output = values.output;
    if (output === undefined) throw new UsageError('simulate: -o FILE.wav is missing: say where the recording goes');
    const inputs = [values.deck, values.record];
    const replace = values.replace === true;
    const capture = { flag: '-o', file: output, inputs, replace };
    const truth = values.truth === undefined ? null : { flag: '--truth', file: values.truth, inputs, replace };
    const place = checkOutput(capture);
    if (truth !== null && checkOutput(truth) === place) {
      throw new UsageError(`${output}: given both as recording and as --truth, expected two files`);
    }
    const seed = wholeNumber(values.seed, '--seed', 0, 4294967295);
    const sampleRateHz = wholeNumber(values.rate, '--rate', 32000, 384000);
    const deck = values.deck === undefined ? readDeck(demoDeck) : readFrom(values.deck, readDeck);
    const sheet = values.record === undefined ? readSheet(demoSheet) : readFrom(values.record, readSheet);
    const bits = values.bits === undefined ? deck.converter.bits : sampleFormat(values.bits);

    const simulation = prepared(values.deck ?? deck.name, values.record ?? sheet.name, () =>
      simulateSide({ ...deck, converter: { ...deck.converter, bits } }, sheet, { sampleRateHz, seed }),
    );
    const { frames } = simulation;
    const hash = createHash('sha256');
    writeOutput(capture, (write) => {
      const put = (bytes: Uint8Array) => {
        hash.update(bytes);
        write(bytes);
      };
      put(wavHeader({ sampleRateHz, bits, frames }));
      let done = 0;
      for (const block of simulation.blocks()) {
        put(wavFrames(block.left, block.right, block.frames, bits));
        done += block.frames;
        if (io.progress) io.err(`\rsimulate ${Math.floor((100 * done) / frames)} %`);
      }
      if (io.progress) io.err('\r                \r');
    });
    if (truth !== null) {
      const document = {
        ...simulation.truth,
        capture: { ...simulation.truth.capture, file: output, sha256: hash.digest('hex') },
      };
      writeTextOutput(truth, `${JSON.stringify(document, null, 2)}\n`);
    }
    const seconds = frames / sampleRateHz;
    io.err(
      `${output}: ${sheet.name} on ${deck.name}, ${seconds.toFixed(1)} s at ${sampleRateHz} Hz, ${bits === 'float' ? '32 bit float' : `${bits} bit`}, seed ${seed}\n`,
    );
    return 0;
  },
};

function wholeNumber(given: string, flag: string, min: number, max: number): number {
  const value = Number(given);
  if (!(given.trim() !== '' && Number.isInteger(value) && value >= min && value <= max)) {
    throw new UsageError(`${flag}: '${given}' given, expected an integer from ${min} to ${max}`);
  }
  return value;
}

function sampleFormat(given: string): WavBits {
  if (given === 'float') return 'float';
  if (given === '16') return 16;
  if (given === '24') return 24;
  if (given === '32') return 32;
  throw new UsageError(`--bits: '${given}' given, expected 16, 24, 32 or float`);
}

/** Reads a JSON file and checks it; every complaint starts with the file's name. */
function readFrom<T>(path: string, check: (given: unknown) => T): T {
  const text = readText(path, path, 'a JSON file');
  let given: unknown;
  try {
    given = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new UsageError(`${path}: is not JSON: ${(error as Error).message.split('\n')[0]}`);
  }
  try {
    return check(given);
  } catch (error) {
    if (error instanceof RangeError) throw new UsageError(`${path}: ${error.message}`);
    throw error;
  }
}

/** What only deck and record together show to be wrong is said under the name of the one that the key belongs to. */
function prepared<T>(deckName: string, sheetName: string, make: () => T): T {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new UsageError(`${error.message.startsWith('bands') ? sheetName : deckName}: ${error.message}`);
  }
}
