/**
 * Something kept of every hop, in blocks of hops, so that neither growing nor joining copies what is there: a long side's
 * store would otherwise need its own size once or twice more while it is moved.
 */

/** hops of a block that is being filled */
export const BLOCK_HOPS = 1024;

export class HopBlocks<B> {
  private readonly blocks: B[] = [];
  private readonly starts: number[] = [];
  private last = 0;
  hops = 0;

  /** @param hops that the block holds */
  add(block: B, hops: number): void {
    if (hops === 0) return;
    this.blocks.push(block);
    this.starts.push(this.hops);
    this.hops += hops;
  }

  all(): readonly B[] {
    return this.blocks;
  }

  /** The block that holds a hop, and which of its hops that is. @param hop 0 to hops − 1 */
  find(hop: number): { readonly block: B; readonly at: number } {
    if (!(hop >= 0 && hop < this.hops)) throw new RangeError(`hop ${hop} must be from 0 to below ${this.hops}`);
    const { starts } = this;
    // hops are asked for in order, nearly always
    let i = this.last;
    while (hop < starts[i]) i -= 1;
    while (i + 1 < starts.length && hop >= starts[i + 1]) i += 1;
    this.last = i;
    return { block: this.blocks[i], at: hop - starts[i] };
  }
}
