/**
 * Narrow lines in a power spectrum: what stands above its neighbourhood, whatever the colour of the noise.
 *
 * 1. Powers are averaged over sub-bands a few per cent wide.
 * 2. The local floor is their opening: the larger of the least mean over a stretch below and over a stretch above. A
 *    line, narrow on the scale of a stretch, does not raise it; a slope does not fool it.
 * 3. A line is a local maximum more than `RISE` above that floor; its power is summed out to where it sinks into the
 *    floor to 1/500 of its top, or to the valley before its neighbour, so that wow, flutter and a sweep's smear are gathered in.
 */
export interface BandSpectrum {
  /** |left|² + |right|², |left|² and Re left·right* by bin */
  readonly power: Float64Array;
  readonly left: Float64Array;
  readonly cross: Float64Array;
}

export interface FoundLine {
  /** bins, fractional */
  centre: number;
  left: number;
  right: number;
  cross: number;
  /** bins, rms */
  spread: number;
  /** power of its top over the local floor */
  rise: number;
  /** the bin of its top */
  top: number;
}

/** floor to line, power; the floor lies at 0.4 to 0.75 of the mean noise */
const RISE = 16;
/** a rise out of a valley by this much, power, is another line */
const VALLEY = 4;
/** sub-bands on either side that the floor is looked for in, the one itself not counted */
const STRETCH = 5;

export class LineFinder {
  readonly fromBin: number;
  readonly toBin: number;
  /** local floor by sub-band, after `measureFloor` */
  readonly floor: Float64Array;
  /** first bin of each sub-band, one more at the end */
  readonly edges: Int32Array;
  private readonly means: Float64Array;
  private readonly least2: Float64Array;
  private readonly least6: Float64Array;
  private readonly used: Uint8Array;
  private readonly tops: Int32Array;
  readonly found: FoundLine[];
  private readonly most: number;

  /** @param relativeWidth of a sub-band; at least 3 bins @param most lines kept per spectrum, strongest first */
  constructor(fromBin: number, toBin: number, relativeWidth: number, most: number) {
    this.fromBin = fromBin;
    this.toBin = toBin;
    this.most = most;
    const edges = [fromBin];
    for (let k = fromBin; k < toBin; ) {
      k = Math.min(toBin, k + Math.max(3, Math.round(relativeWidth * k)));
      edges.push(toBin - k < 3 ? toBin : k);
      if (toBin - k < 3) break;
    }
    this.edges = Int32Array.from(edges);
    const bands = edges.length - 1;
    this.floor = new Float64Array(bands);
    this.means = new Float64Array(bands);
    this.least2 = new Float64Array(bands);
    this.least6 = new Float64Array(bands);
    this.used = new Uint8Array(toBin + 1);
    this.tops = new Int32Array(toBin - fromBin);
    this.found = Array.from({ length: most }, () => ({
      centre: 0,
      left: 0,
      right: 0,
      cross: 0,
      spread: 0,
      rise: 0,
      top: 0,
    }));
  }

  measureFloor(power: Float64Array): void {
    const { edges, means, floor } = this;
    const bands = means.length;
    for (let j = 0; j < bands; j++) {
      let sum = 0;
      for (let k = edges[j]; k < edges[j + 1]; k++) sum += power[k];
      means[j] = sum / (edges[j + 1] - edges[j]);
    }
    // Least of six neighbours from j on, by doubling: 1, 2, 4, then 4 and 2.
    const { least2, least6 } = this;
    for (let j = 0; j < bands; j++) least2[j] = Math.min(means[j], means[Math.min(bands - 1, j + 1)]);
    for (let j = 0; j < bands; j++) {
      const k = Math.min(bands - 1, j + 2);
      const m = Math.min(bands - 1, j + 4);
      least6[j] = Math.min(least2[j], least2[k], least2[m]);
    }
    // At the ends one side has no room to pass a line by.
    for (let j = 0; j < STRETCH; j++) floor[j] = least6[j];
    for (let j = STRETCH; j < bands - STRETCH; j++) floor[j] = Math.max(least6[j - STRETCH], least6[j]);
    for (let j = Math.max(STRETCH, bands - STRETCH); j < bands; j++) floor[j] = least6[j - STRETCH];
  }

  /** After `measureFloor`. @returns how many of `found` are valid, strongest first */
  find(spectrum: BandSpectrum): number {
    const { power } = spectrum;
    const { edges, floor, tops, used, toBin } = this;
    let count = 0;
    for (let j = 0; j < floor.length; j++) {
      const least = RISE * floor[j] + 1e-30;
      for (let k = edges[j]; k < edges[j + 1]; k++) {
        const p = power[k];
        if (p > least && p >= power[k - 1] && p > power[k + 1]) tops[count++] = k;
      }
    }
    if (count === 0) return 0;
    const strongest = tops.subarray(0, count).sort((a, b) => power[b] - power[a]);
    used.fill(0);
    let lines = 0;
    for (let i = 0; i < strongest.length && lines < this.most; i++) {
      const top = strongest[i];
      if (used[top] === 1 || top >= toBin) continue;
      this.gather(spectrum, top, this.found[lines]);
      lines += 1;
    }
    return lines;
  }

  /** How far a line reaches to one side: down to `least`, or to the valley before a neighbour. */
  private foot(power: Float64Array, top: number, side: 1 | -1, least: number, reach: number): number {
    const { used, fromBin, toBin } = this;
    let at = top;
    let lowest = top;
    for (let i = 1; i <= reach; i++) {
      const k = top + side * i;
      if (k < fromBin || k >= toBin || used[k] === 1 || power[k] < least) break;
      if (power[k] > VALLEY * power[lowest]) return lowest;
      if (power[k] < power[lowest]) lowest = k;
      at = k;
    }
    return at;
  }

  private gather({ power, left, cross }: BandSpectrum, top: number, line: FoundLine): void {
    const { used, edges, floor } = this;
    let j = 0;
    while (edges[j + 1] <= top) j += 1;
    const least = Math.max(3 * floor[j], power[top] / 500);
    const reach = 4 + Math.round(0.1 * top);
    let low = this.foot(power, top, -1, least, reach);
    let high = this.foot(power, top, 1, least, reach);
    // A Hann line is three bins wide at least.
    if (low === top && used[top - 1] === 0) low -= 1;
    if (high === top && used[top + 1] === 0) high += 1;
    let whole = 0;
    for (let k = low; k <= high; k++) {
      whole += power[k];
      used[k] = 1;
    }
    // A tone has half of its power in its top bin; its shoulders may be rumble's. A sweep's smear is flat.
    if (power[top] > 0.35 * whole) {
      low = Math.max(low, top - 2);
      high = Math.min(high, top + 2);
    }
    let sum = 0;
    let first = 0;
    let second = 0;
    let l = 0;
    let c = 0;
    for (let k = low; k <= high; k++) {
      const p = power[k];
      const x = k - top;
      sum += p;
      first += p * x;
      second += p * x * x;
      l += left[k];
      c += cross[k];
    }
    const mean = first / sum;
    line.top = top;
    line.rise = power[top] / (floor[j] + 1e-30);
    line.centre = top + mean;
    line.left = l;
    line.right = Math.max(0, sum - l);
    line.cross = c;
    line.spread = Math.sqrt(Math.max(0, second / sum - mean * mean));
  }
}
