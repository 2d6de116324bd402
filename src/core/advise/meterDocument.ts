/** Meter readings → findings and advice in the shapes of `measure`. */

import { plain } from '../words/statement.ts';
import type { Advice, JudgedFinding } from './document.ts';
import { DEFAULT_LIMITS, judge } from './limits.ts';
import { leaveTilt, predictSeparations, turnAdvice, turnDirection } from './turn.ts';
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
      notes: [plain(several ? `With your tilt scale at 0. ${answer.assumption}` : answer.assumption)],
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
        notes: [plain('On your own tilt scale, clockwise seen from the cartridge’s face positive.')],
      }),
    );
  }
  const worth = Math.max(DEFAULT_LIMITS['azimuth-error'].good, answer.uncertaintyDeg);
  const upright = Math.abs(answer.angleDeg) <= worth;
  const more: string[] = [];
  if (answer.bestTiltDeg !== undefined && answer.lastTiltDeg !== undefined) {
    more.push(settingWords(answer.bestTiltDeg, answer.lastTiltDeg, upright));
  }
  if (answer.scale !== undefined && !(0.8 <= answer.scale && answer.scale <= 1.25)) {
    more.push(
      `One degree on your scale seems to be ${answer.scale.toFixed(2)} true degrees; check the scale, or whether both channels were read at equal gain.`,
    );
  }
  more.push(answer.assumption);
  const after = { leftToRight: answer.predictedLeftToRightDb, rightToLeft: answer.predictedRightToLeftDb };
  const predicts = predictSeparations(after);
  return {
    schema: 1,
    findings,
    advice: [
      upright
        ? leaveTilt(worth, predicts, more.join(' '))
        : turnAdvice(answer.angleDeg, answer.uncertaintyDeg, predicts, more.join(' ')),
    ],
  };
}

/** Where to set the person's own scale, and what that is from where the cartridge stood last. */
function settingWords(bestDeg: number, lastDeg: number, upright: boolean): string {
  const start = upright
    ? `That is with your scale at its zero, or better at ${signed(bestDeg)}.`
    : `That is from the zero of your scale: set it to ${signed(bestDeg)}.`;
  const rest = bestDeg - lastDeg;
  if (Math.abs(rest) < 0.005) return `${start} The last reading was taken there.`;
  // a turn clockwise is what a tilt anticlockwise asks for
  const way = turnDirection(-rest) === 'clockwise-from-front' ? 'clockwise' : 'anticlockwise';
  return `${start} From the last reading, at ${signed(lastDeg)}, that is ${Math.abs(rest).toFixed(2)}° ${way}.`;
}
