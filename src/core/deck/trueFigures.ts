/** Every fault of a take as a figure of the contract, group by group in the order that truth.ts tells them. */
import type { BandTruth } from './bandTruth.ts';
import type { CrosstalkTruth } from './crosstalkTruth.ts';
import type { Deck } from './deck.ts';
import type { Take } from './take.ts';

/** A figure as `measure --json` would name it. */
export interface TrueFigure {
  readonly quantity: string;
  readonly value: number | string;
  readonly unit: string;
  readonly bands: readonly number[];
  readonly channel?: 'left' | 'right';
  readonly meaning: string;
}

type Add = (
  quantity: string,
  value: number | string,
  unit: string,
  bands: readonly number[],
  meaning: string,
  channel?: 'left' | 'right',
) => void;

export function trueFigures(
  { deck, sheet }: Take,
  bands: readonly BandTruth[],
  crosstalk: CrosstalkTruth,
): TrueFigure[] {
  const figures: TrueFigure[] = [];
  const add: Add = (quantity, value, unit, from, meaning, channel) =>
    figures.push({ quantity, value, unit, bands: from, ...(channel === undefined ? {} : { channel }), meaning });
  const tones = bands.filter((band) => band.signal === 'tone');
  channelFigures(add, deck, tones, crosstalk);
  speedFigures(add, deck, tones);
  resonanceFigures(add, deck);
  for (const band of tones) bandFigures(add, band, deck.leads.swapped);
  verticalAngle(add, sheet, bands);
  return figures;
}

function channelFigures(add: Add, deck: Deck, tones: readonly BandTruth[], crosstalk: CrosstalkTruth): void {
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
}

function speedFigures(add: Add, deck: Deck, tones: readonly BandTruth[]): void {
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
}

function resonanceFigures(add: Add, deck: Deck): void {
  for (const [name, of] of [
    ['arm-resonance-lateral', deck.arm.lateralResonance],
    ['arm-resonance-vertical', deck.arm.verticalResonance],
  ] as const) {
    if (of === null) continue;
    add(name, of.hz, 'Hz', [], 'f0 of the second-order system');
    add(`${name}-q`, of.q, '', [], 'Q of the second-order system');
  }
}

/** Of one tone band: the angle at its radius, the distortion of the channels that it drives, leads put right. */
function bandFigures(add: Add, band: BandTruth, swapped: boolean): void {
  if (band.motion === 'lateral') {
    add('tracking-error', band.pathErrorDeg, 'deg', [band.index], "of the tip's path at the radius of this band");
    add('tracking-error-of-the-arm', band.trackingErrorDeg, 'deg', [band.index], 'θ − φ at the radius of this band');
  }
  for (const channel of ['left', 'right'] as const) {
    const tone = band[swapped ? (channel === 'left' ? 'right' : 'left') : channel];
    if (tone === undefined || (band.motion !== channel && (band.motion === 'left' || band.motion === 'right')))
      continue;
    const of = (quantity: string, value: number, meaning: string) =>
      add(quantity, value, '%', [band.index], meaning, channel);
    of('second-harmonic', tone.secondHarmonicPercent, 'of the velocity, equalisation undone');
    of('third-harmonic', tone.thirdHarmonicPercent, 'of the velocity, equalisation undone');
    of('total-harmonic-distortion', tone.distortionPercent, 'second to fifth, equalisation undone');
  }
}

function verticalAngle(add: Add, sheet: Take['sheet'], bands: readonly BandTruth[]): void {
  const angle =
    sheet.cut?.verticalAngleDeg === null || sheet.cut === null
      ? 'the record taken as cut at 20°'
      : 'playback minus cutting';
  add('vertical-tracking-error', bands[0]?.verticalErrorDeg ?? 0, 'deg', [], angle);
}
