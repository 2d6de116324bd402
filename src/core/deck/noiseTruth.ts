/** Density of everything that is noise in a capture while the needle is in a quiet groove, from the shapes it is made with. */
import { magnitude } from '../units/complex.ts';
import { type Both, chainAt } from './chain.ts';
import { flatWeight, pinkSections, rumbleSections, shapedRms, throughRiaa } from './noise.ts';
import { sectionsAt } from './realise.ts';
import { playback } from './response.ts';
import type { Take } from './take.ts';

export interface RumbleTruth {
  readonly unweighted: { readonly left: number; readonly right: number };
  readonly weighted: { readonly left: number; readonly right: number };
}

export interface NoiseTruth {
  /** power for each Hz against that of a full-scale sine, dB, at the frequencies of the third-octave series 5 Hz to 20 kHz */
  readonly hz: readonly number[];
  readonly leftDbPerHz: readonly number[];
  readonly rightDbPerHz: readonly number[];
  /** rms from 20 Hz to 20 kHz, flat and A-weighted, against a full-scale sine, dB */
  readonly flatDbfs: { readonly left: number; readonly right: number };
  readonly aWeightedDbfs: { readonly left: number; readonly right: number };
  /** 2 Hz to 2 kHz, hum lines and noise, DIN 45539 by straight lines, against a full-scale sine, dB, as captured */
  readonly rumbleDbfs: RumbleTruth;
  /** the same as a chain that passes down to 0 Hz would show it: without `preamp.lowCornerHz` */
  readonly rumbleOfDeckDbfs: RumbleTruth;
  /** the chain's own noise without hum, A-weighted, 20 Hz to 20 kHz */
  readonly tipUpAWeightedDbfs: number;
}

/** Below this a level is given as this: nothing but silence. */
const FLOOR_DB = -250;
const db = (power: number) => Math.max(FLOOR_DB, 10 * Math.log10(Math.max(power, 1e-300)));

/** A-weighting, amplitude, 1 at 1 kHz: IEC 61672-1 Annex E. */
export function aWeight(hz: number): number {
  const f2 = hz * hz;
  const raw = (f: number) => f * f;
  const size = (f: number) => {
    const p = raw(12194.217148) * f * f;
    return (
      p /
      ((f + raw(20.598997058)) *
        Math.sqrt((f + raw(107.652648643)) * (f + raw(737.862230736))) *
        (f + raw(12194.217148)))
    );
  };
  return size(f2) / size(1e6);
}

/** 0 dB from 10 to 315 Hz, 6 dB an octave below, 12 dB an octave above. */
const unweightedRumble = (hz: number): number => (hz < 10 ? hz / 10 : hz > 315 ? (315 / hz) ** 2 : 1);
/** 0 dB at 315 Hz, 12 dB an octave on either side. */
const weightedRumble = (hz: number): number => (hz < 315 ? (hz / 315) ** 2 : (315 / hz) ** 2);

/** Power for each Hz in both channels at a frequency; a full-scale sine has a power of ½. */
function density(take: Take) {
  const { deck, sheet, sampleRateHz } = take;
  const reference = sheet.referenceVelocityCmS;
  const rms = reference / Math.SQRT2;
  const perHz = 2 / sampleRateHz;
  const pink = pinkSections(sampleRateHz);
  const bearing = rumbleSections(sampleRateHz);
  const surface =
    deck.record.surfaceNoiseDb === null
      ? 0
      : (rms * 10 ** (deck.record.surfaceNoiseDb / 20)) / shapedRms(pink, throughRiaa, sampleRateHz, 20, 20000);
  const rumble = (level: number | null) =>
    level === null ? 0 : (rms * 10 ** (level / 20)) / shapedRms(bearing, throughRiaa, sampleRateHz, 0.5, 2000);
  const rumbleX = rumble(deck.bearing.rumbleLateralDb);
  const rumbleY = rumble(deck.bearing.rumbleVerticalDb);
  const weight = deck.preamp.equalisation === 'flat' ? flatWeight : throughRiaa;
  const input =
    deck.preamp.noiseDb === null
      ? 0
      : 10 ** ((deck.converter.referenceDbfs + deck.preamp.noiseDb) / 20) /
        Math.SQRT2 /
        shapedRms([], weight, sampleRateHz, 20, 20000);
  // Rounding (1/12) and triangular dither (1/6) of one step.
  const { bits, dither } = deck.converter;
  const step = bits === 'float' ? 0 : 2 ** (1 - bits);
  const converter = step * step * (1 / 12 + (dither ? 1 / 6 : 0));
  return (hz: number) => {
    const shape = magnitude(sectionsAt(pink, hz, sampleRateHz)) ** 2 * surface ** 2;
    const low = magnitude(sectionsAt(bearing, hz, sampleRateHz)) ** 2;
    const c = deck.record.surfaceCorrelation;
    const powerX = shape * (1 + c) + low * rumbleX ** 2;
    const powerY = shape * (1 - c) + low * rumbleY ** 2;
    const lateral: Both = chainAt(deck, { re: 1, im: 0 }, { re: 0, im: 0 }, hz, reference);
    const vertical: Both = chainAt(deck, { re: 0, im: 0 }, { re: 1, im: 0 }, hz, reference);
    const hiss = (input * magnitude(playback(deck.preamp, hz))) ** 2;
    const of = (channel: 'left' | 'right') =>
      perHz *
      (powerX * magnitude(lateral[channel]) ** 2 + powerY * magnitude(vertical[channel]) ** 2 + hiss + converter);
    return { left: of('left'), right: of('right'), chain: perHz * (hiss + converter) };
  };
}

export function noiseTruth(take: Take): NoiseTruth {
  const at = density(take);
  const { preamp, converter } = take.deck;
  const passing =
    preamp.lowCornerHz === null
      ? at
      : density({ ...take, deck: { ...take.deck, preamp: { ...preamp, lowCornerHz: null } } });
  const top = Math.min(20000, 0.49 * take.sampleRateHz);
  const hz: number[] = [];
  for (let band = 7; band <= 43; band++) {
    const f = 10 ** (band / 10);
    if (f <= top) hz.push(f);
  }
  const curve = hz.map(at);
  const sum = (
    channel: 'left' | 'right' | 'chain',
    weight: (f: number) => number,
    from: number,
    to: number,
    heard = at,
  ) => {
    const STEPS = 900;
    let power = 0;
    for (let i = 0; i < STEPS; i++) {
      const low = from * (to / from) ** (i / STEPS);
      const high = from * (to / from) ** ((i + 1) / STEPS);
      const f = Math.sqrt(low * high);
      power += heard(f)[channel] * weight(f) ** 2 * (high - low);
    }
    return 2 * power;
  };
  const total = (channel: 'left' | 'right', weight: (f: number) => number) => db(sum(channel, weight, 20, top));
  const rumble = (channel: 'left' | 'right', weight: (f: number) => number, heard: typeof at) => {
    const lines = [...preamp.hum, ...preamp.motorHum].reduce(
      (all, line) => all + 10 ** (line[`${channel}Db`] / 10) * weight(line.harmonic * preamp.mainsHz) ** 2,
      0,
    );
    return db(sum(channel, weight, 2, 2000, heard) + lines * 10 ** (converter.referenceDbfs / 10));
  };
  const both = (weight: (f: number) => number, heard: typeof at) => ({
    left: rumble('left', weight, heard),
    right: rumble('right', weight, heard),
  });
  const rumbleOf = (heard: typeof at): RumbleTruth => ({
    unweighted: both(unweightedRumble, heard),
    weighted: both(weightedRumble, heard),
  });
  return {
    hz,
    leftDbPerHz: curve.map(({ left }) => db(2 * left)),
    rightDbPerHz: curve.map(({ right }) => db(2 * right)),
    flatDbfs: { left: total('left', flatWeight), right: total('right', flatWeight) },
    aWeightedDbfs: { left: total('left', aWeight), right: total('right', aWeight) },
    rumbleDbfs: rumbleOf(at),
    rumbleOfDeckDbfs: rumbleOf(passing),
    tipUpAWeightedDbfs: db(sum('chain', aWeight, 20, top)),
  };
}
