/** The tip in the groove: what is cut, what the record and the bearing add, and the arm that carries it. */
import { highPassSection, type Run, runSection } from './filters.ts';
import { axisOf, peakVelocity, readBand, waveformOf } from './groove.ts';
import { bandNoise, rumbleNoise, surfaceNoise } from './hiss.ts';
import { clickNoise, needleThump } from './knocks.ts';
import { random } from './random.ts';
import { grooveClock } from './speed.ts';
import { discSwing } from './swing.ts';
import { CHUNK, STREAM, type Take } from './take.ts';
import { bandShift } from './tracking.ts';

/** Lateral and vertical velocity of the tip against the arm, cm/s, written over `x` and `y`. */
export function tipMotion(take: Take): (x: Float64Array, y: Float64Array) => void {
  const { deck, sheet, side, speed, sampleRateHz, seed, fromS } = take;
  const reference = sheet.referenceVelocityCmS;
  const clock = grooveClock(speed, sampleRateHz, fromS);
  const tau = new Float64Array(CHUNK);
  const rate = new Float64Array(CHUNK);
  const along = new Float64Array(CHUNK);
  const fadeS = deck.side.fadeMs / 1000;

  const plans = side.stretches.map((stretch) => {
    const band = sheet.bands[stretch.band];
    if (band === undefined) return null;
    const axis = axisOf(band, sheet);
    const kappa = bandShift(deck, sheet, band, stretch.radiusMm);
    const waveform = waveformOf(band);
    const noise =
      band.signal === 'noise' ? bandNoise(band.cut, peakVelocity(band), sampleRateHz, seed, stretch.band) : null;
    return { axis, kappa, waveform, noise };
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
        const length = stretch.endS - stretch.startS;
        if (plan.waveform !== null) {
          readBand(plan.waveform, plan.kappa, stretch.startS, length, fadeS, tau, rate, i, to, along);
        } else if (plan.noise !== null) {
          plan.noise(along, i, to);
        }
        if (plan.waveform !== null || plan.noise !== null) {
          for (let k = i; k < to; k++) {
            x[k] = along[k] * plan.axis.x;
            y[k] = along[k] * plan.axis.y;
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
    clicks?.(x, y, loud, startS);
    arms[0]?.(x, CHUNK);
    arms[1]?.(y, CHUNK);
    frame += CHUNK;
  };
}
