/**
 * What cut and chain make of a level, dB re 1 kHz, so that it can be taken off: the cut's own law and its calibration, the playback equalisation as
 * its standard has it or as the preamplifier was measured, and what an older standard adds at the bottom.
 */
import { playbackGain } from './playbackEqualisation.ts';

/** A response as measured, dB; Hz ascending, two points or more. */
export interface PreampResponse {
  readonly hz: readonly number[];
  readonly leftDb: readonly number[];
  readonly rightDb: readonly number[];
}

export interface ChainKnown {
  /** captured without playback equalisation */
  readonly flat: boolean;
  readonly preamp: PreampResponse | null;
  /** of the record: what is cut over what is stated */
  readonly record: PreampResponse | null;
}

export type SweepLaw = 'riaa' | 'constant-velocity';
type Side = 'left' | 'right';

const dB = (size: number): number => 20 * Math.log10(size);
export const riaaDb = (hz: number): number => dB(playbackGain(hz));

/** 7950 µs beside RIAA, as an amendment of IEC 60098 has it. */
export const highPass7950Db = (hz: number): number => {
  const x = 2 * Math.PI * hz * 7950e-6;
  return dB(x / Math.hypot(1, x));
};

/** The measured response at a frequency, straight between its points over the logarithm; its end beyond them. */
export function responseDb({ hz, leftDb, rightDb }: PreampResponse, side: Side, at: number): number {
  const db = side === 'left' ? leftDb : rightDb;
  if (at <= hz[0]) return db[0];
  for (let i = 1; i < hz.length; i++) {
    if (at > hz[i]) continue;
    const share = Math.log(at / hz[i - 1]) / Math.log(hz[i] / hz[i - 1]);
    return db[i - 1] + share * (db[i] - db[i - 1]);
  }
  return db[db.length - 1];
}

/** re 1 kHz */
const relative = (response: PreampResponse, side: Side | null, hz: number): number => {
  const of = (one: Side): number => responseDb(response, one, hz) - responseDb(response, one, 1000);
  return side === null ? (of('left') + of('right')) / 2 : of(side);
};

/** dB of fall from the low to the high end beyond which a response holds the equalisation; RIAA alone falls by 31 from 50 Hz to 10 kHz */
const EQUALISED_DB = 12;

/** Whether a measured response holds RIAA equalisation, or tells what is left when that is taken off. */
export function holdsEqualisation(response: PreampResponse): boolean {
  const [low, high] = [Math.max(50, response.hz[0]), Math.min(10_000, response.hz[response.hz.length - 1])];
  const expected = riaaDb(low) - riaaDb(high);
  const fall = relative(response, null, low) - relative(response, null, high);
  return fall > Math.max(EQUALISED_DB, 0.5 * expected);
}

/**
 * Level that a faultless cartridge gives in the capture, re 1 kHz: cut and chain together.
 * @param side null for both alike: the mean of what was measured
 */
export function expectedDb(law: SweepLaw, chain: ChainKnown, side: Side | null, hz: number): number {
  const { flat, preamp, record } = chain;
  const cut = (law === 'riaa' ? -riaaDb(hz) : 0) + (record === null ? 0 : relative(record, side, hz));
  const own = preamp === null ? 0 : relative(preamp, side, hz);
  const standard = flat || (preamp !== null && holdsEqualisation(preamp)) ? 0 : riaaDb(hz);
  return cut + own + standard;
}
