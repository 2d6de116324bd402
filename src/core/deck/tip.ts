/** The tip in the groove: what is cut, what the record and the bearing add, and the arm that carries it. */
import { armCarry, type Carried } from './carry.ts';
import { highPassSection, type Run, runSection } from './filters.ts';
import { peakVelocity, wallsOf } from './groove.ts';
import { chunkParts, groundMotion } from './ground.ts';
import { bandNoise } from './hiss.ts';
import { grooveClock } from './speed.ts';
import { discSwing } from './swing.ts';
import { CHUNK, type Take } from './take.ts';
import { bandReader } from './tipReading.ts';
import { readingAt } from './tracking.ts';

/** Lateral and vertical velocity of the tip against the arm, cm/s, written over `x` and `y`. */
export function tipMotion(take: Take): (x: Float64Array, y: Float64Array) => void {
  const { deck, sheet, side, speed, sampleRateHz, seed, fromS } = take;
  const clock = grooveClock(speed, sampleRateHz, fromS);
  const tau = new Float64Array(CHUNK);
  const rate = new Float64Array(CHUNK);
  const along = new Float64Array(CHUNK);
  const tip = { left: 0, right: 0 };
  const fadeS = deck.side.fadeMs / 1000;

  const plans = side.stretches.map((stretch) => {
    const band = sheet.bands[stretch.band];
    if (band === undefined) return null;
    const walls = wallsOf(deck, sheet, band);
    const read = bandReader(deck, sheet, band, readingAt(deck, sheet, stretch.radiusMm));
    const noise =
      band.signal === 'noise' ? bandNoise(band.cut, peakVelocity(band), sampleRateHz, seed, stretch.band) : null;
    return { walls, read, noise };
  });

  const ground = groundMotion(take);
  const lay = chunkParts(take);
  const arms: (Run | null)[] = [deck.arm.lateralResonance, deck.arm.verticalResonance].map((of) =>
    of === null ? null : runSection(highPassSection(sampleRateHz, of.hz, of.q)),
  );
  const swing = discSwing(take);
  const loud = new Float64Array(CHUNK);
  const carry = armCarry(take);
  const still = { shift: new Float64Array(CHUNK), rate: new Float64Array(CHUNK) };
  const disc = { x: new Float64Array(CHUNK), y: new Float64Array(CHUNK) };
  const own = { x: new Float64Array(CHUNK), y: new Float64Array(CHUNK) };
  const all = { x: new Float64Array(CHUNK), y: new Float64Array(CHUNK) };
  let frame = 0;

  return (x, y) => {
    clock.fill(tau, rate, CHUNK);
    x.fill(0);
    y.fill(0);
    const startS = fromS + frame / sampleRateHz;
    const parts = lay(tau, loud);
    let carried: Carried = still;
    if (carry !== null) {
      for (const of of [disc.x, disc.y, own.x, own.y]) of.fill(0);
      ground.hiss(own.x, own.y, loud);
      ground.knocks(own.x, own.y, loud, startS);
      swing?.(disc.x, disc.y, tau, rate, loud);
      for (let i = 0; i < CHUNK; i++) {
        all.x[i] = own.x[i] + disc.x[i];
        all.y[i] = own.y[i] + disc.y[i];
      }
      carried = carry(own, all, tau, loud);
    }
    const { shift, rate: swayed } = carried;
    for (const { from, to, stretch: which } of parts) {
      const plan = plans[which];
      if (plan === null) continue;
      const stretch = side.stretches[which];
      const { read, noise, walls } = plan;
      if (read !== null) {
        const length = stretch.endS - stretch.startS;
        const fade = Math.min(fadeS, length / 2);
        for (let k = from; k < to; k++) {
          const u = tau[k] + shift[k] - stretch.startS;
          const edge = Math.min(u, length - u);
          if (edge <= 0) continue;
          read(u, edge >= fade ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * edge) / fade), tip);
          const passing = rate[k] + swayed[k];
          x[k] = (tip.left + tip.right) * Math.SQRT1_2 * passing;
          y[k] = (tip.left - tip.right) * Math.SQRT1_2 * passing;
        }
      } else if (noise !== null) {
        noise(along, from, to);
        for (let k = from; k < to; k++) {
          x[k] = along[k] * (walls.left.re + walls.right.re) * Math.SQRT1_2;
          y[k] = along[k] * (walls.left.re - walls.right.re) * Math.SQRT1_2;
        }
      }
    }
    if (carry === null) {
      ground.hiss(x, y, loud);
      swing?.(x, y, tau, rate, loud);
      ground.knocks(x, y, loud, startS);
    } else {
      for (let i = 0; i < CHUNK; i++) {
        x[i] += all.x[i];
        y[i] += all.y[i];
      }
    }
    arms[0]?.(x, CHUNK);
    arms[1]?.(y, CHUNK);
    frame += CHUNK;
  };
}
