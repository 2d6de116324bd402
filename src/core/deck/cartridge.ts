/** The cartridge: generators turned by the tilt, leaks between them, their harmonics and gains, and the leads. */

import { bendOf } from './bend.ts';
import { generatorAxes } from './chain.ts';
import { leakage } from './leaks.ts';
import { followedWall } from './mistracking.ts';
import { slippingTip } from './slipping.ts';
import { CHUNK, type Take } from './take.ts';

/** Lateral and vertical velocity → the cartridge's two outputs in reference units (cm/s), as they reach the preamp's inputs. */
export function cartridgeChain(take: Take): (x: Float64Array, y: Float64Array) => void {
  const { cartridge, leads } = take.deck;
  const { sampleRateHz } = take;
  const reference = take.sheet.referenceVelocityCmS;
  const { leftX, leftY, rightX, rightY } = generatorAxes(cartridge.tiltDeg);

  const followLeft = followedWall(cartridge.tracksUpToCmS.left, -1, sampleRateHz);
  const followRight = followedWall(cartridge.tracksUpToCmS.right, 1, sampleRateHz);
  const slip = slippingTip(cartridge.slips, sampleRateHz);
  const leak = leakage(cartridge, sampleRateHz, CHUNK);

  const bend = (channel: 'left' | 'right') => {
    const bent = bendOf(cartridge, channel, reference, sampleRateHz);
    const gain = 10 ** (cartridge.gainDb[channel] / 20) * (leads[`${channel}Inverted`] ? -1 : 1);
    return (u: Float64Array) => {
      bent(u, CHUNK);
      for (let i = 0; i < CHUNK; i++) u[i] *= gain;
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
    }
    followLeft?.(x, CHUNK);
    followRight?.(y, CHUNK);
    slip?.(x, y, CHUNK);
    leak(x, y, CHUNK);
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
