/** The tip in the groove: what is cut, what the record and the bearing add, and the arm that carries it. */
import { highPassSection, type Run, runSection } from './filters.ts';
import { peakVelocity, wallsOf } from './groove.ts';
import { bandNoise, rumbleNoise, surfaceNoise } from './hiss.ts';
import { clickNoise, dropStep, needleThump } from './knocks.ts';
import { random } from './random.ts';
import { grooveClock } from './speed.ts';
import { discSwing } from './swing.ts';
import { CHUNK, STREAM, type Take } from './take.ts';
import { bandReader } from './tipReading.ts';
import { readingAt } from './tracking.ts';

/** Lateral and vertical velocity of the tip against the arm, cm/s, written over `x` and `y`. */
export function tipMotion(take: Take): (x: Float64Array, y: Float64Array) => void {
  const { deck, sheet, side, speed, sampleRateHz, seed, fromS } = take;
  const reference = sheet.referenceVelocityCmS;
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

  const surface = surfaceNoise(take);
  const rumble = [
    rumbleNoise(deck.bearing.rumbleLateralDb, reference, sampleRateHz, random(seed, STREAM.rumbleLateral)),
    rumbleNoise(deck.bearing.rumbleVerticalDb, reference, sampleRateHz, random(seed, STREAM.rumbleVertical)),
  ];
  const arms: (Run | null)[] = [deck.arm.lateralResonance, deck.arm.verticalResonance].map((of) =>
    of === null ? null : runSection(highPassSection(sampleRateHz, of.hz, of.q)),
  );
  const swing = discSwing(take);
  const thump = needleThump(take);
  const drop = dropStep(take);
  const clicks = clickNoise(take);
  const loud = new Float64Array(CHUNK);
  let at = 0;
  let frame = 0;

  return (x, y) => {
    clock.fill(tau, rate, CHUNK);
    x.fill(0);
    y.fill(0);
    for (let i = 0; i < CHUNK; ) {
      while (at < side.stretches.length - 1 && tau[i] >= side.stretches[at].endS) at++;
      const stretch = side.stretches[at];
      let to = i + 1;
      if (at === side.stretches.length - 1 || tau[CHUNK - 1] < stretch.endS) to = CHUNK;
      else while (to < CHUNK && tau[to] < stretch.endS) to++;
      const quiet = stretch.kind === 'air' || stretch.kind === 'lifted' || tau[i] >= side.endS;
      const rough = stretch.kind === 'lead-in' || stretch.kind === 'lead-out';
      loud.fill(quiet ? 0 : rough ? 10 ** (deck.record.leadNoiseDb / 20) : 1, i, to);
      const plan = plans[at];
      if (plan !== null) {
        const { read, noise, walls } = plan;
        if (read !== null) {
          const length = stretch.endS - stretch.startS;
          const fade = Math.min(fadeS, length / 2);
          for (let k = i; k < to; k++) {
            const u = tau[k] - stretch.startS;
            const edge = Math.min(u, length - u);
            if (edge <= 0) continue;
            read(u, edge >= fade ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * edge) / fade), tip);
            x[k] = (tip.left + tip.right) * Math.SQRT1_2 * rate[k];
            y[k] = (tip.left - tip.right) * Math.SQRT1_2 * rate[k];
          }
        } else if (noise !== null) {
          noise(along, i, to);
          for (let k = i; k < to; k++) {
            x[k] = along[k] * (walls.left.re + walls.right.re) * Math.SQRT1_2;
            y[k] = along[k] * (walls.left.re - walls.right.re) * Math.SQRT1_2;
          }
        }
      }
      i = to;
    }
    surface?.(x, y, loud);
    rumble.forEach((add, which) => {
      add?.(which === 0 ? x : y, loud);
    });
    swing?.(x, y, tau, rate, loud);
    const startS = fromS + frame / sampleRateHz;
    thump?.(x, y, startS);
    drop?.(x, y, startS);
    clicks?.(x, y, loud, startS);
    arms[0]?.(x, CHUNK);
    arms[1]?.(y, CHUNK);
    frame += CHUNK;
  };
}
