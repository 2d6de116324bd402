import { expect, it } from 'vitest';
import { ringDownKind } from './ringDownKind.ts';

const RATE_HZ = 8000;
/** A tip that drops after a second, ringing at one pitch sideways and another up and down. */
function dropped(): { left: Float64Array; right: Float64Array } {
  const rings = (hz: number) => (t: number) =>
    t < 1 ? 0 : Math.exp((-Math.PI * hz * (t - 1)) / 3) * Math.cos(2 * Math.PI * hz * (t - 1));
  const [lateral, vertical] = [rings(8), rings(12)];
  const of = (sign: number) =>
    Float64Array.from(
      { length: 3 * RATE_HZ },
      (_, n) => 0.1 * lateral(n / RATE_HZ) + sign * 0.07 * vertical(n / RATE_HZ),
    );
  return { left: of(1), right: of(-1) };
}

it('the sum of the channels tells what is in phase, their difference what is in antiphase', () => {
  const { left, right } = dropped();
  const listening = ringDownKind.begin(RATE_HZ, {});
  for (let at = 0; at < left.length; at += 1000)
    listening.push({
      startFrame: at,
      frames: Math.min(1000, left.length - at),
      left: left.subarray(at, at + 1000),
      right: right.subarray(at, at + 1000),
    });
  const { inPhase, antiphase } = listening.result();
  listening.end();
  expect(inPhase?.hz).toBeCloseTo(8, 0);
  expect(antiphase?.hz).toBeCloseTo(12, 0);
  expect(inPhase?.q).toBeCloseTo(3, 0);
});
