/**
 * Playback equalisation as preamplifiers are made to, to be undone where a figure is about the groove's velocity.
 *
 *   H(s) = (1 + s·318 µs) / ((1 + s·3180 µs)(1 + s·75 µs))
 *
 * @source time constants as in IEC 60098 and DIN 45544, second-hand
 * @checked harmonics.test.ts, against check values: −13.734 dB at 10 kHz, +13.088 dB at 100 Hz re 1 kHz
 */
import type { Complex } from '../units/complex.ts';

/** |H(f)| re 1 kHz. @param hz above 0 */
export function playbackGain(hz: number): number {
  if (!(hz > 0 && hz < Infinity)) throw new RangeError(`hz ${hz} must be above 0`);
  return gain(hz) / gain(1000);
}

function gain(hz: number): number {
  const w = 2 * Math.PI * hz;
  return Math.hypot(1, w * 318e-6) / (Math.hypot(1, w * 3180e-6) * Math.hypot(1, w * 75e-6));
}

/** H(f) re |H(1 kHz)|, with its phase. @param hz above 0 */
export function playbackResponse(hz: number): Complex {
  const size = playbackGain(hz);
  const w = 2 * Math.PI * hz;
  const phase = Math.atan(w * 318e-6) - Math.atan(w * 3180e-6) - Math.atan(w * 75e-6);
  return { re: size * Math.cos(phase), im: size * Math.sin(phase) };
}
