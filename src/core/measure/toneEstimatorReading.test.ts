/** What a tone's reading holds, and what it holds while the tone plays. */
import { describe, expect, it } from 'vitest';
import { atOnce } from '../signal/steps.ts';
import { ToneMixer } from '../signal/toneMixer.ts';
import { FlutterAnalysis } from './flutter.ts';
import { flutterLinesInSteps } from './flutterLines.ts';
import { spectrumPoints } from './flutterPoints.ts';
import { HarmonicEstimator } from './harmonics.ts';
import { swayMixHz, swaySpectraInSteps } from './swaySpectra.ts';
import { thinned } from './thinTrace.ts';
import { ToneEstimator, type ToneReading } from './toneEstimator.ts';
import type { ToneSettings } from './toneKind.ts';
import { readSegment } from './toneSegment.ts';

const RATE_HZ = 8000;
function sound(lengthS: number, hz = 1000): { left: Float64Array; right: Float64Array } {
  let seed = 9;
  const left = Float64Array.from({ length: Math.round(lengthS * RATE_HZ) }, (_, n) => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    const t = n / RATE_HZ;
    const phase = 2 * Math.PI * hz * t + Math.sin(2 * Math.PI * 0.555 * t) + 0.02 * Math.sin(2 * Math.PI * 9 * t);
    return 0.3 * Math.sin(phase) + 0.003 * Math.sin(2 * phase) + (seed / 2 ** 32 - 0.5) * 1e-3;
  });
  return { left, right: left.map((v) => v / 50) };
}
const settings = (more: Partial<ToneSettings> = {}): ToneSettings => ({
  frequencyHz: 1000,
  driven: 'left',
  withFlutter: true,
  withHarmonics: false,
  ...more,
});
function heard(lengthS: number, more: Partial<ToneSettings> = {}, hz = 1000) {
  const listening = new ToneEstimator(RATE_HZ, settings(more));
  const { left, right } = sound(lengthS, hz);
  for (let at = 0; at < left.length; at += 4000)
    listening.push({
      startFrame: at,
      frames: Math.min(4000, left.length - at),
      left: left.subarray(at, at + 4000),
      right: right.subarray(at, at + 4000),
    });
  return listening;
}
function read(lengthS: number, more: Partial<ToneSettings> = {}, hz = 1000): ToneReading {
  const listening = heard(lengthS, more, hz);
  const reading = listening.result();
  listening.end();
  return reading;
}
function mixed(lengthS: number, mixHz: number) {
  const { left, right } = sound(lengthS);
  const mixer = new ToneMixer(RATE_HZ, mixHz);
  // as the blocks were cut
  for (let at = 0; at < left.length; at += 4000)
    mixer.push(left.subarray(at, at + 4000), right.subarray(at, at + 4000), 0, Math.min(4000, left.length - at), at);
  return mixer;
}

describe('the reading of a tone', () => {
  it('is its segment’s, with wow and flutter, spectrum and lines', () => {
    const reading = read(6);
    const mixer = mixed(6, 1000);
    const segment = readSegment(mixer.peek(), 'left');
    if (!segment.found) throw new Error('no tone');
    const { startS, endS, usedS, ratio, logLevel, speed } = segment;
    const trace = thinned(speed);
    const analysis = atOnce(FlutterAnalysis.inSteps(speed, (work) => work()));
    const { weighted, unweighted, weightedTrace } = atOnce(analysis.figuresInSteps((work) => work()));
    expect(reading).toEqual({
      driven: 'left',
      segments: [
        {
          startS,
          endS,
          usedS,
          ratio,
          logLevel,
          trace,
          flutter: {
            weighted,
            unweighted,
            weightedTrace,
            spectrum: spectrumPoints(analysis.spectrum()),
            lines: atOnce(flutterLinesInSteps(speed, (work) => work())),
            lengthS: speed.deviation.length / speed.rateHz,
            sway: null,
          },
        },
      ],
    });
    mixer.end();
  });

  it('of a long tone from 1 kHz up tells how it goes with the tip’s own motion', () => {
    const lengthS = 23;
    const { sway } = read(lengthS).segments[0].flutter!;
    const mixer = mixed(lengthS, 1000);
    const segment = readSegment(mixer.peek(), 'left');
    if (!segment.found) throw new Error('no tone');
    const low = mixed(lengthS, swayMixHz(mixer.rateHz));
    expect(sway).not.toBeNull();
    expect(sway).toEqual(atOnce(swaySpectraInSteps(segment.speed, low.peek())));
  });

  it('without wow and flutter where another tone tells it, or it is too short or too low for it', () => {
    const flutter = (lengthS: number, more: Partial<ToneSettings> = {}, hz = 1000) =>
      read(lengthS, more, hz).segments[0].flutter !== null;
    expect(flutter(6, { withFlutter: false })).toBe(false);
    expect(flutter(4.3)).toBe(true);
    expect(flutter(3.9)).toBe(false);
    expect(flutter(6, { frequencyHz: 300 }, 300)).toBe(false);
    expect(flutter(6, { frequencyHz: 900 }, 900)).toBe(true);
  });

  it('holds harmonics where they were asked for', () => {
    const { harmonics } = read(6, { withHarmonics: true });
    const estimator = new HarmonicEstimator(RATE_HZ, 1000, 'left');
    const { left, right } = sound(6);
    for (let at = 0; at < left.length; at += 4000)
      estimator.push({
        startFrame: at,
        frames: 4000,
        left: left.subarray(at, at + 4000),
        right: right.subarray(at, at + 4000),
      });
    const mixer = mixed(6, 1000);
    expect(harmonics).toEqual(atOnce(estimator.inSteps(mixer)));
    expect(harmonics![0].orders[0].ratio).toBeCloseTo(0.01, 3);
    expect(read(6)).not.toHaveProperty('harmonics');
    estimator.end();
    mixer.end();
  });

  it('of nothing, or of less than a fifth of a second, has no segment', () => {
    expect(read(0.15)).toEqual({ driven: 'left', segments: [] });
    expect(read(0.6, { driven: 'both' }).driven).toBe('both');
    const listening = new ToneEstimator(RATE_HZ, settings());
    const silence = new Float64Array(16_000);
    listening.push({ startFrame: 0, frames: 16_000, left: silence, right: silence });
    expect(listening.result().segments).toEqual([]);
    listening.end();
  });
});

describe('while it plays', () => {
  it('is told in parts of four seconds, each once, two at a time, and what is left from 0.4 s on', () => {
    const listening = heard(17);
    const spans = () => listening.running().segments.map(({ startS, endS }) => Math.round(endS - startS));
    // two at a time: the rest is longer than a part until it has caught up
    expect(spans()).toEqual([4, 4]);
    expect(spans()).toEqual([4, 4, 4, 4, 1]);
    expect(spans()).toEqual([4, 4, 4, 4, 1]);
    const { segments, ...rest } = listening.running();
    expect(rest).toEqual({ driven: 'left' });
    expect(segments.every(({ flutter }) => flutter === null)).toBe(true);
    expect(segments[0].trace.meanHz).toBeCloseTo(1000, 0);
    listening.end();
    const short = heard(4.3);
    expect(short.running().segments).toHaveLength(1);
    short.end();
    const shorter = heard(0.3);
    expect(shorter.running().segments).toEqual([]);
    shorter.end();
    const enough = heard(0.5);
    expect(enough.running().segments).toHaveLength(1);
    enough.end();
  });

  it('parts that hold no tone are passed over', () => {
    const listening = new ToneEstimator(RATE_HZ, settings());
    const { left, right } = sound(4);
    const silence = new Float64Array(left.length);
    for (const [i, one] of [silence, silence, left].entries())
      listening.push({
        startFrame: i * left.length,
        frames: left.length,
        left: one,
        right: one === left ? right : silence,
      });
    listening.running();
    const { segments } = listening.running();
    expect(segments).toHaveLength(1);
    expect(segments[0].startS).toBeGreaterThan(7.9);
    listening.end();
  });
});
