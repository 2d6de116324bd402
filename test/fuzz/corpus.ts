/**
 * Every fault that a file from outside has shown so far, by what it is read as: named after the fault, built here where its bytes
 * are many. Read first in every run; what `npm run fuzz` finds goes to `corpus/TARGET/` as it was found, or here with a name.
 */
import { strToU8, zipSync } from 'fflate';
import { flac, flacFrames, flacHead } from '../faults/buildFlac.ts';
import { chunk, joined, text, wave } from '../faults/buildWave.ts';

export interface KnownFault {
  readonly target: string;
  readonly name: string;
  bytes(): Uint8Array;
}

const RATE = 44_100;
const tone = Array.from({ length: 4 * RATE }, (_, i) =>
  Math.round((i % 2 === 0 ? 8000 : 160) * Math.sin((2 * Math.PI * 1000 * Math.floor(i / 2)) / RATE)),
);
const sound = wave(tone, 16, { rateHz: RATE, bits: 16 });
const without = (at: number, count: number): Uint8Array => joined(sound.subarray(0, at), sound.subarray(at + count));
const put = (at: number, ...bytes: number[]): Uint8Array =>
  joined(sound.subarray(0, at), Uint8Array.from(bytes), sound.subarray(at));
const set = (at: number, ...bytes: number[]): Uint8Array => {
  const copy = Uint8Array.from(sound);
  copy.set(bytes, at);
  return copy;
};

const captures: Record<string, () => Uint8Array> = {
  'a FLAC of two frames that claims hours': () =>
    flac(tone.slice(0, 512), { rateHz: RATE, bits: 16, promised: 2 ** 36 - 1 }),
  'a FLAC of eight channels that claims hours': () =>
    flac(new Array(8 * 512).fill(7), { rateHz: RATE, bits: 16, channels: 8, promised: 2 ** 35 }),
  'a FLAC whose frame number is hours away': () =>
    joined(
      flacHead(tone.slice(0, 512), { rateHz: RATE, bits: 16 }),
      ...flacFrames(tone.slice(0, 512), { rateHz: RATE, bits: 16, firstNumber: 2 ** 19 }),
    ),
  'a FLAC without a frame': () => flacHead(tone, { rateHz: RATE, bits: 16 }),
  'one byte missing in the middle': () => without(RATE, 1),
  'two bytes missing in the middle': () => without(RATE, 2),
  'three bytes too many in the middle': () => put(RATE, 1, 2, 3),
  'two bytes too many near the end': () => put(sound.length - 4001, 0, 255),
  'a last frame cut in two': () => sound.subarray(0, sound.length - 3),
  'nothing after the header': () => sound.subarray(0, 44),
  'an empty file': () => new Uint8Array(0),
  'a rate of zero': () => set(24, 0, 0, 0, 0),
  'a rate of 4 GHz': () => set(24, 255, 255, 255, 255),
  'no channels': () => set(22, 0, 0),
  'no bytes a frame': () => set(32, 0, 0),
  'zero bits': () => set(34, 0, 0),
  'a length of data beyond its file': () => set(40, 255, 255, 255, 127),
  'a length of data that never was written': () => set(40, 0, 0, 0, 0),
  'samples that are no numbers': () => {
    const floats = new Float32Array(2 * RATE).fill(Number.NaN);
    floats.set([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY], 100);
    return joined(
      text('RIFF'),
      Uint8Array.of(255, 255, 255, 0),
      text('WAVE'),
      chunk('fmt ', Uint8Array.of(3, 0, 2, 0, 0x44, 0xac, 0, 0, 0x20, 0x62, 5, 0, 8, 0, 32, 0)),
      chunk('data', new Uint8Array(floats.buffer)),
    );
  },
};

const deep = (depth: number): string => '['.repeat(depth) + ']'.repeat(depth);
/** what an attacker, or a slip, puts where an object was expected */
const documents: Record<string, string> = {
  'lists nested without end': deep(100_000),
  'objects nested without end': `${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}`,
  'an object of the language': '{"__proto__":{"schema":1},"constructor":{"prototype":{"x":1}}}',
  null: 'null',
  'a number beyond all': '{"schema":1e999,"rpm":1e999}',
  'a half of a pair': '{"schema":1,"name":"\\ud800","title":"\\udfff"}',
  'control characters in names': '{"schema":1,"name":"a\\u001b[2Jb\\r\\nc\\u0007","title":"\\u202e\\u0000"}',
  'bytes that are no UTF-8': '{"schema":1,"name":"\xff\xfe"}',
  'a field that is not known': '{"schema":1,"name":"x","bands":[],"toString":1,"hasOwnProperty":2}',
};

const sheets: Record<string, string> = {
  'a hundred thousand bands': JSON.stringify({
    schema: 1,
    name: 'long',
    rpm: 33.333,
    bands: new Array(100_000).fill({ signal: 'tone', motion: 'left', frequencyHz: 1000 }),
  }),
  'a speed that is a word of the language': '{"schema":1,"name":"x","rpm":"constructor","bands":[]}',
  'a signal that is a word of the language':
    '{"schema":1,"name":"x","bands":[{"signal":"constructor","motion":"toString"}]}',
};

const tables: Record<string, string> = {
  'three hundred thousand rows': `tilt_deg,left_to_right_db,right_to_left_db\n${'0,27.5,24\n'.repeat(300_000)}`,
  'a row of a hundred thousand cells': `tilt_deg,left_to_right_db\n${'1,'.repeat(100_000)}`,
  'a formula in a name': 'kind,name\ncartridge,"=HYPERLINK(""x"")"\narm,+1\ndeck,@x\n',
  'a quote that is never closed': 'kind,name\ncartridge,"one\ntwo\n',
  'a printer’s NaN': 'tilt_deg,left_to_right_db,right_to_left_db\n0,NaN,24\n1,nan,27\n2,1e999,25\n',
  'a grouped thousand': 'kind,name,mass_g\ncartridge,one,"1.234,5"\n',
  'columns of the language': '__proto__,constructor,toString\n1,2,3\n',
  'a byte order mark and returns alone': '\ufefftilt_deg;left_to_right_db;right_to_left_db\r-1;25;22\r0;27,5;24\r',
  nothing: '',
};

const bundles: Record<string, () => Uint8Array> = {
  'a path that climbs': () =>
    zipSync({ 'bundle.json': strToU8('{"files":[{"path":"../../x"}]}'), '../../x': strToU8('x') }),
  'a list nested without end': () => zipSync({ 'bundle.json': strToU8(deep(100_000)) }),
  'a list that is null': () => zipSync({ 'bundle.json': strToU8('null') }),
  'twenty million equal bytes': () => zipSync({ 'bundle.json': new Uint8Array(20_000_000).fill(32) }),
  'no zip at all': () => strToU8('PK\u0003\u0004 and then nothing'),
};

const latin = (value: string): Uint8Array => Uint8Array.from(value, (c) => c.charCodeAt(0) & 0xff);
const named = (target: string, cases: Record<string, string | (() => Uint8Array)>): KnownFault[] =>
  Object.entries(cases).map(([name, made]) => ({
    target,
    name,
    bytes: () => (typeof made !== 'string' ? made() : name.includes('UTF-8') ? latin(made) : strToU8(made)),
  }));

export const knownFaults: readonly KnownFault[] = [
  ...named('capture', captures),
  ...['record file', 'deck file', 'job file', 'parts'].flatMap((target) => named(target, documents)),
  ...named('record file', sheets),
  ...named('CSV', tables),
  ...named('bundle', bundles),
];
