/** Knocks of the tip: dust and scratches at random moments, and the tip's own drop and lift. */
import { type Random, random } from './random.ts';
import { CHUNK, captureStart, STREAM, type Take } from './take.ts';

interface Click {
  /** s of the whole take */
  readonly atS: number;
  /** peak velocity, cm/s, and the direction: 0 all left wall, π/2 all right wall */
  readonly velocity: number;
  readonly direction: number;
  /** s */
  readonly decay: number;
}

/** Poisson in time; size log-normal (7 dB) about the middling one; decay 30 to 150 µs. */
function* clickTrain(dice: Random, perMinute: number, velocity: number): Generator<Click, void, void> {
  if (perMinute === 0) return;
  const size = new Float64Array(1);
  for (let atS = 0; ; ) {
    atS -= (Math.log(1 - dice.uniform()) * 60) / perMinute;
    dice.fillNoise(size, 1);
    yield {
      atS,
      velocity: velocity * Math.exp(0.8 * size[0]) * (dice.uniform() < 0.5 ? -1 : 1),
      direction: 2 * Math.PI * dice.uniform(),
      decay: 30e-6 + 120e-6 * dice.uniform(),
    };
  }
}

/** Velocity of a knock: (1 − t/T) e^(−t/T), so that the tip comes back to where it was. */
const knock = (t: number, decay: number): number => (t < 0 ? 0 : (1 - t / decay) * Math.exp(-t / decay));
/** after this many decays a knock is over (below 1e-6) */
const KNOCK_DECAYS = 18;

/** Clicks of the whole take, as they fall. */
export function clickNoise(take: Take) {
  const { deck, sheet, sampleRateHz, seed, fromS } = take;
  if (deck.record.clicksPerMinute === 0) return null;
  const velocity = sheet.referenceVelocityCmS * 10 ** (deck.record.clickDb / 20);
  const train = clickTrain(random(seed, STREAM.clicks), deck.record.clicksPerMinute, velocity);
  let next: Click | null = train.next().value ?? null;
  let sounding: Click[] = [];
  return (x: Float64Array, y: Float64Array, loud: Float64Array, startS: number) => {
    const endS = startS + CHUNK / sampleRateHz;
    while (next !== null && next.atS < endS) {
      if (next.atS >= fromS) sounding.push(next);
      next = train.next().value ?? null;
    }
    for (const click of sounding) {
      const l = Math.cos(click.direction) * click.velocity;
      const r = Math.sin(click.direction) * click.velocity;
      const from = Math.max(0, Math.ceil((click.atS - startS) * sampleRateHz));
      const to = Math.min(CHUNK, Math.ceil((click.atS + KNOCK_DECAYS * click.decay - startS) * sampleRateHz));
      for (let i = from; i < to; i++) {
        if (loud[i] === 0) continue;
        const v = knock(startS + i / sampleRateHz - click.atS, click.decay) * Math.SQRT1_2;
        x[i] += v * (l + r);
        y[i] += v * (l - r);
      }
    }
    sounding = sounding.filter((click) => click.atS + KNOCK_DECAYS * click.decay > endS);
  };
}

/** Needle down and (half as strong) up: a 22 Hz knock that dies in 80 ms, mostly vertical. */
export function needleThump(take: Take) {
  const { deck, sheet, sampleRateHz, dropAtS, liftAtS } = take;
  const db = deck.record.thumpDb;
  if (db === null) return null;
  const size = sheet.referenceVelocityCmS * 10 ** (db / 20);
  return (x: Float64Array, y: Float64Array, startS: number) => {
    for (const [atS, strength] of [
      [dropAtS, size],
      [liftAtS, size / 2],
    ]) {
      if (startS > atS + 2 || startS + CHUNK / sampleRateHz < atS) continue;
      for (let i = 0; i < CHUNK; i++) {
        const t = startS + i / sampleRateHz - atS;
        if (t < 0) continue;
        const v = strength * Math.exp(-t / 0.08) * Math.sin(2 * Math.PI * 22 * t);
        y[i] += v;
        x[i] += 0.3 * v;
      }
    }
  };
}

/** The tip takes this long to find the bottom of its groove, s: far shorter than the arm's own period. */
const SETTLE_S = 0.004;

/** The tip falls beside its groove and settles in it: a step of its place against the arm, on which the arm rings down. */
export function dropStep(take: Take) {
  const { deck, sampleRateHz, dropAtS } = take;
  const { lateral, vertical } = deck.arm.dropUm;
  if (lateral === 0 && vertical === 0) return null;
  return (x: Float64Array, y: Float64Array, startS: number) => {
    const from = Math.max(0, Math.ceil((dropAtS - startS) * sampleRateHz));
    const to = Math.min(CHUNK, Math.ceil((dropAtS + SETTLE_S - startS) * sampleRateHz));
    for (let i = from; i < to; i++) {
      // the whole way in a raised cosine, cm/s: from beside (and above) the groove to where it rides
      const t = (startS + i / sampleRateHz - dropAtS) / SETTLE_S;
      const share = (1 - Math.cos(2 * Math.PI * t)) / SETTLE_S;
      x[i] -= lateral * 1e-4 * share;
      y[i] -= vertical * 1e-4 * share;
    }
  };
}

/** When the clicks in the groove fall, s from the capture's first frame. */
export function clickTimes(take: Take, most: number): number[] {
  const { deck, seed, sampleRateHz, frames, dropAtS, liftAtS } = take;
  const captureS = captureStart(take);
  const times: number[] = [];
  for (const { atS } of clickTrain(random(seed, STREAM.clicks), deck.record.clicksPerMinute, 1)) {
    const inCapture = atS - captureS;
    if (atS >= liftAtS || inCapture >= frames / sampleRateHz || times.length >= most) break;
    if (atS >= dropAtS && inCapture >= 0) times.push(inCapture);
  }
  return times;
}
