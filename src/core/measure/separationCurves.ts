/** Separation against frequency, magnitude and phase, from sweeps or noise that drive one wall. */
import { median } from '../signal/robust.ts';
import type { ChainKnown } from './chainLevel.ts';
import { CHANNELS, type Channel } from './channels.ts';
import type { Curve } from './finding.ts';
import { type Joined, valueAt } from './joinedResponse.ts';
import { channelResponse, type ResponseSource } from './responseSources.ts';

const MOST_DB = 80;

/**
 * Of each sweep that drives one wall: how far the leak lies under the driven channel, gains removed where both walls are swept, and the leak's phase
 * against it, as captured. 0° is in phase: a clockwise tilt leaks right into left so, and left into right at 180°.
 */
export function separationCurves(sources: readonly ResponseSource[], chain: ChainKnown): Curve[] {
  return CHANNELS.flatMap((driven) =>
    sources
      .filter((source) => source.driven === driven)
      .flatMap((source): Curve[] => {
        const other = driven === 'left' ? 'right' : 'left';
        const pair = sources.find((one) => one.driven === other);
        const gain = pair === undefined ? null : gainOver(source, pair, driven, other, chain);
        const leaks = leaksOf(source, driven);
        const common = { channel: driven, band: source.band, x: leaks.map(({ hz }) => hz), xUnit: 'Hz' };
        return [
          {
            quantity: 'separation',
            ...common,
            y: leaks.map(({ hz, power }) => Math.min(MOST_DB, -10 * Math.log10(power) - (gain?.(hz) ?? 0))),
            yUnit: 'dB',
          },
          { quantity: 'separation-phase', ...common, y: unwound(leaks.map(({ phaseDeg }) => phaseDeg)), yUnit: 'deg' },
        ];
      }),
  );
}

/** Without jumps of a whole turn; what lies about ±180° stays together. */
function unwound(deg: readonly number[]): number[] {
  const out: number[] = [];
  for (const angle of deg) {
    const before = out[out.length - 1] ?? angle;
    out.push(angle - 360 * Math.round((angle - before) / 360));
  }
  const turns = out.length === 0 ? 0 : Math.round(median(out) / 360);
  return out.map((angle) => angle - 360 * turns);
}

/** octaves over which a leak is averaged with its phase, and power over what noise alone would leave that counts */
const LEAK_OCTAVES = 1 / 6;
const LEAST_OVER_NOISE = 3;

/** What moves with the driven channel alone; where noise hides it there is no point. */
function leaksOf({ points }: ResponseSource, driven: Channel): { hz: number; power: number; phaseDeg: number }[] {
  const of = points.filter((p) => p[driven] > 0);
  return of.flatMap(({ hz }) => {
    let [re, im, weight, noise] = [0, 0, 0, 0];
    for (const p of of) {
      if (Math.abs(Math.log2(p.hz / hz)) > LEAK_OCTAVES / 2) continue;
      // each as a ratio, by how many spectra tell it
      re += (p.spectra * p.re) / p[driven];
      im += (p.spectra * p.im) / p[driven];
      noise += (p.spectra * p.noise) / p[driven];
      weight += p.spectra;
    }
    const power = (re * re + im * im) / weight ** 2;
    const byNoise = noise / weight ** 2;
    if (!(power > LEAST_OVER_NOISE * byNoise)) return [];
    // the product is right over left: of the undriven over the driven channel it is turned where right is driven
    const turned = driven === 'left' ? im : -im;
    return [{ hz, power: power - byNoise, phaseDeg: (Math.atan2(turned, re) * 180) / Math.PI }];
  });
}

/** dB by which the driven channel is louder than the other one on its own wall, over frequency. */
function gainOver(
  source: ResponseSource,
  pair: ResponseSource,
  driven: Channel,
  other: Channel,
  chain: ChainKnown,
): (hz: number) => number {
  const own = channelResponse(source, driven, chain);
  const its = channelResponse(pair, other, chain);
  const level = own.levelDb - source.cutDb - (its.levelDb - pair.cutDb);
  const own_: Joined = own;
  return (hz) => level + (valueAt(own_, hz)?.db ?? 0) - (valueAt(its, hz)?.db ?? 0);
}
