/** Ten octaves of every hop: the powers of left, right, their cross product and the floor between lines. 160 bytes a hop. */
import { BLOCK_HOPS, HopBlocks } from './hopBlocks.ts';
import type { LineFinder } from './lineFinder.ts';
import { OCTAVES, type OctaveRange } from './octaveRanges.ts';
import { HopValues, type ShelfPlace, type Shelves } from './shelf.ts';
import type { StereoSpectrum } from './stereoSpectrum.ts';

/** left, right, cross, floor */
const FIELDS = 4;
const PER_HOP = FIELDS * OCTAVES;

/** Plain data, to be joined with its neighbours. */
export interface OctavesPart {
  readonly values: Float32Array | ShelfPlace;
  readonly hops: number;
}

export class OctaveStore {
  private readonly blocks = new HopBlocks<HopValues>();
  private readonly shelves: Shelves;

  constructor(shelves: Shelves) {
    this.shelves = shelves;
  }

  /** mean squares of octave `o` (0 at 31.5 Hz) in a hop: left, right, cross, floor */
  at(hop: number, o: number): { left: number; right: number; cross: number; floor: number } {
    const { block, at: hopInBlock } = this.blocks.find(hop);
    const v = block.values;
    const at = FIELDS * (OCTAVES * hopInBlock + o);
    return { left: v[at], right: v[at + 1], cross: v[at + 2], floor: v[at + 3] };
  }

  /** @param finder has measured the floor of `s` */
  add(hop: number, s: StereoSpectrum, finder: LineFinder, ranges: readonly OctaveRange[]): void {
    const { blocks } = this;
    while (hop >= blocks.hops) this.open();
    const { block, at: hopInBlock } = blocks.find(hop);
    const v = block.values;
    const { power, left, cross } = s;
    for (const { octave, fromBin, toBin, fromBand, toBand } of ranges) {
      let p = 0;
      let l = 0;
      let c = 0;
      for (let k = fromBin; k < toBin; k++) {
        p += power[k];
        l += left[k];
        c += cross[k];
      }
      let floor = 0;
      for (let j = fromBand; j < toBand; j++) floor += finder.floor[j] * (finder.edges[j + 1] - finder.edges[j]);
      const at = FIELDS * (OCTAVES * hopInBlock + octave);
      v[at] = l * s.scale;
      v[at + 1] = Math.max(0, p - l) * s.scale;
      v[at + 2] = c * s.scale;
      v[at + 3] = floor * s.scale;
    }
  }

  /** The low octaves come some hops after the others, so the block before the open one may still be written to. */
  private open(): void {
    const { blocks } = this;
    blocks.add(new HopValues(this.shelves, new Float32Array(PER_HOP * BLOCK_HOPS)), BLOCK_HOPS);
    const index = blocks.all().length - 3;
    if (index >= 0) blocks.all()[index].layAway(index);
  }

  /** @param hops that are complete */
  part(hops: number): OctavesPart[] {
    const parts: OctavesPart[] = [];
    let left = hops;
    for (const block of this.blocks.all()) {
      if (left <= 0) break;
      const whole = Math.min(left, BLOCK_HOPS);
      parts.push({
        values: whole < BLOCK_HOPS ? block.values.slice(0, PER_HOP * whole) : block.plain(),
        hops: whole,
      });
      left -= whole;
    }
    return parts;
  }

  append(part: readonly OctavesPart[]): void {
    for (const { values, hops } of part) this.blocks.add(new HopValues(this.shelves, values), hops);
  }
}
