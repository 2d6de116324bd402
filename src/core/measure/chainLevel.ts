/**
 * What cut and chain make of a level, dB re 1 kHz, so that it can be taken off: the cut's own law, the playback equalisation as its standard
 * has it or as the preamplifier was measured, and what an older standard adds at the bottom.
 */
import { playbackGain } from './playbackEqualisation.ts';

/** A preamplifier's response as measured, dB re 1 kHz; Hz ascending. */
export interface PreampResponse {
  readonly hz: readonly number[];
  readonly leftDb: readonly number[];
  readonly rightDb: readonly number[];
}

export interface ChainKnown {
  /** captured without playback equalisation */
  readonly flat: boolean;
  readonly preamp: PreampResponse | null;
}

export type SweepLaw = 'riaa' | 'constant-velocity';

const dB = (size: number): number => 20 * Math.log10(size);
export const riaaDb = (hz: number): number => dB(playbackGain(hz));

/** 7950 µs beside RIAA, as an amendment of IEC 60098 has it. */
export const highPass7950Db = (hz: number): number => {
  const x = 2 * Math.PI * hz * 7950e-6;
  return dB(x / Math.hypot(1, x));
};

/** The measured response at a frequency, straight between its points over the logarithm; its end beyond them. */
export function preampDb({ hz, leftDb, rightDb }: PreampResponse, channel: 'left' | 'right', at: number): number {
  const db = channel === 'left' ? leftDb : rightDb;
  if (at <= hz[0]) return db[0];
  for (let i = 1; i < hz.length; i++) {
    if (at > hz[i]) continue;
    const share = Math.log(at / hz[i - 1]) / Math.log(hz[i] / hz[i - 1]);
    return db[i - 1] + share * (db[i] - db[i - 1]);
  }
  return db[db.length - 1];
}

/**
 * Level that a faultless cartridge gives in the capture, re 1 kHz: cut and chain together.
 * @param channel null for both alike: the mean of what was measured
 */
export function expectedDb(
  law: SweepLaw,
  { flat, preamp }: ChainKnown,
  channel: 'left' | 'right' | null,
  hz: number,
): number {
  const cut = law === 'riaa' ? -riaaDb(hz) : 0;
  if (preamp !== null) {
    const of = (side: 'left' | 'right') => preampDb(preamp, side, hz) - preampDb(preamp, side, 1000);
    return cut + (channel === null ? (of('left') + of('right')) / 2 : of(channel));
  }
  return cut + (flat ? 0 : riaaDb(hz));
}
