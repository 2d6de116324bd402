/**
 * What strangers hand us, each with sound originals to damage and with what must hold whatever comes: a value or one clear
 * sentence, never another error, no figure that is no number.
 */

import { readFileSync } from 'node:fs';
import { ReadingsError, readingsFromCsv } from '../../src/core/advise/readingsCsv.ts';
import { tiltFromReadings } from '../../src/core/advise/voltmeter.ts';
import { bytesOf } from '../../src/core/capture/bytesOf.ts';
import { CaptureError } from '../../src/core/capture/captureError.ts';
import { readDeck } from '../../src/core/deck/deck.ts';
import { readSheet } from '../../src/core/deck/sheet.ts';
import { simulateSide } from '../../src/core/deck/simulate.ts';
import { demoJob } from '../../src/core/job/demoJob.ts';
import { demoParts } from '../../src/core/job/demoParts.ts';
import { readJobFile } from '../../src/core/job/jobFile.ts';
import { partsFromCsv, partsToCsv } from '../../src/core/job/partsCsv.ts';
import { partsFromJson } from '../../src/core/job/partsJson.ts';
import { parseSheet } from '../../src/core/record/sheet.ts';
import { examineSide } from '../../src/core/side/examineSide.ts';
import { say } from '../../src/core/words/statement.ts';
import { flac } from '../faults/buildFlac.ts';
import { wave } from '../faults/buildWave.ts';
import { damagedBundle, readDamagedBundle } from './bundleTarget.ts';
import { below, oneOf, type Random, woundedBytes, woundedJson } from './mutate.ts';

export interface Target {
  readonly name: string;
  /** its part of all cases */
  readonly share: number;
  /** a damaged original, as the bytes of a file */
  damaged(random: Random): Uint8Array;
  /** reads the file and checks what must hold; throws what must not be */
  read(bytes: Uint8Array): void | Promise<void>;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const fromFile = (name: string): unknown => JSON.parse(readFileSync(name, 'utf8'));

/** @throws Error naming the first figure that is no finite number */
function finiteThroughout(value: unknown, path = ''): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${path} is ${value}`);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, each] of Object.entries(value)) finiteThroughout(each, `${path}.${key}`);
}

/** @throws Error where a complaint is no single clear line */
function oneSentence(text: string): void {
  if (
    text.trim() === '' ||
    text.includes('\n') ||
    text.length > 2000 ||
    /\bundefined\b|\[object|\bat \S+:\d+/.test(text)
  ) {
    throw new Error(`no sentence for a person: ${text.slice(0, 300)}`);
  }
}

function complains(kinds: readonly (new (...args: never[]) => Error)[], error: unknown): void {
  if (!kinds.some((kind) => error instanceof kind)) throw error;
  oneSentence((error as Error).message);
}

function damagedJson(originals: readonly unknown[]): (random: Random) => Uint8Array {
  return (random) => {
    const text = utf8(JSON.stringify(woundedJson(oneOf(random, originals), random)));
    return random() < 0.15 ? woundedBytes(text, random) : text;
  };
}

const json = (bytes: Uint8Array): { readonly value: unknown } | null => {
  try {
    return { value: JSON.parse(textOf(bytes)) };
  } catch {
    return null;
  }
};

/** A second of a left-only tone over a weak leak, as integers of 16 bits. */
const tone = Array.from({ length: 2 * 44100 }, (_, i) => {
  const phase = (2 * Math.PI * 1000 * Math.floor(i / 2)) / 44100;
  return Math.round((i % 2 === 0 ? 8000 : 160) * Math.sin(phase));
});
const recordings = [wave(tone, 16, { rateHz: 44100, bits: 16 }), flac(tone, { rateHz: 44100, bits: 16 })];

const capture: Target = {
  name: 'capture',
  share: 0.1,
  damaged: (random) => woundedBytes(oneOf(random, recordings), random),
  async read(bytes) {
    try {
      const { document } = await examineSide(bytesOf(bytes, 'side.wav'));
      finiteThroughout(document);
      for (const problem of document.problems) oneSentence(problem.message);
    } catch (error) {
      complains([CaptureError], error);
    }
  },
};

const sheets = [fromFile('examples/house-test-side.record.json')];
const sheet: Target = {
  name: 'record file',
  share: 0.2,
  damaged: damagedJson(sheets),
  read(bytes) {
    const parsed = parseSheet(textOf(bytes), 'side.record.json');
    if (parsed.ok) finiteThroughout(parsed.sheet);
    else oneSentence(say(parsed.why));
  },
};

const shortSide = readSheet({
  name: 'short',
  bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 100, durationS: 0.05 }],
});
const decks = ['bench-deck-3', 'noisy-old-deck', 'off-centre-hole'].map((name) =>
  fromFile(`examples/${name}.deck.json`),
);
const deck: Target = {
  name: 'deck file',
  share: 0.15,
  damaged: damagedJson(decks),
  read(bytes) {
    const parsed = json(bytes);
    if (parsed === null) return;
    try {
      const side = simulateSide(readDeck(parsed.value), shortSide, { sampleRateHz: 44100, seed: 1 });
      finiteThroughout(side.truth);
      const first = side.blocks(512).next();
      if (first.done !== true && !Array.from(first.value.left.subarray(0, first.value.frames)).every(Number.isFinite)) {
        throw new Error('a sample is no number');
      }
    } catch (error) {
      complains([RangeError], error);
    }
  },
};

const jobs = [demoJob({ at: '2026-01-02T03:04:05.000Z', madeBy: 'test' })];
const job: Target = {
  name: 'job file',
  share: 0.2,
  damaged: damagedJson(jobs),
  read(bytes) {
    const parsed = json(bytes);
    if (parsed === null) return;
    const read = readJobFile(parsed.value);
    if (!read.found) oneSentence(say(read.why));
  },
};

const tables = ['tilt_deg,left_to_right_db,right_to_left_db\n-1,25,22\n0,27.5,24\n1,24,27\n', partsToCsv(demoParts)];
const csv: Target = {
  name: 'CSV',
  share: 0.15,
  damaged(random) {
    const original = utf8(oneOf(random, tables));
    const wounded = woundedBytes(original, random);
    for (let n = below(random, 4); n > 0 && wounded.length > 0; n--) {
      wounded[below(random, wounded.length)] = oneOf(
        random,
        [...',;\t"\n\r-. 9e=@'].map((c) => c.charCodeAt(0)),
      );
    }
    return wounded;
  },
  read(bytes) {
    try {
      finiteThroughout(tiltFromReadings(readingsFromCsv(textOf(bytes))));
    } catch (error) {
      complains([ReadingsError, RangeError], error);
    }
    finiteThroughout(partsFromCsv(textOf(bytes)));
  },
};

const library: Target = {
  name: 'parts',
  share: 0.1,
  damaged: damagedJson([{ schema: 1, parts: demoParts }]),
  read(bytes) {
    finiteThroughout(partsFromJson(textOf(bytes)));
  },
};

const bundle: Target = {
  name: 'bundle',
  share: 0.1,
  damaged: damagedBundle,
  read(bytes) {
    const refusal = readDamagedBundle(bytes);
    if (refusal !== null) oneSentence(refusal);
  },
};

export const targets: readonly Target[] = [capture, sheet, deck, job, csv, library, bundle];
