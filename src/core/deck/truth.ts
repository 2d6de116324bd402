/**
 * The truth beside a capture: every fault as a figure in the names, units and signs of docs/contract.md, computed from the
 * model's own laws, never from the samples. docs/virtual-deck.md defines each.
 */
import { type BandTruth, bandTruth } from './bandTruth.ts';
import { type CrosstalkTruth, crosstalkTruth } from './crosstalkTruth.ts';
import type { Deck } from './deck.ts';
import { clickTimes } from './knocks.ts';
import { type NoiseTruth, noiseTruth } from './noiseTruth.ts';
import { captureStart, type Take } from './take.ts';
import { type TrueFigure, trueFigures } from './trueFigures.ts';

export interface Truth {
  readonly schema: 1;
  readonly deck: string;
  readonly record: string;
  readonly seed: number;
  readonly capture: {
    readonly sampleRateHz: number;
    readonly durationS: number;
    readonly bits: number | 'float';
    /** the needle's drop and lift, s from the capture's first frame; negative or beyond the end where it is not in it */
    readonly needleDownS: number;
    readonly needleUpS: number;
  };
  readonly figures: readonly TrueFigure[];
  readonly bands: readonly BandTruth[];
  /** leads, gains and delay put right, on a record cut without fault: the figures of the contract */
  readonly crosstalk: CrosstalkTruth;
  /** as the capture has it: leads as they are, the record's own tilt and the preamp's delay in it */
  readonly crosstalkAsCaptured: CrosstalkTruth;
  /** what the record adds beyond its file, as `record.cut` sets it: none of it is the deck's */
  readonly recordBeyondItsFile: Deck['record']['cut'];
  readonly noise: NoiseTruth;
  readonly hum: { readonly mainsHz: number; readonly leftDbfs: number | null; readonly rightDbfs: number | null };
  /** s from the capture's first frame, at most a thousand */
  readonly clicksAtS: readonly number[];
  /** every fault as it was set, defaults filled in */
  readonly faults: Deck;
}

const MOST_CLICKS = 1000;

export function truthOf(take: Take): Truth {
  const { deck, sheet, side } = take;
  const startS = captureStart(take);
  const bands = side.stretches
    .map((stretch, i) =>
      stretch.kind === 'band' ? bandTruth(take, stretch, take.edgesAtS[i], take.edgesAtS[i + 1]) : null,
    )
    .filter((band) => band !== null);
  const stretches = side.stretches.filter((one) => one.kind === 'band');
  const oneSided = stretches.find(({ band }) => ['left', 'right'].includes(sheet.bands[band].motion ?? ''));
  const radiusMm = (oneSided ?? stretches[0]).radiusMm;
  const crosstalk = crosstalkTruth(deck, sheet, radiusMm, false);
  return {
    schema: 1,
    deck: deck.name,
    record: sheet.name,
    seed: take.seed,
    capture: {
      sampleRateHz: take.sampleRateHz,
      durationS: take.frames / take.sampleRateHz,
      bits: deck.converter.bits,
      needleDownS: take.dropAtS - startS,
      needleUpS: take.liftAtS - startS,
    },
    figures: trueFigures(take, bands, crosstalk),
    bands,
    crosstalk,
    crosstalkAsCaptured: crosstalkTruth(deck, sheet, radiusMm, true),
    recordBeyondItsFile: deck.record.cut,
    noise: noiseTruth(take),
    hum: {
      mainsHz: deck.preamp.mainsHz,
      leftDbfs: humLevel(deck, 'leftDb'),
      rightDbfs: humLevel(deck, 'rightDb'),
    },
    clicksAtS: clickTimes(take, MOST_CLICKS),
    faults: deck,
  };
}

/** All mains lines together as one sine of the same power; null without hum. */
function humLevel(deck: Deck, key: 'leftDb' | 'rightDb'): number | null {
  const power = deck.preamp.hum.reduce((sum, line) => sum + 10 ** (line[key] / 10), 0);
  return power === 0 ? null : deck.converter.referenceDbfs + 10 * Math.log10(power);
}
