/** The arm seen from above, to scale; swung over the record by a slider that reads the error there. */

import { useState } from 'preact/hooks';
import { speedWords } from '../../../core/draw/paper.ts';
import { armPlan } from '../../../core/draw/plan.ts';
import type { Drawing, Shape } from '../../../core/draw/shape.ts';
import { usualLoudness } from '../../../core/geometry/distortion.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { secondHarmonic, trackingError } from '../../../core/geometry/law.ts';
import { nullPointsText } from '../../../core/geometry/nullWords.ts';
import { aimedArm, spanIn, standingArm } from '../../../core/job/stations/place/arms.ts';
import { radToDeg } from '../../../core/units/units.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Slider } from '../../parts/Slider.tsx';
import { DrawingView } from './DrawingView.tsx';

/** The words of the drawing are written larger on a screen than on paper: each moves to where it covers no line. */
function labelled(drawing: Drawing): Drawing {
  const shapes = drawing.shapes.map((shape): Shape => {
    if (shape.shape !== 'text') return shape;
    if (shape.text === 'pivot') return { ...shape, x: shape.x - 17, y: shape.y + 12, anchor: 'end' };
    return shape.role === 'accent' ? { ...shape, x: shape.x + 3, y: shape.y + 12 } : { ...shape, y: shape.y + 2 };
  });
  return { ...drawing, shapes };
}

export function PlanCard({ place }: { place: PlaceDocument }) {
  const [swung, setSwung] = useState<number | null>(null);
  const arm = aimedArm(place);
  const span = spanIn(place);
  if (arm === null) {
    return (
      <section class="card" aria-label="The arm from above">
        <h3>The arm from above</h3>
        <p>{say(statement('plan-not-drawn'))}</p>
        <Figures place={place} />
      </section>
    );
  }
  const inside = place.nullPointsMm.filter((radius) => radius >= span.inner && radius <= span.outer);
  const radius = Math.min(span.outer, Math.max(span.inner, swung ?? inside[0] ?? span.inner));
  const stands = standingArm(place);
  const drawing = labelled(armPlan(arm, span, { radius, ...(stands === null ? {} : { asItStands: stands }) }));
  const error = trackingError(arm, radius);
  const at = error.found
    ? `tracking error ${showNumber(radToDeg(error.value), 2, true)}°, second harmonic ${showNumber(
        Math.abs(100 * secondHarmonic(error.value, radius, usualLoudness.peakVelocityCmS, place.rpm)),
        2,
      )} %`
    : say(error.why);
  return (
    <section class="card" aria-label="The arm from above">
      <h3>The arm from above, to scale</h3>
      <DrawingView
        class="drawing plan"
        drawing={drawing}
        name={`Arm from above, to scale: pivot ${arm.spindleToPivot.toFixed(1)} mm from the spindle, effective length ${arm.effectiveLength.toFixed(1)} mm, platter, grooves from ${span.inner} to ${span.outer} mm, ${nullPointsText(place)}, tip drawn at ${radius.toFixed(1)} mm.${stands === null ? '' : ` ${say(statement('plan-dashed'))}`}`}
      />
      {stands !== null && <p class="soft small">{say(statement('plan-dashed-read'))}</p>}
      <Slider
        label="Swing the arm over the record"
        says={`tip at ${radius.toFixed(1)} mm: ${at}`}
        value={radius}
        min={span.inner}
        max={span.outer}
        byKey={1}
        onValue={setSwung}
      />
      <Figures place={place} />
    </section>
  );
}

function Figures({ place }: { place: PlaceDocument }) {
  const { low, high } = place.tolerance.peakDistortionPercent;
  const rows: readonly (readonly [string, string])[] = [
    ...(place.spindleToPivotMm === null || place.effectiveLengthMm === null || place.linearOffsetMm === null
      ? []
      : ([
          ['Spindle to pivot', `${place.spindleToPivotMm.toFixed(2)} mm`],
          ['Effective length', `${place.effectiveLengthMm.toFixed(2)} mm`],
          ['Linear offset', `${place.linearOffsetMm.toFixed(2)} mm`],
        ] as const)),
    ['Overhang', `${showNumber(place.overhangMm, 2)} mm`],
    [place.kind === 'pivoted' ? 'Offset' : 'Twist', `${showNumber(place.offsetDeg, 2)}°`],
    ['Largest tracking error', `${showNumber(place.largestErrorDeg, 2, true)}°`],
    [
      'Highest second harmonic',
      place.peakDistortionPercent < 0.0005
        ? 'none'
        : `${place.peakDistortionPercent.toFixed(3)} %, at ${place.peakAtMm.toFixed(1)} mm`,
    ],
    ['… as it will come out set by hand', `${low.toFixed(2)} to ${high.toFixed(2)} %`],
    ['Over the whole side, rms', `${place.rmsDistortionPercent.toFixed(3)} %`],
  ];
  return (
    <>
      <table class="rows figures">
        <tbody>
          {rows.map(([name, figure]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{figure}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="soft small">{say(statement('harmonic-of-lateral', { rpm: speedWords(place.rpm) }))}</p>
    </>
  );
}
