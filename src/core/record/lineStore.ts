/** Spectral lines of each hop, packed: six 32-bit floats a line, one index a hop. */
import { BLOCK_HOPS, HopBlocks } from './hopBlocks.ts';
import { HopValues, type ShelfPlace, type Shelves } from './shelf.ts';

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

interface LineBlock<Values> {
  /** packed lines */
  readonly values: Values;
  /** lines of the block up to the end of each of its hops */
  readonly ends: Uint32Array;
}

/** Plain data, to be joined with its neighbours. */
export interface LinesPart {
  readonly blocks: readonly LineBlock<Float32Array | ShelfPlace>[];
}

/** A line where it is stored: a tone of twenty seconds has five hundred, a third of the size of as many numbers of their own. */
class StoredLine implements Line {
  readonly hop: number;
  private readonly block: { readonly values: Float32Array };
  private readonly at: number;

  constructor(hop: number, block: { readonly values: Float32Array }, at: number) {
    this.hop = hop;
    this.block = block;
    this.at = at;
  }

  get frequencyHz(): number {
    return this.block.values[this.at];
  }
  get left(): number {
    return this.block.values[this.at + 1];
  }
  get right(): number {
    return this.block.values[this.at + 2];
  }
  get cross(): number {
    return this.block.values[this.at + 3];
  }
  get spreadHz(): number {
    return this.block.values[this.at + 4];
  }
  get rise(): number {
    return this.block.values[this.at + 5];
  }
}

export class LineStore {
  private readonly closed = new HopBlocks<LineBlock<HopValues>>();
  private readonly shelves: Shelves;
  private values = new Float32Array(FIELDS * 4096);
  private readonly ends = new Uint32Array(BLOCK_HOPS);
  private lines = 0;
  private openHops = 0;

  constructor(shelves: Shelves) {
    this.shelves = shelves;
  }

  get hops(): number {
    return this.closed.hops + this.openHops;
  }

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
    this.ends[this.openHops] = this.lines;
    this.openHops += 1;
    if (this.openHops === BLOCK_HOPS) this.close();
  }

  private close(): void {
    const { lines, openHops, closed } = this;
    const values = new HopValues(this.shelves, this.values.slice(0, FIELDS * lines));
    if (openHops === BLOCK_HOPS) values.layAway(closed.all().length);
    closed.add({ values, ends: this.ends.slice(0, openHops) }, openHops);
    this.lines = 0;
    this.openHops = 0;
  }

  /** Call once, when nothing more is to be added. */
  part(): LinesPart {
    this.close();
    return { blocks: this.closed.all().map(({ values, ends }) => ({ values: values.plain(), ends })) };
  }

  /** Takes over the hops that follow. */
  append({ blocks }: LinesPart): void {
    this.close();
    for (const { values, ends } of blocks) {
      this.closed.add({ values: new HopValues(this.shelves, values), ends }, ends.length);
    }
  }

  /** Good until the next hop is added. */
  at(hop: number): Line[] {
    const { closed } = this;
    if (hop >= closed.hops) return linesOf(hop, { values: this.values }, this.ends, hop - closed.hops);
    const { block, at } = closed.find(hop);
    return linesOf(hop, block.values, block.ends, at);
  }
}

function linesOf(hop: number, block: { readonly values: Float32Array }, ends: Uint32Array, at: number): Line[] {
  const lines: Line[] = [];
  for (let i = at === 0 ? 0 : ends[at - 1]; i < ends[at]; i++) lines.push(new StoredLine(hop, block, FIELDS * i));
  return lines;
}

/** The same values with twice the room. */
function grown(values: Float32Array): Float32Array<ArrayBuffer> {
  const longer = new Float32Array(2 * values.length);
  longer.set(values);
  return longer;
}
