/**
 * The linear chain from the groove's lateral and vertical velocity to the two capture channels, as complex numbers at one
 * frequency, from the analogue laws alone: what the running filters must agree with, and what the truth is taken from.
 */
import { type Complex, plus, polar, scaled, times } from '../units/complex.ts';
import type { Deck } from './deck.ts';
import { armResonance, coilAndLoad, leakParts, leakSlope, playback, topResonance } from './response.ts';

/** A pair of complex amplitudes. */
export interface Both {
  readonly left: Complex;
  readonly right: Complex;
}

/** Generators' axes turned clockwise by φ: wall velocities as the tilted cartridge sees them. */
export function generatorAxes(tiltDeg: number): { leftX: number; leftY: number; rightX: number; rightY: number } {
  const phi = (tiltDeg * Math.PI) / 180;
  return {
    leftX: Math.cos(Math.PI / 4 - phi),
    leftY: Math.sin(Math.PI / 4 - phi),
    rightX: Math.cos(Math.PI / 4 + phi),
    rightY: -Math.sin(Math.PI / 4 + phi),
  };
}

/** Lateral and vertical velocity of the groove → the generators with their leaks, before harmonics and gains. */
export function generatorsAt(deck: Deck, x: Complex, y: Complex, hz: number): Both {
  const axes = generatorAxes(deck.cartridge.tiltDeg);
  const tipX = times(x, armResonance(deck.arm.lateralResonance, hz));
  const tipY = times(y, armResonance(deck.arm.verticalResonance, hz));
  const left = plus(scaled(tipX, axes.leftX), scaled(tipY, axes.leftY));
  const right = plus(scaled(tipX, axes.rightX), scaled(tipY, axes.rightY));
  return {
    left: plus(left, times(right, leakAt(deck.cartridge.rightIntoLeft, hz))),
    right: plus(right, times(left, leakAt(deck.cartridge.leftIntoRight, hz))),
  };
}

/** The cartridge's own leak at a frequency. */
function leakAt(leak: Deck['cartridge']['leftIntoRight'], hz: number): Complex {
  const { a, b } = leakParts(leak);
  return plus({ re: a, im: 0 }, scaled(leakSlope(hz), b));
}

/** Full scale (±1) for each cm/s at a preamp gain of 0 dB. */
export const fullScalePerCmS = (deck: Deck, referenceVelocityCmS: number): number =>
  10 ** (deck.converter.referenceDbfs / 20) / referenceVelocityCmS;

/** The cartridge's outputs after harmonics → capture channels: gains, top end, leads, equalisation, delay. */
export function captureAt(deck: Deck, generators: Both, hz: number, referenceVelocityCmS: number): Both {
  const { cartridge, leads, preamp } = deck;
  const output = (channel: 'left' | 'right') =>
    times(
      scaled(generators[channel], 10 ** (cartridge.gainDb[channel] / 20) * (leads[`${channel}Inverted`] ? -1 : 1)),
      times(topResonance(cartridge.topResonance[channel], hz), coilAndLoad(deck, hz)),
    );
  const arriving = leads.swapped
    ? { left: output('right'), right: output('left') }
    : { left: output('left'), right: output('right') };
  const input = (channel: 'left' | 'right', delayS: number) =>
    scaled(
      times(times(arriving[channel], playback(preamp, hz)), polar(1, -2 * Math.PI * hz * delayS)),
      10 ** (preamp.gainDb[channel] / 20) * fullScalePerCmS(deck, referenceVelocityCmS),
    );
  return { left: input('left', 0), right: input('right', preamp.rightDelayUs * 1e-6) };
}

/** Groove → capture, small signals. */
export const chainAt = (deck: Deck, x: Complex, y: Complex, hz: number, referenceVelocityCmS: number): Both =>
  captureAt(deck, generatorsAt(deck, x, y, hz), hz, referenceVelocityCmS);
