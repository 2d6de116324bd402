/**
 * Plays a side on a virtual deck: groove → tip → arm → cartridge → leads → preamplifier → converter, as a stream of
 * blocks whose memory does not grow with the side, and the truth about it.
 */
import { type Click, clickTrain, KNOCK_DECAYS, knock } from './clicks.ts';
import type { Deck, DeckFile } from './deck.ts';
import { readDeck } from './deck.ts';
import { highPassFirstOrder, highPassSection, type Run, runRealised, runSection } from './filters.ts';
import {
  axisOf,
  checkShift,
  grooveSpeedCmS,
  peakVelocity,
  readBand,
  readingShift,
  type Waveform,
  waveformOf,
} from './groove.ts';
import { flatWeight, pinkSections, rumbleSections, shapedRms, throughRiaa } from './noise.ts';
import { type Random, random } from './random.ts';
import {
  FIR_DELAY,
  matchedFirstOrder,
  matchedResonance,
  type Realised,
  realise,
  type Section,
  sectionsAt,
} from './realise.ts';
import {
  equalisation,
  LEAK_CORNER_HZ,
  leakParts,
  ONE,
  over,
  polar,
  RIAA,
  riaaPlayback,
  times,
  topResonance,
} from './response.ts';
import { readSheet, type Sheet, type SheetFile } from './sheet.ts';
import { layOut, type Side } from './side.ts';
import { grooveClock, type SpeedModel, speedModel, timesOf } from './speed.ts';
import { readingAngles } from './tracking.ts';
import { type Truth, truthOf } from './truth.ts';

export interface SimulateOptions {
  /** Hz, 8000 to 384000 */
  readonly sampleRateHz: number;
  /** integer, 0 to 2³² − 1 */
  readonly seed: number;
}

export interface CaptureBlock {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly frames: number;
}

export interface Simulation {
  readonly truth: Truth;
  readonly deck: Deck;
  readonly frames: number;
  readonly sampleRateHz: number;
  /**
   * The capture from its first frame, full scale ±1, already rounded to the converter's steps. Every call starts anew; the
   * arrays are used again for the next block.
   * @param blockFrames frames in each block but the last, default 16384
   */
  blocks(blockFrames?: number): Generator<CaptureBlock, void, void>;
}

/** Frames worked on at a time; the random numbers are drawn in this rhythm, whatever the caller's block is. */
const CHUNK = 2048;
/** A capture that starts in mid-side finds the filters settled: so much is played before it and dropped, s. */
const PREROLL_S = 0.5;

/**
 * @param deckFile faults, as in `*.deck.json`
 * @param sheetFile what is cut, as in `*.record.json`
 * @throws RangeError naming what is wrong with the deck, the sheet or the options
 */
export function simulateSide(
  deckFile: DeckFile | unknown,
  sheetFile: SheetFile | unknown,
  options: SimulateOptions,
): Simulation {
  const { sampleRateHz, seed } = options;
  if (!(sampleRateHz >= 8000 && sampleRateHz <= 384000)) {
    throw new RangeError(`sampleRateHz: ${sampleRateHz} given, expected a number from 8000 to 384000`);
  }
  random(seed, 0); // refuses a seed that is not one
  const deck = readDeck(deckFile);
  const sheet = readSheet(sheetFile);
  const side = layOut(sheet, deck.side);
  const speed = speedModel(deck, side, seed);
  sheet.bands.forEach((band, index) => {
    const top = band.toHz ?? band.frequencyHz ?? 0;
    if (!(Math.max(top, band.fromHz ?? 0, ...(band.frequenciesHz ?? [])) < sampleRateHz / 2)) {
      throw new RangeError(
        `bands[${index}]: its highest frequency does not fit the sample rate of ${sampleRateHz} Hz; expected less than ${sampleRateHz / 2} Hz`,
      );
    }
  });
  const [dropAtS, liftAtS, endAtS] = timesOf(speed, [side.dropS, side.liftS, side.endS]);
  const fromS = deck.side.captureFromS;
  const toS = Math.min(endAtS, deck.side.captureToS ?? endAtS);
  if (!(toS - fromS >= 0.01)) {
    throw new RangeError(
      `side.captureFromS: ${fromS} given, expected less than the take's end at ${toS.toFixed(2)} s by 0.01 s or more`,
    );
  }
  const frames = Math.floor((toS - fromS) * sampleRateHz);
  const prerollFrames = Math.floor(Math.min(fromS, PREROLL_S) * sampleRateHz);
  const take: Take = {
    deck,
    sheet,
    side,
    speed,
    sampleRateHz,
    seed,
    fromS: fromS - prerollFrames / sampleRateHz,
    prerollFrames,
    frames,
    dropAtS,
    liftAtS,
  };
  return {
    truth: truthOf(take),
    deck,
    frames,
    sampleRateHz,
    *blocks(blockFrames = 16384) {
      if (!(Number.isInteger(blockFrames) && blockFrames >= 1)) {
        throw new RangeError(`blockFrames: ${blockFrames} given, expected an integer of 1 or more`);
      }
      const left = new Float64Array(blockFrames);
      const right = new Float64Array(blockFrames);
      const play = player(take);
      let filled = 0;
      for (let done = 0; done < frames; ) {
        const { left: l, right: r, from, to } = play();
        for (let i = from; i < to && done < frames; i++) {
          left[filled] = l[i];
          right[filled] = r[i];
          done++;
          if (++filled === blockFrames) {
            yield { left, right, frames: filled };
            filled = 0;
          }
        }
      }
      if (filled > 0) yield { left, right, frames: filled };
    },
  };
}

/** Everything that one take is made of. */
export interface Take {
  readonly deck: Deck;
  readonly sheet: Sheet;
  readonly side: Side;
  readonly speed: SpeedModel;
  readonly sampleRateHz: number;
  readonly seed: number;
  /** s of the whole take at the first frame that is played */
  readonly fromS: number;
  /** frames played before the capture's first */
  readonly prerollFrames: number;
  readonly frames: number;
  readonly dropAtS: number;
  readonly liftAtS: number;
}

/** One chunk of finished samples; frames `from` up to `to` are valid. */
interface Chunk {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly from: number;
  readonly to: number;
}

/** Streams of random numbers; 1 belongs to the drift of the speed. */
const STREAM = {
  surface: 2,
  surfaceOther: 3,
  rumbleX: 4,
  rumbleY: 5,
  inputL: 6,
  inputR: 7,
  ditherL: 8,
  ditherR: 9,
  clicks: 10,
  band: 11,
};

function player(take: Take): () => Chunk {
  const groove = tipMotion(take);
  const cartridge = cartridgeChain(take);
  const preamp = preampChain(take);
  const left = new Float64Array(CHUNK);
  const right = new Float64Array(CHUNK);
  // The filters are late by FIR_DELAY: with that much dropped what remains is in step with the groove's clock.
  let toDrop = FIR_DELAY + take.prerollFrames;
  return () => {
    groove(left, right);
    cartridge(left, right);
    preamp(left, right);
    const from = Math.min(CHUNK, toDrop);
    toDrop -= from;
    return { left, right, from, to: CHUNK };
  };
}

/** Lateral and vertical velocity of the tip against the arm, cm/s, written over `x` and `y`. */
function tipMotion(take: Take): (x: Float64Array, y: Float64Array) => void {
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
    const kappa = readingShift(
      axis,
      readingAngles(deck, sheet, stretch.radiusMm),
      grooveSpeedCmS(side.rpm, stretch.radiusMm),
    );
    const waveform: Waveform | null = waveformOf(band);
    if (waveform !== null) checkShift(kappa, band, stretch.band);
    const noise =
      band.signal === 'noise' ? bandNoise(band.cut, peakVelocity(band), sampleRateHz, seed, stretch.band) : null;
    return { axis, kappa, waveform, noise };
  });

  const surface = surfaceNoise(take);
  const rumble = [
    rumbleNoise(deck.bearing.rumbleLateralDb, reference, sampleRateHz, random(seed, STREAM.rumbleX)),
    rumbleNoise(deck.bearing.rumbleVerticalDb, reference, sampleRateHz, random(seed, STREAM.rumbleY)),
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

/** A noise band: pink as RIAA playback gives it (`riaa`), or pink velocity; rms of a tone with its peak velocity at 1 kHz. */
function bandNoise(cut: string | null, peak: number, sampleRateHz: number, seed: number, index: number) {
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
function surfaceNoise(take: Take) {
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

function rumbleNoise(db: number | null, reference: number, sampleRateHz: number, dice: Random) {
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

/**
 * Warp (vertical) and the off-centre hole's sideways swing, both once a turn or a multiple of it; with no arm resonance
 * given the arm follows them perfectly. The platter's angle is taken without the hole's own share (e/r of a radian).
 */
function discSwing(take: Take) {
  const { deck, speed } = take;
  const omega = speed.turning / speed.mean;
  const warps = deck.arm.verticalResonance === null ? [] : deck.record.warp;
  const hole = deck.arm.lateralResonance === null ? 0 : speed.offCentre / 10;
  if (warps.length === 0 && hole === 0) return null;
  return (x: Float64Array, y: Float64Array, tau: Float64Array, rate: Float64Array, loud: Float64Array) => {
    for (let i = 0; i < CHUNK; i++) {
      if (loud[i] === 0) continue;
      const angle = speed.startAngle + omega * tau[i];
      x[i] -= hole * omega * rate[i] * Math.sin(angle - speed.offCentreAngle);
      for (const { harmonic, mm, phaseDeg } of warps) {
        y[i] -= (mm / 10) * harmonic * omega * rate[i] * Math.sin(harmonic * angle + (phaseDeg * Math.PI) / 180);
      }
    }
  };
}

/** Needle down and (half as strong) up: a 22 Hz knock that dies in 80 ms, mostly vertical. */
function needleThump(take: Take) {
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

function clickNoise(take: Take) {
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

/** Lateral and vertical velocity → the cartridge's two outputs in reference units (cm/s), as they reach the preamp's inputs. */
function cartridgeChain(take: Take): (x: Float64Array, y: Float64Array) => void {
  const { cartridge, leads } = take.deck;
  const { sampleRateHz } = take;
  const reference = take.sheet.referenceVelocityCmS;
  const phi = (cartridge.tiltDeg * Math.PI) / 180;
  // Generator axes, turned clockwise by φ: left along `/`, right along `\`.
  const leftX = Math.cos(Math.PI / 4 - phi);
  const leftY = Math.sin(Math.PI / 4 - phi);
  const rightX = Math.cos(Math.PI / 4 + phi);
  const rightY = -Math.sin(Math.PI / 4 + phi);

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

/** The preamp input's filter of one capture channel: equalisation, the top-end resonance of what feeds it, and its delay. */
export function channelFilter(take: Take, channel: 'left' | 'right'): Realised {
  const { deck, sampleRateHz } = take;
  const source = deck.leads.swapped ? (channel === 'left' ? 'right' : 'left') : channel;
  const top = deck.cartridge.topResonance[source];
  const kind = deck.preamp.equalisation;
  const delayS = channel === 'right' ? deck.preamp.rightDelayUs * 1e-6 : 0;
  const sections: Section[] = [];
  if (kind !== 'flat') {
    sections.push(matchedFirstOrder(sampleRateHz, RIAA.bass, RIAA.middle));
    sections.push(matchedFirstOrder(sampleRateHz, RIAA.treble, null));
  }
  if (kind === 'riaa-7950') sections.push(matchedFirstOrder(sampleRateHz, RIAA.highPass, Number.POSITIVE_INFINITY));
  if (top !== null && top.hz < 0.45 * sampleRateHz) sections.push(matchedResonance(sampleRateHz, top.hz, top.q));
  return realise(
    sections,
    (hz) => times(times(equalisation(kind, hz), topResonance(top, hz)), polar(1, -2 * Math.PI * hz * delayS)),
    sampleRateHz,
  );
}

/** From the preamp's inputs to finished samples. */
function preampChain(take: Take): (left: Float64Array, right: Float64Array) => void {
  const channel = (name: 'left' | 'right') => {
    const { deck, sheet, sampleRateHz, seed, fromS } = take;
    const { preamp, converter } = deck;
    const filter = runRealised(channelFilter(take, name), CHUNK);
    const perCmS = 10 ** (converter.referenceDbfs / 20) / sheet.referenceVelocityCmS;
    const gain = perCmS * 10 ** (preamp.gainDb[name] / 20);
    const dice = random(seed, name === 'left' ? STREAM.inputL : STREAM.inputR);
    const rmsOut = 10 ** ((converter.referenceDbfs + (preamp.noiseDb ?? 0)) / 20) / Math.SQRT2;
    const weight = preamp.equalisation === 'flat' ? flatWeight : throughRiaa;
    const hiss = preamp.noiseDb === null ? 0 : rmsOut / shapedRms([], weight, sampleRateHz, 20, 20000);
    const raw = new Float64Array(CHUNK);
    const lines = preamp.hum.map((line) => ({
      omega: 2 * Math.PI * preamp.mainsHz * line.harmonic,
      phase: ((name === 'left' ? line.leftPhaseDeg : line.rightPhaseDeg) * Math.PI) / 180,
      size: 10 ** ((converter.referenceDbfs + (name === 'left' ? line.leftDb : line.rightDb)) / 20),
    }));
    const offset = converter.offsetPercent[name] / 100;
    const ditherDice = random(seed, name === 'left' ? STREAM.ditherL : STREAM.ditherR);
    const clip = 10 ** (converter.clipDbfs / 20);
    const steps = converter.bits === 'float' ? 0 : 2 ** (converter.bits - 1);
    let frame = -FIR_DELAY;
    return (u: Float64Array) => {
      if (hiss > 0) dice.fillNoise(raw, CHUNK);
      for (let i = 0; i < CHUNK; i++) u[i] = gain * u[i] + hiss * raw[i];
      filter(u, CHUNK);
      for (const { omega, phase, size } of lines)
        addLine(u, omega, phase, size, fromS + frame / sampleRateHz, sampleRateHz);
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

/** Adds size·cos(ωt + φ) from `startS` on; the rotation is renewed every chunk, so that it cannot drift. */
function addLine(
  u: Float64Array,
  omega: number,
  phase: number,
  size: number,
  startS: number,
  sampleRateHz: number,
): void {
  let re = size * Math.cos(omega * startS + phase);
  let im = size * Math.sin(omega * startS + phase);
  const cos = Math.cos(omega / sampleRateHz);
  const sin = Math.sin(omega / sampleRateHz);
  for (let i = 0; i < CHUNK; i++) {
    u[i] += re;
    const next = re * cos - im * sin;
    im = re * sin + im * cos;
    re = next;
  }
}
