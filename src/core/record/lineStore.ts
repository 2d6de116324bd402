/** Spectral lines of each hop, packed: six 32-bit floats a line, one index a hop. */
const FIELDS = 6;

export interface Line {
  readonly hop: number;
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

/** Plain data, to be joined with its neighbours. */
export interface LinesPart {
  /** packed lines */
  readonly values: Float32Array;
  /** lines up to the end of each hop */
  readonly ends: Uint32Array;
}

export class LineStore {
  private values = new Float32Array(FIELDS * 4096);
  private ends = new Uint32Array(1024);
  private lines = 0;
  hops = 0;

  add(frequencyHz: number, left: number, right: number, cross: number, spreadHz: number, rise: number): void {
    if (FIELDS * (this.lines + 1) > this.values.length) this.values = grown(this.values);
    const { values } = this;
    const at = FIELDS * this.lines;
    values[at] = frequencyHz;
    values[at + 1] = left;
    values[at + 2] = right;
    values[at + 3] = cross;
    values[at + 4] = spreadHz;
    values[at + 5] = rise;
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

  part(): LinesPart {
    return { values: this.values.slice(0, FIELDS * this.lines), ends: this.ends.slice(0, this.hops) };
  }

  /** Adds the hops that follow. */
  append({ values, ends }: LinesPart): void {
    while (FIELDS * this.lines + values.length > this.values.length) this.values = grown(this.values);
    this.values.set(values, FIELDS * this.lines);
    const before = this.lines;
    for (const end of ends) {
      this.lines = before + end;
      this.endHop();
    }
  }

  at(hop: number): Line[] {
    const lines: Line[] = [];
    for (let i = hop === 0 ? 0 : this.ends[hop - 1]; i < this.ends[hop]; i++) {
      const at = FIELDS * i;
      const v = this.values;
      lines.push({
        hop,
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
