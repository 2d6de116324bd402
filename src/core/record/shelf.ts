/**
 * Where a long capture lays what it keeps of its hops: a place of the caller's, such as a file. What fills a block of hops goes out
 * once and comes back when it is looked at, so the memory does not grow with the capture.
 */

/** Where something lies: plain data, good for every thread of the process. */
export interface ShelfPlace {
  readonly shelf: number;
  readonly at: number;
  readonly bytes: number;
}

export interface Shelf {
  /** blocks of each kind that stay in memory all the same; `STAY` unless told otherwise */
  readonly stay?: number;
  /** @returns null where there is no room: what was to go stays in memory */
  put(bytes: Uint8Array): ShelfPlace | null;
  /** @throws where it cannot be had again */
  take(place: ShelfPlace): Uint8Array<ArrayBuffer>;
}

/** blocks of each kind that stay in memory, 12 minutes: with two threads a side of an LP lays nothing away */
const STAY = 16;
/** arrays that came back and are kept a while, two of each of the three kinds */
const RECENT = 6;

/** What one ear keeps, in memory or away; at most `RECENT` of what is away are in memory too. */
export class Shelves {
  private readonly shelf: Shelf | null;
  private recent: { readonly place: ShelfPlace; readonly values: Float32Array }[] = [];

  constructor(shelf: Shelf | null) {
    this.shelf = shelf;
  }

  /** @param index of the block among its kind @returns the array itself where it stays */
  lay(values: Float32Array, index: number): Float32Array | ShelfPlace {
    if (this.shelf === null || index < (this.shelf.stay ?? STAY)) return values;
    return this.shelf.put(new Uint8Array(values.buffer, values.byteOffset, values.byteLength)) ?? values;
  }

  at(place: ShelfPlace): Float32Array {
    const { recent } = this;
    for (const one of recent) if (one.place === place) return one.values;
    if (this.shelf === null) throw new RangeError('what was laid away by one ear was given to another without a shelf');
    const bytes = this.shelf.take(place);
    const values = new Float32Array(bytes.buffer, 0, bytes.length / Float32Array.BYTES_PER_ELEMENT);
    if (recent.length === RECENT) recent.shift();
    recent.push({ place, values });
    return values;
  }
}

/** The numbers of one block of hops, wherever they are. */
export class HopValues {
  private readonly shelves: Shelves;
  private held: Float32Array | ShelfPlace;

  constructor(shelves: Shelves, held: Float32Array | ShelfPlace) {
    this.shelves = shelves;
    this.held = held;
  }

  get values(): Float32Array {
    return ArrayBuffer.isView(this.held) ? this.held : this.shelves.at(this.held);
  }

  /** Call when nothing more is written to them. @param index of the block among its kind */
  layAway(index: number): void {
    if (ArrayBuffer.isView(this.held)) this.held = this.shelves.lay(this.held, index);
  }

  /** For another ear. */
  plain(): Float32Array | ShelfPlace {
    return this.held;
  }
}
