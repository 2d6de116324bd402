/**
 * Where left and right change places inside a tone that both channels carry.
 *
 * A sample lost or added leaves what was right in the left channel, a frame earlier or later than before. The ratio of the
 * channels, right over left, is ρ before and ρ⁻¹ e^{±iωT} after, T the time of a frame: it becomes its own inverse within one sample,
 * which neither a level, a leak nor a turned headshell does.
 *
 * @checked exchangedChannels.test.ts
 */
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import { wrapped } from '../units/units.ts';
import type { ChannelSeam } from './channelSeam.ts';

/** s of a reading, or as many periods as here where that is longer */
const WINDOW_S = 0.02;
const LEAST_PERIODS = 10;
/** readings on either side of a step */
const LEAST_SIDE = 4;
/** standard deviations of the difference of the two sides that a step has at least, and its miss at most */
const CLEAR = 12;
const MISS = 4;
/** least scatter of a reading, nepers and radians: wow between the channels, a converter's last bits */
const LEAST_SCATTER = 1e-4;

/** Logarithm of the ratio of the channels: nepers and radians. */
interface LogRatio {
  readonly nepers: number;
  readonly radians: number;
}

/** The first exchange inside a tone of this recording, or null. */
export async function findExchange(recording: Recording, bands: readonly Band[]): Promise<ChannelSeam | null> {
  for (const band of bands) {
    const atS = await exchangeIn(recording, band);
    if (atS !== null) return { atS, band: band.index };
  }
  return null;
}

/** @returns s from the first frame of the recording, or null */
async function exchangeIn(recording: Recording, band: Band): Promise<number | null> {
  const { sampleRateHz } = recording.format;
  if (band.signal !== 'tone' || band.frequencyHz === null) return null;
  const cycles = band.frequencyHz / sampleRateHz;
  const length = Math.ceil(Math.max(WINDOW_S * sampleRateHz, LEAST_PERIODS / cycles));
  const fromFrame = Math.round(band.startS * sampleRateHz);
  const readings: LogRatio[] = [];
  let [re0, im0, re1, im1, n] = [0, 0, 0, 0, 0];
  for await (const block of recording.blocks({ fromFrame, toFrame: Math.round(band.endS * sampleRateHz) })) {
    for (let i = 0; i < block.frames; i++) {
      const angle = 2 * Math.PI * cycles * n;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      re0 += block.left[i] * cos;
      im0 -= block.left[i] * sin;
      re1 += block.right[i] * cos;
      im1 -= block.right[i] * sin;
      if (++n < length) continue;
      readings.push({
        nepers: Math.log(Math.hypot(re1, im1) / Math.hypot(re0, im0)),
        radians: Math.atan2(im1 * re0 - re1 * im0, re1 * re0 + im1 * im0),
      });
      [re0, im0, re1, im1, n] = [0, 0, 0, 0, 0];
    }
  }
  const at = exchangeAmong(readings, 2 * Math.PI * cycles);
  return at === null ? null : band.startS + (at * length) / sampleRateHz;
}

/**
 * @param turn that one frame makes of the tone, rad
 * @returns index of the first reading after the step
 */
export function exchangeAmong(readings: readonly LogRatio[], turn: number): number | null {
  if (readings.some(({ nepers }) => !Number.isFinite(nepers))) return null;
  let best: { at: number; rest: number } | null = null;
  for (let at = LEAST_SIDE; at + LEAST_SIDE <= readings.length; at++) {
    // the reading at the step holds some of both
    const rest = spread(readings.slice(0, at)).sum + spread(readings.slice(at + 1)).sum;
    if (best === null || rest < best.rest) best = { at, rest };
  }
  if (best === null) return null;
  const before = spread(readings.slice(0, best.at));
  const after = spread(readings.slice(best.at + 1));
  const scatter = Math.max(LEAST_SCATTER, Math.sqrt(best.rest / (2 * (readings.length - 3))));
  const error = scatter * Math.sqrt(1 / before.count + 1 / after.count);
  const step = Math.hypot(after.nepers - before.nepers, wrapped(after.radians - before.radians));
  if (step < CLEAR * error) return null;
  const misses = [turn, -turn].map((one) =>
    Math.hypot(after.nepers + before.nepers, wrapped(after.radians + before.radians - one)),
  );
  return Math.min(...misses) < MISS * error ? best.at : null;
}

/** Mean of some readings, their phases about the first one's, and the sum of squares about it. */
function spread(readings: readonly LogRatio[]): LogRatio & { readonly sum: number; readonly count: number } {
  const first = readings[0]?.radians ?? 0;
  const nepers = readings.reduce((sum, one) => sum + one.nepers, 0) / readings.length;
  const radians = first + readings.reduce((sum, one) => sum + wrapped(one.radians - first), 0) / readings.length;
  const sum = readings.reduce((all, one) => all + (one.nepers - nepers) ** 2 + wrapped(one.radians - radians) ** 2, 0);
  return { nepers, radians, sum, count: readings.length };
}
