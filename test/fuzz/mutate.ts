/** Damage for fuzzing, seeded: the same number gives the same damage. */

export type Random = () => number;

/** Mulberry32, a generator in the public domain. @returns uniform in [0, 1) */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export const below = (random: Random, n: number): number => Math.floor(random() * n);
export const oneOf = <T>(random: Random, all: readonly T[]): T => all[below(random, all.length)]!;

const EDGES = [0, 1, 0x7f, 0x80, 0xff];

/** One to eight wounds: bits turned, bytes set, runs taken out, put in, doubled or zeroed, the end cut off. */
export function woundedBytes(original: Uint8Array, random: Random): Uint8Array<ArrayBuffer> {
  let bytes = Uint8Array.from(original);
  // headers are where one byte matters most
  const place = (): number => below(random, random() < 0.5 ? Math.min(64, bytes.length) : bytes.length);
  for (let n = 1 + below(random, 8); n > 0 && bytes.length > 0; n--) {
    const at = place();
    const length = 1 + below(random, Math.min(4000, bytes.length - at));
    const kind = below(random, 7);
    if (kind === 0) bytes[at] = bytes[at]! ^ (1 << below(random, 8));
    else if (kind === 1) bytes[at] = oneOf(random, EDGES);
    else if (kind === 2) bytes = spliced(bytes, at, length, new Uint8Array(0));
    else if (kind === 3)
      bytes = spliced(
        bytes,
        at,
        0,
        Uint8Array.from({ length: Math.min(length, 64) }, () => below(random, 256)),
      );
    else if (kind === 4) bytes = spliced(bytes, at, 0, bytes.subarray(at, at + length));
    else if (kind === 5) bytes.fill(0, at, at + length);
    else bytes = bytes.subarray(0, at);
  }
  return bytes;
}

function spliced(bytes: Uint8Array, at: number, remove: number, put: Uint8Array): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(bytes.length - remove + put.length);
  out.set(bytes.subarray(0, at));
  out.set(put, at);
  out.set(bytes.subarray(at + remove), at + put.length);
  return out;
}

const nested = (depth: number): unknown => {
  let value: unknown = 1;
  for (let i = 0; i < depth; i++) value = [value];
  return value;
};

const ODD_VALUES: readonly unknown[] = [
  null,
  true,
  '',
  ' ',
  '0',
  'NaN',
  '1e999',
  0,
  -0,
  -1,
  0.5,
  1e-320,
  1e308,
  9007199254740991,
  4294967296,
  [],
  {},
  [[]],
  { __proto__: null },
  '__proto__',
  'constructor',
  '\u0000',
  '\ud800',
  '<script>',
  '=1+1',
  'x'.repeat(5000),
  nested(60),
];

/** A JSON value with one to four of its places changed: another value, taken away, doubled, put under an odd key. */
export function woundedJson(original: unknown, random: Random): unknown {
  let value = structuredClone(original);
  for (let n = 1 + below(random, 4); n > 0; n--) value = wounded(value, random, 0);
  return value;
}

function wounded(value: unknown, random: Random, depth: number): unknown {
  if (typeof value !== 'object' || value === null || (depth > 0 && random() < 0.1)) return oneOf(random, ODD_VALUES);
  if (Array.isArray(value)) {
    if (value.length === 0 || random() < 0.1) return [...value, oneOf(random, ODD_VALUES)];
    const at = below(random, value.length);
    const kind = random();
    if (kind < 0.1) return value.filter((_, i) => i !== at);
    if (kind < 0.2) return [...value, value[at]];
    return value.map((each, i) => (i === at ? wounded(each, random, depth + 1) : each));
  }
  const entries = Object.entries(value);
  const at = below(random, entries.length);
  const kind = random();
  if (entries.length === 0 || kind < 0.05) {
    return Object.fromEntries([
      ...entries,
      [oneOf(random, ['x', '__proto__', 'constructor', '']), oneOf(random, ODD_VALUES)],
    ]);
  }
  if (kind < 0.15) return Object.fromEntries(entries.filter((_, i) => i !== at));
  return Object.fromEntries(entries.map(([key, each], i) => [key, i === at ? wounded(each, random, depth + 1) : each]));
}
