/** Meter readings → findings and advice in the shapes of `measure`. */
import type { Advice, JudgedFinding } from './document.ts';
import { judge } from './limits.ts';
import { predictSeparations, turnAdvice } from './turn.ts';
import type { TiltFromMeter } from './voltmeter.ts';

export interface MeterDocument {
  readonly schema: 1;
  readonly findings: readonly JudgedFinding[];
  readonly advice: readonly Advice[];
}

const signed = (deg: number) => `${deg < 0 ? '−' : '+'}${Math.abs(deg).toFixed(2)}°`;

/** What a voltmeter can say, with its assumption on the answer. */
export function meterDocument(answer: TiltFromMeter): MeterDocument {
  const several = answer.bestTiltDeg !== undefined;
  const findings = [
    judge({
      quantity: 'azimuth-error',
      value: answer.angleDeg,
      unit: 'deg',
      uncertainty: answer.uncertaintyDeg,
      bands: [],
      note: several ? `With your tilt scale at 0. ${answer.assumption}` : answer.assumption,
    }),
  ];
  if (answer.bestTiltDeg !== undefined) {
    findings.push(
      judge({
        quantity: 'best-tilt-setting',
        value: answer.bestTiltDeg,
        unit: 'deg',
        uncertainty: answer.uncertaintyDeg,
        bands: [],
        note: 'On your own tilt scale, clockwise seen from the cartridge’s face positive.',
      }),
    );
  }
  const more: string[] = [];
  if (answer.bestTiltDeg !== undefined && answer.lastTiltDeg !== undefined) {
    const rest = answer.bestTiltDeg - answer.lastTiltDeg;
    more.push(
      `That is from the zero of your scale: set it to ${signed(answer.bestTiltDeg)}. From the last reading, at ${signed(answer.lastTiltDeg)}, ` +
        `that is ${Math.abs(rest).toFixed(2)}° ${rest > 0 ? 'clockwise' : 'anticlockwise'}.`,
    );
  }
  if (answer.scale !== undefined && !(0.8 <= answer.scale && answer.scale <= 1.25)) {
    more.push(
      `One degree on your scale seems to be ${answer.scale.toFixed(2)} true degrees; check the scale, or whether both channels were read at equal gain.`,
    );
  }
  more.push(answer.assumption);
  const after = { leftToRight: answer.predictedLeftToRightDb, rightToLeft: answer.predictedRightToLeftDb };
  return {
    schema: 1,
    findings,
    advice: [turnAdvice(answer.angleDeg, answer.uncertaintyDeg, predictSeparations(after), more.join(' '))],
  };
}
