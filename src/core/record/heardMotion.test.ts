import { describe, expect, it } from 'vitest';
import { type ChannelPowers, channelBalance, heardMotion } from './heardMotion.ts';

/** Powers of a band through gains, leaks and a tilt, all real. */
function through(
  motion: 'left' | 'right' | 'lateral' | 'vertical',
  { gainDb = 0, leak = 0, tiltDeg = 0, sign = 1 }: { gainDb?: number; leak?: number; tiltDeg?: number; sign?: 1 | -1 },
): ChannelPowers {
  const [l, r] = { left: [1, 0], right: [0, 1], lateral: [1, 1], vertical: [1, -1] }[motion];
  const t = Math.tan((tiltDeg * Math.PI) / 180);
  const left = (l + (leak + t) * r) * 10 ** (gainDb / 20);
  const right = (r + (leak - t) * l) * sign;
  return { left: left * left, right: right * right, cross: left * right };
}
const MOTIONS = ['left', 'right', 'lateral', 'vertical'] as const;

describe('heardMotion', () => {
  it('tells all four through gains of ±4 dB, leaks of 15 dB and a tilt of ±5°, together', () => {
    for (const gainDb of [-4, 0, 4]) {
      for (const leak of [-0.178, 0, 0.178]) {
        for (const tiltDeg of [-5, 0, 5]) {
          const bands = MOTIONS.map((motion) => through(motion, { gainDb, leak, tiltDeg }));
          const balance = channelBalance(bands);
          expect({ gainDb, leak, tiltDeg, heard: bands.map((band) => heardMotion(band, balance)) }).toEqual({
            gainDb,
            leak,
            tiltDeg,
            heard: [...MOTIONS],
          });
        }
      }
    }
  });

  it('tells a lone band where the chain is fair: gains of ±3 dB, leaks of 20 dB, a tilt of ±2°', () => {
    for (const motion of MOTIONS) {
      for (const gainDb of [-3, 3]) {
        for (const tiltDeg of [-2, 2]) {
          const band = through(motion, { gainDb, leak: 0.1, tiltDeg });
          expect(heardMotion(band, channelBalance([band]))).toBe(motion);
        }
      }
    }
  });

  it('hears lateral and vertical exchanged when one channel is inverted', () => {
    const bands = MOTIONS.map((motion) => through(motion, { leak: 0.05, sign: -1 }));
    const balance = channelBalance(bands);
    expect(bands.map((band) => heardMotion(band, balance))).toEqual(['left', 'right', 'vertical', 'lateral']);
  });

  it('does not name a motion for what has nothing in common between channels', () => {
    expect(heardMotion({ left: 1, right: 1.2, cross: 0.05 }, { gainDb: 0, apartDb: 0 })).toBe('unknown');
    expect(heardMotion({ left: 0, right: 0, cross: 0 }, { gainDb: 0, apartDb: 0 })).toBe('unknown');
  });
});
