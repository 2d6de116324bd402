/** The groove's own noises: surface, bearing, and bands of noise, as velocities that are added to the tip's. */
import { ONE, over } from '../units/complex.ts';
import { type Run, runRealised, runSection } from './filters.ts';
import { flatWeight, pinkSections, rumbleSections, shapedRms, throughRiaa } from './noise.ts';
import { type Random, random } from './random.ts';
import { matchedFirstOrder, realise, type Section } from './realise.ts';
import { RIAA, riaaPlayback } from './response.ts';
import { CHUNK, STREAM, type Take } from './take.ts';

/** A noise band: pink as RIAA playback gives it (`riaa`), or pink velocity; rms of a tone with its peak velocity at 1 kHz. */
export function bandNoise(cut: string | null, peak: number, sampleRateHz: number, seed: number, index: number) {
  const dice = random(seed, STREAM.band + index);
  const pink = pinkSections(sampleRateHz);
  const runs: Run[] = pink.map(runSection);
  if (cut !== 'constant-velocity') {
    const cutting: Section[] = [
      matchedFirstOrder(sampleRateHz, RIAA.middle, RIAA.bass),
      matchedFirstOrder(sampleRateHz, null, RIAA.treble),
    ];
    runs.push(
      runRealised(
        realise(cutting, (hz) => over(ONE, riaaPlayback(hz)), sampleRateHz),
        CHUNK,
      ),
    );
  }
  const gain = peak / Math.SQRT2 / shapedRms(pink, flatWeight, sampleRateHz, 20, 20000);
  const raw = new Float64Array(CHUNK);
  return (out: Float64Array, from: number, to: number) => {
    const count = to - from;
    dice.fillNoise(raw, count);
    for (const run of runs) run(raw, count);
    for (let i = 0; i < count; i++) out[from + i] = raw[i] * gain;
  };
}

/** Pink velocity noise of the two walls, with the correlation asked for. */
export function surfaceNoise(take: Take) {
  const { deck, sheet, sampleRateHz, seed } = take;
  const { surfaceNoiseDb, surfaceCorrelation } = deck.record;
  if (surfaceNoiseDb === null) return null;
  const pink = pinkSections(sampleRateHz);
  const gain =
    ((sheet.referenceVelocityCmS / Math.SQRT2) * 10 ** (surfaceNoiseDb / 20)) /
    shapedRms(pink, throughRiaa, sampleRateHz, 20, 20000);
  // Walls of variance 1 and correlation c: lateral (l + r)/√2 has variance 1 + c, vertical 1 − c.
  const parts = [
    { dice: random(seed, STREAM.surface), runs: pink.map(runSection), gain: gain * Math.sqrt(1 + surfaceCorrelation) },
    {
      dice: random(seed, STREAM.surfaceOther),
      runs: pink.map(runSection),
      gain: gain * Math.sqrt(1 - surfaceCorrelation),
    },
  ];
  const raw = new Float64Array(CHUNK);
  return (x: Float64Array, y: Float64Array, loud: Float64Array) => {
    parts.forEach((part, which) => {
      const out = which === 0 ? x : y;
      part.dice.fillNoise(raw, CHUNK);
      for (const run of part.runs) run(raw, CHUNK);
      for (let i = 0; i < CHUNK; i++) out[i] += raw[i] * part.gain * loud[i];
    });
  };
}

/** Bearing noise along one axis; level at the output of RIAA playback. */
export function rumbleNoise(db: number | null, reference: number, sampleRateHz: number, dice: Random) {
  if (db === null) return null;
  const sections = rumbleSections(sampleRateHz);
  const gain = ((reference / Math.SQRT2) * 10 ** (db / 20)) / shapedRms(sections, throughRiaa, sampleRateHz, 0.5, 2000);
  const runs = sections.map(runSection);
  const raw = new Float64Array(CHUNK);
  return (out: Float64Array, loud: Float64Array) => {
    dice.fillNoise(raw, CHUNK);
    for (const run of runs) run(raw, CHUNK);
    for (let i = 0; i < CHUNK; i++) if (loud[i] > 0) out[i] += raw[i] * gain;
  };
}
