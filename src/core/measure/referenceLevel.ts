/**
 * What 5 cm/s peak along one wall at 1 kHz makes in either channel of this capture: the level that hum, rumble and noise are under.
 *
 *   a = A · 5 / v_wall / G(f)      A amplitude heard, v_wall = v for a one-sided tone, v/√2 for a lateral or vertical one
 *
 * G the playback equalisation; 1 for a capture without it. The velocity is the record file's: without one there is no reference.
 */
import { playbackGain } from './playbackEqualisation.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { cutLevel, fromReference, levelOf, ratioOf, sameTone } from './toneLevels.ts';

const REFERENCE_CM_S = 5;

export interface ChannelReference {
  /** peak, full scale 1 */
  readonly amplitude: number;
  readonly bands: readonly number[];
  /** Hz of the tone it was read on */
  readonly hz: number;
}

export interface ReferenceLevel {
  readonly left: ChannelReference | null;
  readonly right: ChannelReference | null;
}

interface Heard {
  readonly tone: ToneBand;
  /** ln of the peak amplitude that 5 cm/s would make */
  readonly logLevel: number;
  readonly oneSided: boolean;
}

/** @param flat captured without playback equalisation */
export function referenceLevel(side: SideReadings, flat: boolean): ReferenceLevel {
  const of = (channel: 'left' | 'right'): ChannelReference | null => {
    const heard = side.tones.flatMap((tone) => heardIn(tone, channel, flat) ?? []);
    if (heard.length === 0) return null;
    // one wall alone has no leak of the other in it; of these the ones nearest to 1 kHz
    const rank = ({ tone, oneSided }: Heard): number => fromReference(tone) + (oneSided ? 0 : 0.1);
    const nearest = heard.reduce((a, b) => (rank(b) < rank(a) ? b : a));
    const used = heard.filter(
      (one) => one.oneSided === nearest.oneSided && sameTone(one.tone.meanHz, nearest.tone.meanHz),
    );
    const mean = used.reduce((sum, one) => sum + one.logLevel, 0) / used.length;
    return {
      amplitude: Math.exp(mean),
      bands: used.map((one) => one.tone.band.index).sort((a, b) => a - b),
      hz: nearest.tone.meanHz,
    };
  };
  return { left: of('left'), right: of('right') };
}

/** Of one channel; null where the tone is not in it or its velocity not stated. */
export function heardIn(tone: ToneBand, channel: 'left' | 'right', flat: boolean): Heard | null {
  if (tone.cut?.peakVelocityCmS === undefined) return null;
  const undone = Math.log(REFERENCE_CM_S) - cutLevel(tone, true) - (flat ? 0 : Math.log(playbackGain(tone.meanHz)));
  const level = levelOf(tone).value;
  if (tone.driven === channel) return { tone, oneSided: true, logLevel: level + undone };
  if (tone.driven !== 'both') return null;
  // the level is the mean of both channels, the ratio left over right
  const { re, im } = ratioOf(tone);
  const ratio = Math.hypot(re, im);
  const share = (channel === 'left' ? 2 * ratio : 2) / (1 + ratio);
  return { tone, oneSided: false, logLevel: level + Math.log(share) + undone + Math.LN2 / 2 };
}
