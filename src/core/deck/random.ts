/**
 * The deck's own random numbers: the same seed gives the same recording on every machine.
 *
 * One generator per source of noise (its `stream`), so that changing one fault leaves the noise of the others as it was.
 * Generator: xoshiro128++ (Blackman and Vigna 2019), seeded by splitmix32.
 */

export interface Random {
  /** next value, 0 ≤ u < 1, 32 bits of resolution */
  uniform(): number;
  /** fills `out[0..count)` with noise of mean 0 and variance 1 (sum of four 16-bit uniforms, never beyond ±3.47) */
  fillNoise(out: Float64Array, count: number): void;
  /** fills `out[0..count)` with triangular noise of ±1 peak: the sum of two uniforms of ±½ */
  fillTriangular(out: Float64Array, count: number): void;
}

/** √3/2¹⁶: four uniforms of 0…65535 have a variance of 4·(2³² − 1)/12, scaled to one. */
const NOISE_SCALE = Math.sqrt(3 / (2 ** 32 - 1));
const NOISE_MEAN = 2 * 65535;

/**
 * @param seed integer, 0 to 2³² − 1
 * @param stream integer ≥ 0, which source of noise
 * @throws RangeError naming the argument
 */
export function random(seed: number, stream: number): Random {
  if (!(Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff)) {
    throw new RangeError(`seed: ${seed} given, expected an integer from 0 to 4294967295`);
  }
  if (!(Number.isInteger(stream) && stream >= 0 && stream <= 0xffff)) {
    throw new RangeError(`stream: ${stream} given, expected an integer from 0 to 65535`);
  }
  const state = new Int32Array(4);
  let mix = (Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1) + Math.imul(stream + 1, 0x85ebca6b)) | 0;
  for (let i = 0; i < 4; i++) {
    mix = (mix + 0x9e3779b9) | 0;
    let z = mix ^ (mix >>> 16);
    z = Math.imul(z, 0x21f0aaad);
    z ^= z >>> 15;
    z = Math.imul(z, 0x735a2d97);
    state[i] = z ^ (z >>> 15);
  }

  /** Steps the generator `out.length` times with its state in local variables. */
  const words = new Int32Array(2048);
  function fill(count: number): void {
    let a = state[0];
    let b = state[1];
    let c = state[2];
    let d = state[3];
    for (let i = 0; i < count; i++) {
      const sum = (a + d) | 0;
      words[i] = (((sum << 7) | (sum >>> 25)) + a) | 0;
      const t = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= t;
      d = (d << 11) | (d >>> 21);
    }
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
  }

  return {
    uniform() {
      fill(1);
      return (words[0] >>> 0) / 4294967296;
    },
    fillNoise(out, count) {
      for (let from = 0; from < count; from += 1024) {
        const n = Math.min(1024, count - from);
        fill(2 * n);
        for (let i = 0; i < n; i++) {
          const p = words[2 * i];
          const q = words[2 * i + 1];
          out[from + i] = ((p & 0xffff) + (p >>> 16) + (q & 0xffff) + (q >>> 16) - NOISE_MEAN) * NOISE_SCALE;
        }
      }
    },
    fillTriangular(out, count) {
      for (let from = 0; from < count; from += 1024) {
        const n = Math.min(1024, count - from);
        fill(2 * n);
        for (let i = 0; i < n; i++) out[from + i] = (words[2 * i] + words[2 * i + 1]) / 4294967296;
      }
    },
  };
}
