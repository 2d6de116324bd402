import { describe, expect, it } from 'vitest';
import type { CaptureFormat, Recording } from '../capture/recording.ts';
import { joinParts, listen, listenToPart, PART_FRAMES } from '../side/listen.ts';
import { LineStore } from './lineStore.ts';
import { type Shelf, type ShelfPlace, Shelves } from './shelf.ts';

/** A place in memory that counts; several may take from one another, as threads do from one file system. */
class CountedShelf implements Shelf {
  static readonly all: CountedShelf[] = [];
  readonly stay: number | undefined;
  readonly kept: Uint8Array[] = [];
  taken = 0;
  private readonly number = CountedShelf.all.push(this) - 1;
  private readonly most: number;

  constructor(stay?: number, most = Number.POSITIVE_INFINITY) {
    this.stay = stay;
    this.most = most;
  }

  put(bytes: Uint8Array): ShelfPlace | null {
    if (this.kept.length === this.most) return null;
    return { shelf: this.number, at: this.kept.push(bytes.slice()) - 1, bytes: bytes.length };
  }

  take({ shelf, at }: ShelfPlace): Uint8Array<ArrayBuffer> {
    this.taken += 1;
    return Uint8Array.from(CountedShelf.all[shelf].kept[at]);
  }
}

/** hops of 43 ms */
const HOPS_25_MIN = 35_000;
const HOPS_180_MIN = 253_000;

function lines(hops: number, shelf: Shelf | null): LineStore {
  const store = new LineStore(new Shelves(shelf));
  for (let hop = 0; hop < hops; hop++) {
    for (let i = 0; i < 1 + (hop % 3); i++) store.add(1000 * i + (hop % 777), hop, 2 * hop, -hop, i, 7);
    store.endHop();
  }
  return store;
}

const bytesInMemory = (store: LineStore): number =>
  store.part().blocks.reduce((sum, { values }) => sum + (ArrayBuffer.isView(values) ? values.byteLength : 0), 0);

/** 8 kHz: tones of 9 s, left, right and both in turn, with a pause after each, a sweep now and then. */
function longCapture(frames: number): Recording {
  const rate = 8000;
  const format: CaptureFormat = {
    file: 'long.wav',
    sampleRateHz: rate,
    channels: 2,
    bitDepth: 24,
    encoding: 'integer',
    container: 'wav',
    frames,
    durationS: frames / rate,
  };
  return {
    format,
    problems: [],
    async *blocks({ fromFrame, toFrame } = { fromFrame: 0, toFrame: frames }) {
      for (let at = fromFrame; at < toFrame; at += PART_FRAMES) {
        const count = Math.min(PART_FRAMES, toFrame - at);
        const left = new Float64Array(count);
        const right = new Float64Array(count);
        for (let i = 0; i < count; i++) {
          const n = at + i;
          const band = Math.floor(n / (11 * rate));
          const t = n / rate - 11 * band;
          const hz = band % 7 === 3 ? 300 * 10 ** (t / 18) : 1000;
          const hiss = 1e-3 * (((n * 7919) % 10_007) / 5003 - 1);
          const tone = t < 9 ? 0.3 * Math.sin(2 * Math.PI * hz * t) : 0;
          left[i] = (band % 3 === 1 ? 0.03 : 1) * tone + hiss;
          right[i] = (band % 3 === 0 ? 0.03 : 1) * tone - hiss;
        }
        yield { startFrame: at, frames: count, left, right };
      }
    },
  };
}

describe('what is kept of a long capture', () => {
  it('holds of three hours what it holds of 25 minutes, and gives every line all the same', () => {
    const shelf = new CountedShelf();
    const short = lines(HOPS_25_MIN, new CountedShelf());
    const long = lines(HOPS_180_MIN, shelf);
    expect(bytesInMemory(long)).toBeLessThanOrEqual(bytesInMemory(short));
    const all = lines(HOPS_180_MIN, null);
    expect(bytesInMemory(all)).toBeGreaterThan(6 * bytesInMemory(short));
    for (let hop = 0; hop < HOPS_180_MIN; hop += 997) {
      const told = (store: LineStore) =>
        store.at(hop).map((l) => [l.hop, l.frequencyHz, l.left, l.right, l.cross, l.spreadHz, l.rise]);
      expect(told(long)).toEqual(told(all));
    }
    // what came back is let go: in order each block comes once, and again the next time
    const once = shelf.taken;
    for (let hop = 0; hop < HOPS_180_MIN; hop += 997) long.at(hop)[0].frequencyHz;
    expect(once).toBe(shelf.kept.length);
    expect(shelf.taken).toBe(2 * once);
  });

  it('stays in memory where the shelf is full, and nothing is lost', () => {
    const full = lines(HOPS_25_MIN, new CountedShelf(0, 3));
    const all = lines(HOPS_25_MIN, null);
    for (let hop = 0; hop < HOPS_25_MIN; hop += 499) {
      expect(full.at(hop).map((l) => l.left)).toEqual(all.at(hop).map((l) => l.left));
    }
  });

  it('gives the same bands with all of it laid away, in one go and in parts that take from each other', async () => {
    const recording = longCapture(72 * PART_FRAMES);
    const plain = await listen(recording);
    expect(plain.bands.length).toBeGreaterThan(40);
    expect(plain.bands.some(({ signal }) => signal === 'sweep')).toBe(true);
    const shelf = new CountedShelf(0);
    expect(await listen(recording, shelf)).toEqual(plain);
    expect(shelf.kept.length).toBeGreaterThanOrEqual(4);
    expect(shelf.taken).toBeGreaterThanOrEqual(shelf.kept.length);
    const seams = [0, 40 * PART_FRAMES, recording.format.frames];
    const parts = await Promise.all(
      [0, 1].map((i) => listenToPart(recording, { fromFrame: seams[i], toFrame: seams[i + 1] }, new CountedShelf(0))),
    );
    expect(joinParts(recording.format, parts, new CountedShelf(0))).toEqual(plain);
  });
});
