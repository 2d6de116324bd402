import { describe, expect, it } from 'vitest';
import { ByteSlip } from './byteSlip.ts';
import { decodeSamples } from './decodeSamples.ts';

const RATE = 48_000;
const FRAMES = 2 * RATE;

/** Both channels of a take, 24 bit, with so many bytes missing (negative) or too many at a frame. */
function taken(sound: (n: number) => number, bytes: number, at: number): [Float64Array, Float64Array] {
  const written = new Uint8Array(6 * FRAMES);
  for (let n = 0; n < 2 * FRAMES; n++) {
    const value = Math.round(Math.max(-1, Math.min(1 - 2 ** -23, sound(n >> 1) * (n % 2 === 0 ? 1 : 0.8))) * 2 ** 23);
    for (let b = 0; b < 3; b++) written[3 * n + b] = (value >> (8 * b)) & 255;
  }
  const here = 6 * at;
  const slipped = [
    ...[written.subarray(0, here), new Uint8Array(Math.max(0, bytes)).fill(77)],
    written.subarray(here + Math.max(0, -bytes)),
  ];
  const whole = Buffer.concat([...slipped, new Uint8Array(12)]).subarray(0, 6 * FRAMES);
  const [left, right] = [new Float64Array(FRAMES), new Float64Array(FRAMES)];
  decodeSamples(whole, 'int24', 2, 6, FRAMES, left, right);
  return [left, right];
}

function firstFrame([left, right]: [Float64Array, Float64Array], blockFrames = 65_536): number | null {
  const slip = new ByteSlip();
  for (let from = 0; from < FRAMES; from += blockFrames) {
    const frames = Math.min(blockFrames, FRAMES - from);
    slip.push(left.subarray(from, from + frames), right.subarray(from, from + frames), frames, from);
  }
  return slip.firstFrame(RATE);
}

let state = 1;
const noise = (): number => {
  state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
  return state / 2 ** 31 - 1;
};
const tone = (n: number): number => 0.3 * Math.sin((2 * Math.PI * 1000 * n) / RATE) + 1e-3 * noise();

describe('samples made of the wrong bytes', () => {
  it.each([-11, -5, -2, -1, 1, 2, 4, 7])('%i bytes in a tone are told within a tenth of a second', (bytes) => {
    const at = 40_000;
    const told = firstFrame(taken(tone, bytes, at));
    expect(told).not.toBeNull();
    expect(Math.abs(told! - at)).toBeLessThan(0.1 * RATE);
  });

  it('whole samples that are missing make no noise', () => {
    for (const bytes of [-12, -6, -3, 3, 6]) expect(firstFrame(taken(tone, bytes, 40_000))).toBeNull();
  });

  it.each<[string, (n: number) => number]>([
    ['a tone at full scale', (n) => Math.sin((2 * Math.PI * 997 * n) / RATE)],
    ['one that clips hard', (n) => 8 * Math.sin((2 * Math.PI * 997 * n) / RATE)],
    ['a tone of a quarter of the rate', (n) => 0.8 * Math.sin((Math.PI / 2) * n + 0.4)],
    ['one a little beside', (n) => 0.85 * Math.sin((2 * Math.PI * 10_300 * n) / RATE)],
    ['white noise 3 dB under full scale', () => 0.7 * noise()],
    ['white noise that clips', () => 1.2 * noise()],
    ['white noise that clips a little, bell-shaped', () => 0.5 * (noise() + noise() + noise())],
    ['clicks and hiss', (n) => (n % 3000 < 4 ? 1 : 0.01 * noise())],
    ['a triangle at full scale', (n) => Math.abs(((n / 40) % 4) - 2) - 1],
  ])('%s is none', (_, sound) => {
    expect(firstFrame(taken(sound, 0, 0))).toBeNull();
  });

  it('is the same in parts that are joined', () => {
    const [left, right] = taken(tone, 1, 60_000);
    const whole = firstFrame([left, right]);
    const [a, b] = [new ByteSlip(), new ByteSlip()];
    a.push(left, right, 65_536, 0);
    b.push(left.subarray(65_536), right.subarray(65_536), FRAMES - 65_536, 65_536);
    a.append(b.part());
    expect(a.firstFrame(RATE)).toBe(whole);
    expect(whole).not.toBeNull();
  });
});
