/** Speed error: the tones' mean frequency over whole turns against what they were cut with. */
import type { Problem } from '../capture/problem.ts';
import { problem } from '../capture/sentences.ts';
import { coverageFactor } from '../signal/robust.ts';
import { combineEstimates } from './combine.ts';
import type { Finding } from './finding.ts';
import { type Nominal, nominalOf } from './nominal.ts';
import { fitRotation } from './rotation.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { SegmentFigures } from './toneEstimator.ts';
import type { Estimate } from './toneSegment.ts';

/** Without a fit of whole turns the once-per-turn part stays in the mean; this much is allowed for it, ratio. */
const UNSEEN_WOW = 1e-3;

/** Mean frequency of a segment over whole turns, Hz. */
export function meanFrequency(segment: SegmentFigures, rotationHz: number): Estimate {
  const { trace } = segment;
  const rotation = fitRotation(trace, rotationHz);
  if (rotation === null) {
    const turns = (trace.deviation.length / trace.rateHz) * rotationHz;
    const spread = (UNSEEN_WOW * trace.meanHz) / Math.max(1, Math.PI * turns);
    return { value: trace.meanHz, variance: spread ** 2, degreesOfFreedom: 50 };
  }
  return {
    value: trace.meanHz * (1 + rotation.meanCorrection),
    variance: trace.meanHz ** 2 * rotation.meanVariance,
    degreesOfFreedom: rotation.meanFreedom,
  };
}

/** Speed of a tone against its nominal, ratio − 1. */
export function speedOfTone(tone: ToneBand, nominal: Nominal, side: SideReadings): Estimate {
  const rough = tone.meanHz / nominal.hz;
  const rotationHz = (side.rpm / 60) * Math.min(1.3, Math.max(0.7, rough));
  const means = tone.reading.segments.map((s) => meanFrequency(s, rotationHz));
  const mean = combineEstimates(means);
  return {
    value: mean.value / nominal.hz - 1,
    variance: mean.variance / nominal.hz ** 2,
    degreesOfFreedom: mean.degreesOfFreedom,
  };
}

export function speedFigures(
  side: SideReadings,
  tones: readonly ToneBand[],
): { findings: Finding[]; problems: Problem[]; speed: Estimate | null } {
  const quantity = 'speed-error';
  const judged = tones.flatMap((tone) => {
    const nominal = nominalOf(tone, side);
    return nominal === null ? [] : [{ tone, nominal, speed: speedOfTone(tone, nominal, side) }];
  });
  if (judged.length === 0) {
    const why = 'no tone of known frequency was found';
    return { findings: [], problems: [problem('withheld', { quantity, why }, { quantity })], speed: null };
  }
  const speed = combineEstimates(judged.map((j) => j.speed));
  const ofRecord = side.sheet?.cut?.speedUncertaintyPercent;
  const k = coverageFactor(Math.max(1, speed.degreesOfFreedom));
  const names = [...new Set(judged.map((j) => `${j.nominal.hz} Hz`))].join(' and ');
  const source = judged[0].nominal.source;
  const notes = [
    source === 'sheet'
      ? `Against ${names} on the sheet.`
      : source === 'stated'
        ? `Against ${names} as stated.`
        : `Taken to be cut with ${names}, the nearest common tone: name the tone if it is another.`,
    ofRecord === undefined
      ? "The record is taken to be cut at exact speed, and the converter's clock to be exact (crystals keep 0.005 %): neither is in the uncertainty."
      : `The record's ${ofRecord} % is in the uncertainty; the converter's clock is taken to be exact (crystals keep 0.005 %).`,
  ];
  return {
    findings: [
      {
        quantity,
        value: 100 * speed.value,
        unit: '%',
        uncertainty: Math.hypot(100 * k * Math.sqrt(speed.variance), ofRecord ?? 0),
        bands: judged.map((j) => j.tone.band.index),
        note: notes.join(' '),
      },
    ],
    problems: [],
    speed,
  };
}
