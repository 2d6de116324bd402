/** Ten octaves of every hop: the powers of left, right, their cross product and the floor between lines. 160 bytes a hop. */
import { BLOCK_HOPS, HopBlocks } from './hopBlocks.ts';
import type { LineFinder } from './lineFinder.ts';
import { OCTAVES, type OctaveRange } from './octaveRanges.ts';
import type { StereoSpectrum } from './stereoSpectrum.ts';

/** left, right, cross, floor */
const FIELDS = 4;

export class OctaveStore {
  private readonly blocks = new HopBlocks<Float32Array>();

  /** mean squares of octave `o` (0 at 31.5 Hz) in a hop: left, right, cross, floor */
  at(hop: number, o: number): { left: number; right: number; cross: number; floor: number } {
    const { block: v, at: hopInBlock } = this.blocks.find(hop);
    const at = FIELDS * (OCTAVES * hopInBlock + o);
    return { left: v[at], right: v[at + 1], cross: v[at + 2], floor: v[at + 3] };
  }

  /** @param finder has measured the floor of `s` */
  add(hop: number, s: StereoSpectrum, finder: LineFinder, ranges: readonly OctaveRange[]): void {
    const { blocks } = this;
    while (hop >= blocks.hops) blocks.add(new Float32Array(FIELDS * OCTAVES * BLOCK_HOPS), BLOCK_HOPS);
    const { block: v, at: hopInBlock } = blocks.find(hop);
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

  /** @param hops that are complete */
  part(hops: number): Float32Array[] {
    let left = FIELDS * OCTAVES * hops;
    const whole: Float32Array[] = [];
    for (const block of this.blocks.all()) {
      if (left <= 0) break;
      whole.push(left < block.length ? block.slice(0, left) : block);
      left -= block.length;
    }
    return whole;
  }

  append(part: readonly Float32Array[]): void {
    for (const block of part) this.blocks.add(block, block.length / (FIELDS * OCTAVES));
  }
}
