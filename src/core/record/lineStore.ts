/** Spectral lines of each hop, packed: six 32-bit floats a line, one index a hop. */
const FIELDS = 6;

export interface Line {
  /** Hz */
  readonly frequencyHz: number;
  /** mean square in each channel, full scale ±1 */
  readonly left: number;
  readonly right: number;
  /** mean of left · right: negative when the channels oppose each other */
  readonly cross: number;
  /** rms width, Hz */
  readonly spreadHz: number;
  /** power of its top over the local floor */
  readonly rise: number;
}

export class LineStore {
  private values = new Float32Array(FIELDS * 4096);
  private ends = new Uint32Array(1024);
  private lines = 0;
  hops = 0;

  add(frequencyHz: number, left: number, right: number, cross: number, spreadHz: number, rise: number): void {
    if (FIELDS * (this.lines + 1) > this.values.length) this.values = grown(this.values);
    this.values.set([frequencyHz, left, right, cross, spreadHz, rise], FIELDS * this.lines);
    this.lines += 1;
  }

  endHop(): void {
    if (this.hops === this.ends.length) {
      const longer = new Uint32Array(2 * this.ends.length);
      longer.set(this.ends);
      this.ends = longer;
    }
    this.ends[this.hops] = this.lines;
    this.hops += 1;
  }

  at(hop: number): Line[] {
    const lines: Line[] = [];
    for (let i = hop === 0 ? 0 : this.ends[hop - 1]; i < this.ends[hop]; i++) {
      const at = FIELDS * i;
      const v = this.values;
      lines.push({
        frequencyHz: v[at],
        left: v[at + 1],
        right: v[at + 2],
        cross: v[at + 3],
        spreadHz: v[at + 4],
        rise: v[at + 5],
      });
    }
    return lines;
  }
}

/** The same values with twice the room. */
export function grown(values: Float32Array): Float32Array<ArrayBuffer> {
  const longer = new Float32Array(2 * values.length);
  longer.set(values);
  return longer;
}
