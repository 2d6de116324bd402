import { describe, expect, it } from 'vitest';
import { BLOCK_FRAMES, BlockWriter, type FullBlock, freshBlocks } from './recycledBlocks.ts';
import { RingReader, RingTap, RingWriter, ringFrames, ringMemory } from './sampleRing.ts';

const quantum = (from: number): { left: Float32Array; right: Float32Array } => ({
  left: Float32Array.from({ length: 128 }, (_, i) => (from + i) / 65_536),
  right: Float32Array.from({ length: 128 }, (_, i) => -(from + i) / 65_536),
});

function ends(frames: number) {
  const memory = ringMemory(frames);
  return { writer: new RingWriter(memory), reader: new RingReader(memory) };
}

/** Everything that waits. */
function drain(reader: RingReader): number[] {
  const [left, right] = [new Float64Array(100), new Float64Array(100)];
  const all: number[] = [];
  for (let frames = reader.read(left, right); frames > 0; frames = reader.read(left, right)) {
    for (let i = 0; i < frames; i++) {
      expect(right[i]).toBe(left[i] === 0 ? 0 : -left[i]);
      all.push(left[i] * 65_536);
    }
  }
  return all;
}

describe('the ring', () => {
  it('brings every frame in order, round and round', () => {
    const { writer, reader } = ends(512);
    const heard: number[] = [];
    for (let n = 1; n < 20_000; n += 128) {
      const { left, right } = quantum(n);
      writer.write(left, right, 128);
      heard.push(...drain(reader));
    }
    expect(heard).toEqual(heard.map((_, i) => i + 1));
    expect(heard.length).toBe(157 * 128);
    expect([reader.lost, reader.channels]).toEqual([0, 2]);
  });

  it('puts zeros for exactly the frames that found no room, so that time stays right', () => {
    const { writer, reader } = ends(256);
    for (let n = 1; n <= 5 * 128; n += 128) {
      const { left, right } = quantum(n);
      writer.write(left, right, 128);
    }
    const heard = drain(reader);
    // 256 zeros fill all the room that there is, and the quantum after them is lost in its turn
    for (let n = 5 * 128 + 1; n <= 9 * 128; n += 128) {
      const { left, right } = quantum(n);
      writer.write(left, right, 128);
      heard.push(...drain(reader));
    }
    heard.forEach((value, i) => {
      expect(value === 0 || value === i + 1, `frame ${i}: ${value}`).toBe(true);
    });
    expect(heard.filter((value) => value === 0).length).toBe(reader.lost);
    expect(heard.length).toBe(9 * 128);
    expect(heard.at(-1)).toBe(9 * 128);
  });

  it('owes frames that the audio thread was never given, and doubles one channel', () => {
    const { writer, reader } = ends(1024);
    const { left } = quantum(1);
    writer.write(left, null, 128);
    writer.lose(64);
    writer.write(left, null, 128);
    expect([reader.lost, reader.channels, reader.waiting]).toEqual([64, 1, 320]);
    const [l, r] = [new Float64Array(320), new Float64Array(320)];
    reader.read(l, r);
    expect(l).toEqual(r);
    expect([l[127], l[128], l[191], l[192]]).toEqual([128 / 65_536, 0, 0, 1 / 65_536]);
    writer.write(null, null, 128);
    expect(reader.channels).toBe(0);
  });

  it('has room for as long as it is asked, and only a power of two', () => {
    expect(ringFrames(96_000, 4)).toBe(524_288);
    expect(() => ringMemory(1000)).toThrow('expected a power of two');
  });
});

describe('blocks that go round', () => {
  const frameOf = ({ samples }: FullBlock, i: number): number => samples[2 * i] * 65_536;

  it('brings every frame in order and makes no block anew', () => {
    const blocks = freshBlocks(48_000, 0.05);
    const made = new Set(blocks);
    const heard: number[] = [];
    const writer: BlockWriter = new BlockWriter(blocks, (block) => {
      expect(made.has(block.samples)).toBe(true);
      for (let i = 0; i < BLOCK_FRAMES; i++) heard.push(frameOf(block, i));
      writer.giveBack(block.samples);
    });
    for (let n = 1; n <= 80 * 128; n += 128) {
      const { left, right } = quantum(n);
      writer.write(left, right, 128);
    }
    expect(heard.length).toBe(10 * BLOCK_FRAMES);
    expect(heard).toEqual(heard.map((_, i) => i + 1));
  });

  it('puts zeros for what was lost while none came back', () => {
    const sent: FullBlock[] = [];
    const heard: number[] = [];
    const take = ({ samples }: FullBlock): void => {
      for (let i = 0; i < BLOCK_FRAMES; i++) heard.push(samples[2 * i] * 65_536);
    };
    const writer = new BlockWriter(freshBlocks(48_000, 0.03), (block) => sent.push(block));
    for (let n = 1; n <= 24 * 128; n += 128) writer.write(quantum(n).left, quantum(n).right, 128);
    expect(sent.length).toBe(2);
    for (let n = 24 * 128 + 1; n <= 64 * 128; n += 128) {
      for (const block of sent.splice(0)) {
        take(block);
        writer.giveBack(block.samples);
      }
      writer.write(quantum(n).left, quantum(n).right, 128);
    }
    for (const block of sent) take(block);
    heard.forEach((value, i) => {
      expect(value === 0 || value === i + 1, `frame ${i}: ${value}`).toBe(true);
    });
    const zeros = heard.filter((value) => value === 0).length;
    expect(zeros).toBe(sent.at(-1)?.lost);
    expect(zeros).toBe(8 * 128);
  });
});

describe('a look into the ring', () => {
  it('gives the newest frames round and round, and takes none of them', () => {
    const memory = ringMemory(512);
    const [writer, reader, tap] = [new RingWriter(memory), new RingReader(memory), new RingTap(memory)];
    const newest = new Float32Array(2 * 200);
    for (let n = 1; n < 3000; n += 128) {
      const { left, right } = quantum(n);
      writer.write(left, right, 128);
      expect(tap.written).toBe(n + 127);
      const waits = reader.waiting;
      tap.latest(newest);
      expect(reader.waiting).toBe(waits);
      if (n > 200) {
        const wanted = Array.from({ length: 200 }, (_, i) => n + 128 - 200 + i);
        expect(Array.from({ length: 200 }, (_, i) => newest[2 * i] * 65_536)).toEqual(wanted);
        expect(newest[399]).toBe(-newest[398]);
      }
      drain(reader);
    }
    expect(reader.lost).toBe(0);
  });
});
