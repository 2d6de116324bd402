/**
 * How strong each low bin has been over the whole capture, as a histogram in steps of about 1 dB: a mains line is there
 * all the time, a band only for a while, so a low percentile shows the hum without the bands. Memory does not grow.
 */
const LEVELS = 160;
/** bits of a 32-bit float kept below the exponent: 4 levels per octave of power */
const SHIFT = 21;
/** level 0 stands for 2^−40 of full scale squared */
const LEAST = (127 - 40) << 2;

export interface FloorPart {
  readonly counts: Uint32Array;
  readonly hops: number;
}

export class FloorHistory {
  private readonly counts: Uint32Array;
  private readonly bits = new Float32Array(1);
  private readonly word = new Int32Array(this.bits.buffer);
  readonly bins: number;
  hops = 0;

  constructor(bins: number) {
    this.bins = bins;
    this.counts = new Uint32Array(bins * LEVELS);
  }

  /** @param power by bin from 0; `scale` turns it into mean square */
  add(power: Float64Array, scale: number): void {
    const { bits, word, counts, bins } = this;
    for (let k = 0; k < bins; k++) {
      bits[0] = power[k] * scale;
      const level = (word[0] >> SHIFT) - LEAST;
      counts[k * LEVELS + (level < 0 ? 0 : level >= LEVELS ? LEVELS - 1 : level)] += 1;
    }
    this.hops += 1;
  }

  part(): FloorPart {
    return { counts: this.counts, hops: this.hops };
  }

  /** Adds what another history of the same bins saw. */
  append({ counts, hops }: FloorPart): void {
    for (let i = 0; i < counts.length; i++) this.counts[i] += counts[i];
    this.hops += hops;
  }

  /** Mean square that `fraction` of the hops stayed under, by bin. */
  percentile(fraction: number): Float64Array {
    const { bits, word, counts, bins } = this;
    const out = new Float64Array(bins);
    if (this.hops === 0) return out;
    for (let k = 0; k < bins; k++) {
      let left = fraction * this.hops;
      let level = 0;
      for (; level < LEVELS - 1; level++) {
        left -= counts[k * LEVELS + level];
        if (left < 0) break;
      }
      word[0] = (level + LEAST) << SHIFT;
      out[k] = level === 0 ? 0 : bits[0] * 1.1;
    }
    return out;
  }
}
