/** The level of both channels over the whole capture, bounded in size: neighbours are merged when it is full. */
export interface Overview {
  /** s, the middle of each point */
  readonly timesS: readonly number[];
  /** dBFS rms of each channel, −120 at least; digital full scale ±1 is 0 dB */
  readonly leftDb: readonly number[];
  readonly rightDb: readonly number[];
}

const MOST_POINTS = 4096;

export class LevelTrace {
  private readonly left = new Float64Array(MOST_POINTS);
  private readonly right = new Float64Array(MOST_POINTS);
  private points = 0;
  /** additions per point */
  private merged = 1;
  private openLeft = 0;
  private openRight = 0;
  private open = 0;

  /** Mean squares of the next stretch; all stretches are equally long. */
  add(left: number, right: number): void {
    this.openLeft += left;
    this.openRight += right;
    this.open += 1;
    if (this.open < this.merged) return;
    this.left[this.points] = this.openLeft / this.merged;
    this.right[this.points] = this.openRight / this.merged;
    this.points += 1;
    this.openLeft = 0;
    this.openRight = 0;
    this.open = 0;
    if (this.points === MOST_POINTS) this.halve();
  }

  private halve(): void {
    for (let i = 0; i < MOST_POINTS / 2; i++) {
      this.left[i] = (this.left[2 * i] + this.left[2 * i + 1]) / 2;
      this.right[i] = (this.right[2 * i] + this.right[2 * i + 1]) / 2;
    }
    this.points = MOST_POINTS / 2;
    this.merged *= 2;
  }

  /** @param stretchS s that one addition stood for @param durationS s; later points are left out */
  overview(stretchS: number, durationS: number): Overview {
    const level = (meanSquare: number): number => Math.max(-120, 10 * Math.log10(meanSquare + 1e-13));
    const pointS = stretchS * this.merged;
    const n = Math.min(this.points, Math.ceil(durationS / pointS));
    return {
      timesS: Array.from({ length: n }, (_, i) => Math.min(durationS, (i + 0.5) * pointS)),
      leftDb: Array.from(this.left.subarray(0, n), level),
      rightDb: Array.from(this.right.subarray(0, n), level),
    };
  }
}
