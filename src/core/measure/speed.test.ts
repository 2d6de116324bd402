import { describe, expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { meanFrequency, speedFigures, wowHeard } from './speed.ts';

const rateHz = 20;

/** A lateral 3150 Hz tone whose speed is off by `percent`, its deviation shaken by noise. */
function tone(index: number, percent: number, lengthS: number, noise: number): ToneBand {
  const draw = gaussian(40 + index);
  const deviation = Float64Array.from({ length: lengthS * rateHz }, () => noise * draw());
  const off = deviation.reduce((sum, v) => sum + v, 0) / deviation.length;
  for (let n = 0; n < deviation.length; n++) deviation[n] -= off;
  const startS = 30 * index;
  const meanHz = 3150 * (1 + percent / 100);
  const segment = {
    startS,
    endS: startS + lengthS,
    usedS: lengthS,
    ratio: { re: 1, im: 0, varRe: 1e-8, varIm: 1e-8, degreesOfFreedom: 10 },
    logLevel: { value: 0, variance: 1e-8, degreesOfFreedom: 10 },
    trace: { rateHz, startS, meanHz, deviation, groupS: 1 / rateHz },
    flutter: null,
  };
  return {
    band: {
      index,
      startS,
      endS: startS + lengthS,
      signal: 'tone',
      motion: 'lateral',
      frequencyHz: meanHz,
      radiusMm: null,
      sheetBand: null,
    },
    cut: null,
    driven: 'both',
    reading: { driven: 'both', segments: [segment] },
    meanHz,
    usedS: lengthS,
    startS,
    endS: startS + lengthS,
  };
}

function speedOf(tones: ToneBand[]): { value: number; uncertainty: number } {
  const side: SideReadings = {
    tones,
    sheet: null,
    order: 'unknown',
    rpm: 100 / 3,
    rpmStated: true,
    nominalSpeedToneHz: null,
    arm: null,
    preamp: null,
    recordResponse: null,
    spoiled: [],
    assumed: assumedInTests,
  };
  const { findings } = speedFigures(side, tones);
  return { value: findings[0].value as number, uncertainty: findings[0].uncertainty as number };
}

describe('speed over the side', () => {
  it('weighs tones by their length', () => {
    const { value } = speedOf([tone(0, 0.1, 9, 1e-6), tone(1, 0.103, 18, 1e-6)]);
    expect(value).toBeCloseTo(0.102, 4);
  });

  it('takes the scatter of tones that differ by far more than each allows, with few degrees of freedom', () => {
    const { uncertainty } = speedOf([tone(0, 0.1, 12, 1e-6), tone(1, 0.11, 12, 1e-6)]);
    // two readings 0.01 % apart: standard uncertainty of their mean 0.005 %, one degree of freedom
    expect(uncertainty).toBeGreaterThan(0.03);
  });

  it('does not fall from many degrees of freedom to one where the scatter just passes what the tones allow', () => {
    const noise = 2e-5;
    const alone = speedOf([tone(0, 0.1, 12, noise)]).uncertainty;
    const apart = (percent: number): number =>
      speedOf([tone(0, 0.1, 12, noise), tone(1, 0.1 + percent, 12, noise)]).uncertainty;
    expect(apart(0)).toBeLessThan(alone);
    let last = apart(0);
    for (let percent = 0; percent < 3 * alone; percent += alone / 80) {
      const now = apart(percent);
      expect(now, `${percent} %`).toBeLessThan(1.5 * last + 1e-6);
      last = now;
    }
  });
});

describe('a tone of less than whole turns', () => {
  const rotationHz = 100 / 180;
  const swinging = (index: number, lengthS: number, percent: number): ToneBand => {
    const still = tone(index, 0, lengthS, 1e-7);
    const [segment] = still.reading.segments;
    const { trace } = segment;
    const deviation = trace.deviation.map(
      (v, n) => v + (percent / 100) * Math.cos(2 * Math.PI * rotationHz * (trace.startS + n / rateHz)),
    );
    return {
      ...still,
      reading: { ...still.reading, segments: [{ ...segment, trace: { ...trace, deviation } }] },
    };
  };
  const allowed = (tones: ToneBand[]): number => Math.sqrt(meanFrequencyOf(tones).variance) / 3150;
  const meanFrequencyOf = (tones: ToneBand[]) =>
    meanFrequency(tones[0].reading.segments[0], rotationHz, () => wowHeard(tones, rotationHz));

  it('may swing as the side’s longer tones do, and by 0.1 % where there are none', () => {
    const short = tone(0, 0, 1.8, 1e-7);
    // one turn: a/√2π
    expect(100 * allowed([short])).toBeCloseTo(0.1 / Math.SQRT2 / Math.PI, 4);
    // a steady deck, and one of 0.2 %, at any radius of the side
    expect(100 * allowed([short, swinging(1, 9, 0)])).toBeLessThan(1e-4);
    expect(100 * allowed([short, swinging(1, 9, 0.2)])).toBeCloseTo((2.4 * 0.2) / Math.SQRT2 / Math.PI, 3);
  });
});
