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

/** A figure as `measure --json` would name it. */
export interface TrueFigure {
  readonly quantity: string;
  readonly value: number | string;
  readonly unit: string;
  readonly bands: readonly number[];
  readonly channel?: 'left' | 'right';
  readonly meaning: string;
}

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
    figures: figuresOf(take, bands, crosstalk),
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

function figuresOf(take: Take, bands: readonly BandTruth[], crosstalk: CrosstalkTruth): TrueFigure[] {
  const { deck, sheet } = take;
  const figures: TrueFigure[] = [];
  const add = (quantity: string, value: number | string, unit: string, from: readonly number[], meaning: string) =>
    figures.push({ quantity, value, unit, bands: from, meaning });
  const tones = bands.filter((band) => band.signal === 'tone');
  const near1k = tones.filter((band) => Math.abs((band.frequencyHz ?? 0) - 1000) < 50);
  const lateral = near1k.find((band) => band.motion === 'lateral');
  const oneSided = near1k.filter((band) => band.motion === 'left' || band.motion === 'right').map((band) => band.index);

  if (lateral?.rightOverLeft !== undefined) {
    const rightOverLeft = deck.leads.swapped ? -lateral.rightOverLeft.db : lateral.rightOverLeft.db;
    add('channel-balance', -rightOverLeft, 'dB', [lateral.index], 'left over right on this band, leads put right');
    const apart = Math.abs(lateral.rightOverLeft.phaseDeg) > 90;
    add('polarity', apart ? 'antiphase' : 'in-phase', '–', [lateral.index], 'of the lateral tone as captured');
  }
  const gains =
    deck.cartridge.gainDb.left + deck.preamp.gainDb.left - deck.cartridge.gainDb.right - deck.preamp.gainDb.right;
  if (!deck.leads.swapped) add('channel-balance-of-gains', gains, 'dB', [], 'of cartridge and preamp gains alone');
  add('channel-order', deck.leads.swapped ? 'swapped' : 'normal', '–', oneSided, 'of the leads');
  add(
    'separation-left-to-right',
    crosstalk.separationLeftToRightDb,
    'dB',
    oneSided,
    'at 1 kHz, tilt and leaks together',
  );
  add(
    'separation-right-to-left',
    crosstalk.separationRightToLeftDb,
    'dB',
    oneSided,
    'at 1 kHz, tilt and leaks together',
  );
  add('azimuth-error', crosstalk.azimuthErrorDeg, 'deg', oneSided, 'least total leak at 1 kHz, the whole chain');
  add(
    'tilt-of-the-cartridge',
    deck.cartridge.tiltDeg,
    'deg',
    [],
    'mechanical, without the leaks between the generators',
  );
  add(
    'speed-error',
    deck.platter.speedErrorPercent - deck.platter.dragPercent * (1 + deck.platter.speedErrorPercent / 100),
    '%',
    tones.map((band) => band.index),
    'mean over whole turns, the tip in the groove, warmed up',
  );
  add('stylus-drag', deck.platter.dragPercent, '%', [], 'tip up against tip down');
  for (const band of tones) {
    const { flutter } = band;
    if (flutter === undefined) continue;
    add('wow-flutter-weighted', flutter.weightedPercent, '%', [band.index], '2σ of the modelled speed over this band');
    add(
      'wow-flutter-unweighted',
      flutter.unweightedPercent,
      '%',
      [band.index],
      '2σ of the modelled speed over this band',
    );
    for (const [kind, value] of [
      ['weighted', flutter.weightedOfDeckPercent],
      ['unweighted', flutter.unweightedOfDeckPercent],
    ] as const) {
      add(`wow-flutter-${kind}-deck`, value, '%', [band.index], 'of the platter alone, without hole and warp');
    }
    add('once-per-turn', flutter.oncePerTurnPercent, '%', [band.index], 'platter, hole and warp together');
  }
  const platter = tones.find(({ flutter }) => flutter !== undefined)?.flutter?.fromPlatterPercent;
  if (platter !== undefined) add('once-per-turn-platter', platter, '%', [], "the platter's own");
  add('eccentricity', deck.record.offCentreMm, 'mm', [], 'record eccentricity');
  for (const [name, of] of [
    ['arm-resonance-lateral', deck.arm.lateralResonance],
    ['arm-resonance-vertical', deck.arm.verticalResonance],
  ] as const) {
    if (of === null) continue;
    add(name, of.hz, 'Hz', [], 'f0 of the second-order system');
    add(`${name}-q`, of.q, '', [], 'Q of the second-order system');
  }
  for (const band of tones) {
    if (band.motion === 'lateral') {
      add('tracking-error', band.pathErrorDeg, 'deg', [band.index], "of the tip's path at the radius of this band");
      add('tracking-error-of-the-arm', band.trackingErrorDeg, 'deg', [band.index], 'θ − φ at the radius of this band');
    }
    for (const channel of ['left', 'right'] as const) {
      const tone = band[channel];
      if (tone === undefined || (band.motion !== channel && (band.motion === 'left' || band.motion === 'right')))
        continue;
      const of = (quantity: string, value: number, meaning: string) =>
        figures.push({ quantity, value, unit: '%', bands: [band.index], channel, meaning });
      of('second-harmonic', tone.secondHarmonicPercent, 'of the velocity, equalisation undone');
      of('third-harmonic', tone.thirdHarmonicPercent, 'of the velocity, equalisation undone');
      of('total-harmonic-distortion', tone.distortionPercent, 'second to fifth, equalisation undone');
    }
  }
  const angle =
    sheet.cut?.verticalAngleDeg === null || sheet.cut === null
      ? 'the record taken as cut at 20°'
      : 'playback minus cutting';
  add('vertical-tracking-error', bands[0]?.verticalErrorDeg ?? 0, 'deg', [], angle);
  return figures;
}
