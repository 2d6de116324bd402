/** The cartridge: generators turned by the tilt, leaks between them, their harmonics and gains, and the leads. */
import { generatorAxes } from './chain.ts';
import { highPassFirstOrder, runSection } from './filters.ts';
import { sectionsAt } from './realise.ts';
import { LEAK_CORNER_HZ, leakParts } from './response.ts';
import { CHUNK, type Take } from './take.ts';

/** Lateral and vertical velocity → the cartridge's two outputs in reference units (cm/s), as they reach the preamp's inputs. */
export function cartridgeChain(take: Take): (x: Float64Array, y: Float64Array) => void {
  const { cartridge, leads } = take.deck;
  const { sampleRateHz } = take;
  const reference = take.sheet.referenceVelocityCmS;
  const { leftX, leftY, rightX, rightY } = generatorAxes(cartridge.tiltDeg);

  const differentiator = highPassFirstOrder(sampleRateHz, LEAK_CORNER_HZ);
  const rise = LEAK_CORNER_HZ / 1000;
  const at1k = sectionsAt([differentiator], 1000, sampleRateHz);
  const slopeAt1k = { re: rise * at1k.re, im: rise * at1k.im };
  const intoRight = leakParts(cartridge.leftIntoRight, slopeAt1k);
  const intoLeft = leakParts(cartridge.rightIntoLeft, slopeAt1k);
  const slopeLeft = new Float64Array(CHUNK);
  const slopeRight = new Float64Array(CHUNK);
  const steepLeft = runSection(differentiator);
  const steepRight = runSection(differentiator);

  const bend = (channel: 'left' | 'right') => {
    const second = cartridge.secondHarmonicPercent[channel] / 100;
    const third = cartridge.thirdHarmonicPercent[channel] / 100;
    const gain = 10 ** (cartridge.gainDb[channel] / 20) * (leads[`${channel}Inverted`] ? -1 : 1);
    const square = new Float64Array(CHUNK);
    const level = runSection(highPassFirstOrder(sampleRateHz, 2));
    return (u: Float64Array) => {
      if (second !== 0) {
        for (let i = 0; i < CHUNK; i++) square[i] = ((2 * second) / reference) * u[i] * u[i];
        level(square, CHUNK);
      }
      const cube = (4 * third) / reference ** 2;
      for (let i = 0; i < CHUNK; i++) {
        const v = u[i];
        u[i] = gain * (v + square[i] + (cube * v * v - 3 * third) * v);
      }
    };
  };
  const bendLeft = bend('left');
  const bendRight = bend('right');

  return (x, y) => {
    for (let i = 0; i < CHUNK; i++) {
      const l = leftX * x[i] + leftY * y[i];
      const r = rightX * x[i] + rightY * y[i];
      x[i] = l;
      y[i] = r;
      slopeLeft[i] = rise * l;
      slopeRight[i] = rise * r;
    }
    steepLeft(slopeLeft, CHUNK);
    steepRight(slopeRight, CHUNK);
    for (let i = 0; i < CHUNK; i++) {
      const l = x[i];
      const r = y[i];
      x[i] = l + intoLeft.a * r + intoLeft.b * slopeRight[i];
      y[i] = r + intoRight.a * l + intoRight.b * slopeLeft[i];
    }
    bendLeft(x);
    bendRight(y);
    if (leads.swapped) {
      for (let i = 0; i < CHUNK; i++) {
        const l = x[i];
        x[i] = y[i];
        y[i] = l;
      }
    }
  };
}
