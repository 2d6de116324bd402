/** Hum of each state that the recording holds: the mains lines as one family. */

import { type ChannelHum, type MainsFamily, mainsFamily } from '../signal/mainsFamily.ts';
import type { StereoSpectrum } from '../signal/spectra.ts';
import { statement } from '../words/statement.ts';
import { CHANNELS, type Channel } from './channels.ts';
import type { Finding } from './finding.ts';
import type { QuietPart } from './quietEstimator.ts';
import type { QuietHeard } from './quietHeard.ts';
import { spreadDb, under } from './quietLevel.ts';
import type { Gain } from './quietSpectra.ts';
import type { ChannelReference, ReferenceLevel } from './referenceLevel.ts';

/** a motor is heard where its mains lines stand over the quiet state's by this, power */
const MOTOR_STEP = 2;

export type HumState = 'groove' | 'tip-up' | 'motor-off';
const humNames: Readonly<Record<HumState, string>> = {
  groove: 'hum',
  'tip-up': 'hum-tip-up',
  'motor-off': 'hum-motor-off',
};

/** The mains family of one state, equalisation put in where the capture lacks it. */
export function familyOf(spectrum: StereoSpectrum, gain: Gain): MainsFamily | null {
  const through = (density: Float64Array): Float64Array =>
    density.map((v, k) => (k === 0 ? v : v * gain(k * spectrum.binHz) ** 2));
  return mainsFamily({
    ...spectrum,
    leftDensity: through(spectrum.leftDensity),
    rightDensity: through(spectrum.rightDensity),
  });
}

interface HumOfState {
  readonly state: HumState;
  readonly family: MainsFamily;
  readonly bands: readonly number[];
}

/** The tip in the air, once with the motor on and once off where the recording holds both. */
export interface TipUp {
  readonly part: QuietPart;
  readonly family: MainsFamily;
}

/** What the tip-up parts say by themselves: the loudest is the motor on, the quietest off, where they differ. */
export function tipUpStates(
  heard: readonly QuietHeard[],
  gain: Gain,
): { readonly on: TipUp | null; readonly off: TipUp | null } {
  const total = ({ left, right }: MainsFamily): number => left.power + right.power;
  const air = heard
    .filter(({ reading }) => reading.state === 'tip-up')
    .flatMap(({ reading }) => reading.parts)
    .flatMap((part): TipUp[] => {
      const family = familyOf(part.low, gain);
      return family === null ? [] : [{ part, family }];
    })
    .sort((a, b) => total(a.family) - total(b.family));
  const on = air.at(-1) ?? null;
  const off = on !== null && total(on.family) > MOTOR_STEP * floorOf(air[0].family) ? air[0] : null;
  return { on, off };
}

function humStates(groove: QuietHeard | null, heard: readonly QuietHeard[], gain: Gain): HumOfState[] {
  const states: HumOfState[] = [];
  const ofGroove = groove === null ? null : familyOf(groove.reading.parts[0].low, gain);
  if (groove !== null && ofGroove !== null) states.push({ state: 'groove', family: ofGroove, bands: groove.bands });
  const { on, off } = tipUpStates(heard, gain);
  if (on !== null) states.push({ state: 'tip-up', family: on.family, bands: [] });
  if (off !== null) states.push({ state: 'motor-off', family: off.family, bands: [] });
  return states;
}

/** Its hum, or what it stays under where none is heard. */
const floorOf = ({ left, right, lines }: MainsFamily): number =>
  lines.length > 0 ? left.power + right.power : left.atMost + right.atMost;

export function humFindings(
  groove: QuietHeard | null,
  heard: readonly QuietHeard[],
  reference: ReferenceLevel,
  gain: Gain,
): Finding[] {
  const states = humStates(groove, heard, gain);
  return states.flatMap(({ state, family, bands }) =>
    CHANNELS.flatMap((channel): Finding[] => {
      const of = reference[channel];
      if (of === null) return [];
      return [{ ...humFigure(family, family[channel], channel, of), quantity: humNames[state], bands, channel }];
    }),
  );
}

function humFigure(
  family: MainsFamily,
  { power, spread, atMost }: ChannelHum,
  channel: Channel,
  of: ChannelReference,
): Omit<Finding, 'quantity' | 'bands'> {
  if (!(power > 2 * spread)) {
    const low = under(of, Math.max(power, atMost));
    return { value: low, low, high: null, unit: 'dB', uncertainty: null, notes: [statement('hum-not-heard', { low })] };
  }
  const strongest = family.lines.reduce((a, b) => (b[channel] > a[channel] ? b : a));
  const notes = [
    statement('hum-family', {
      hz: family.hz,
      strongestHz: strongest.order * family.hz,
      percent: (100 * strongest[channel]) / power,
    }),
  ];
  return { value: under(of, power), unit: 'dB', uncertainty: spreadDb(power, spread), notes };
}
