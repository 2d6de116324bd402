/** From the preamplifier's inputs to finished samples: equalisation, delay, hum, noise, and the converter. */
import { polar, times } from '../units/complex.ts';
import { fullScalePerCmS } from './chain.ts';
import type { Deck } from './deck.ts';
import { runRealised } from './filters.ts';
import { flatWeight, shapedRms, throughRiaa } from './noise.ts';
import { random } from './random.ts';
import { matchedFirstOrder, matchedResonance, type Realised, realise, type Section } from './realise.ts';
import { coilAndLoad, coilResonance, cornerTau, playback, RIAA, topResonance } from './response.ts';
import { CHUNK, latencyFrames, STREAM, type Take } from './take.ts';

/** The preamp input's filter of one capture channel: equalisation, the top-end resonance of what feeds it, and its delay. */
function channelFilter(take: Take, channel: 'left' | 'right'): Realised {
  const { deck, sampleRateHz } = take;
  const source = deck.leads.swapped ? (channel === 'left' ? 'right' : 'left') : channel;
  const top = deck.cartridge.topResonance[source];
  const { equalisation: kind, lowCornerHz } = deck.preamp;
  const delayS = channel === 'right' ? deck.preamp.rightDelayUs * 1e-6 : 0;
  const sections: Section[] = [];
  if (kind !== 'flat') {
    sections.push(matchedFirstOrder(sampleRateHz, RIAA.bass, RIAA.middle));
    sections.push(matchedFirstOrder(sampleRateHz, RIAA.treble, null));
  }
  if (kind === 'riaa-7950') sections.push(matchedFirstOrder(sampleRateHz, RIAA.highPass, Number.POSITIVE_INFINITY));
  if (lowCornerHz !== null)
    sections.push(matchedFirstOrder(sampleRateHz, cornerTau(lowCornerHz), Number.POSITIVE_INFINITY));
  if (top !== null && top.hz < 0.45 * sampleRateHz) sections.push(matchedResonance(sampleRateHz, top.hz, top.q));
  const coil = coilResonance(deck);
  if (coil !== null && coil.hz < 0.45 * sampleRateHz) sections.push(matchedResonance(sampleRateHz, coil.hz, coil.q));
  const feeding = (hz: number) => times(topResonance(top, hz), coilAndLoad(deck, hz));
  return realise(
    sections,
    (hz) => times(times(playback(deck.preamp, hz), feeding(hz)), polar(1, -2 * Math.PI * hz * delayS)),
    sampleRateHz,
  );
}

/** From the preamp's inputs to finished samples. */
export function preampChain(take: Take): (left: Float64Array, right: Float64Array) => void {
  const channel = (name: 'left' | 'right') => {
    const { deck, sheet, sampleRateHz, seed, fromS } = take;
    const { preamp, converter } = deck;
    const filter = runRealised(channelFilter(take, name), CHUNK);
    const gain = fullScalePerCmS(deck, sheet.referenceVelocityCmS) * 10 ** (preamp.gainDb[name] / 20);
    const dice = random(seed, name === 'left' ? STREAM.inputLeft : STREAM.inputRight);
    const rmsOut = 10 ** ((converter.referenceDbfs + (preamp.noiseDb ?? 0)) / 20) / Math.SQRT2;
    const weight = preamp.equalisation === 'flat' ? flatWeight : throughRiaa;
    const hiss = preamp.noiseDb === null ? 0 : rmsOut / shapedRms([], weight, sampleRateHz, 20, 20000);
    const raw = new Float64Array(CHUNK);
    const linesOf = (hum: Deck['preamp']['hum'], onAtS: number, offAtS: number) =>
      hum.map((line) => ({
        onAtS,
        offAtS,
        omega: 2 * Math.PI * preamp.mainsHz * line.harmonic,
        phase: ((name === 'left' ? line.leftPhaseDeg : line.rightPhaseDeg) * Math.PI) / 180,
        size: 10 ** ((converter.referenceDbfs + (name === 'left' ? line.leftDb : line.rightDb)) / 20),
      }));
    const lines = [
      ...linesOf(preamp.hum, 0, Number.POSITIVE_INFINITY),
      ...linesOf(preamp.motorHum, preamp.motorOnAtS, preamp.motorOffAtS ?? Number.POSITIVE_INFINITY),
    ];
    const offset = converter.offsetPercent[name] / 100;
    const ditherDice = random(seed, name === 'left' ? STREAM.ditherLeft : STREAM.ditherRight);
    const clip = 10 ** (converter.clipDbfs / 20);
    const steps = converter.bits === 'float' ? 0 : 2 ** (converter.bits - 1);
    let frame = -latencyFrames(sampleRateHz);
    return (u: Float64Array) => {
      if (hiss > 0) dice.fillNoise(raw, CHUNK);
      for (let i = 0; i < CHUNK; i++) u[i] = gain * u[i] + hiss * raw[i];
      filter(u, CHUNK);
      for (const line of lines) addLine(u, line, fromS + frame / sampleRateHz, sampleRateHz);
      if (converter.dither && steps > 0) ditherDice.fillTriangular(raw, CHUNK);
      else raw.fill(0);
      for (let i = 0; i < CHUNK; i++) {
        const v = Math.min(clip, Math.max(-clip, u[i] + offset));
        u[i] =
          steps === 0 ? Math.fround(v) : Math.min(steps - 1, Math.max(-steps, Math.round(v * steps + raw[i]))) / steps;
      }
      frame += CHUNK;
    };
  };
  const left = channel('left');
  const right = channel('right');
  return (l, r) => {
    left(l);
    right(r);
  };
}

interface Line {
  readonly omega: number;
  readonly phase: number;
  readonly size: number;
  /** s of the whole take; before and after there is none of it */
  readonly onAtS: number;
  readonly offAtS: number;
}

/** Adds size·cos(ωt + φ) from `startS` on; the rotation is renewed every chunk, so that it cannot drift. */
function addLine(u: Float64Array, line: Line, startS: number, sampleRateHz: number): void {
  const { omega, phase, size, onAtS, offAtS } = line;
  let re = size * Math.cos(omega * startS + phase);
  let im = size * Math.sin(omega * startS + phase);
  const cos = Math.cos(omega / sampleRateHz);
  const sin = Math.sin(omega / sampleRateHz);
  const from = (onAtS - startS) * sampleRateHz;
  const to = (offAtS - startS) * sampleRateHz;
  for (let i = 0; i < CHUNK; i++) {
    if (i >= from && i < to) u[i] += re;
    const next = re * cos - im * sin;
    im = re * sin + im * cos;
    re = next;
  }
}
