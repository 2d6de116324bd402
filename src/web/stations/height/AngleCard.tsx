/** What a mm at the pivot is worth on this arm, and the arm drawn as it stands. */

import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import { showFigure } from '../../../core/job/fields/number.ts';
import { type Answer, sentence } from '../../../core/job/stations/answer.ts';
import type { HeightAnswer } from '../../../core/job/stations/height/heightAnswers.ts';
import type { Spread } from '../../../core/job/stations/weigh/balance.ts';
import { Rests } from '../../parts/Rests.tsx';
import { stationPath } from '../../route.ts';
import { ArmHeightView } from './SideView.tsx';

export interface AngleCardProps {
  readonly jobId: string;
  readonly known: Facts;
  readonly answer: Answer<HeightAnswer>;
}

export function AngleCard({ jobId, known, answer }: AngleCardProps) {
  return (
    <section class="card angle-card" aria-label="Angle for each mm" aria-live="polite">
      <h3>Each mm at the pivot turns the vertical tracking angle by</h3>
      {answer.found ? (
        <>
          <SmallAngle {...answer.value.degPerMm} />
          <p class="turn">
            1° is {answer.value.mmPerDeg.value.toFixed(2)} mm
            {answer.value.mmPerDeg.uncertainty !== null && (
              <span class="pm"> ± {(Math.ceil(answer.value.mmPerDeg.uncertainty * 100) / 100).toFixed(2)} mm</span>
            )}
            ; up makes it steeper
          </p>
          <ArmHeightView
            riseMm={answer.value.riseMm}
            lengthMm={known.effectiveLengthMm?.value ?? 230}
            thicknessMm={answer.value.thicknessMm}
          />
        </>
      ) : answer.missing ? (
        <p class="invite">
          {sentence(answer.why)} Type it below, or pick the arm at <a href={stationPath(jobId, 'match')}>Match</a>.
        </p>
      ) : (
        <p class="wrong-line">{sentence(answer.why)}</p>
      )}
      <Rests known={known} names={['effectiveLengthMm']} page="methods/height" pageTitle="Arm height">
        <p>
          The arm turns about its pivot: the angle is the arc tangent of height over effective length. The ± holds 0.25
          mm of length (k = 1, common practice).
        </p>
      </Rests>
    </section>
  );
}

/** A quarter of a degree wants three decimals, more than angles are shown with elsewhere. */
function SmallAngle({ value, uncertainty }: Spread) {
  const shown = showFigure(value, uncertainty, false, 3);
  return (
    <p class="figure big">
      {shown.value}
      <span class="unit tight">°</span>
      {shown.uncertainty !== null && <span class="pm"> ±&nbsp;{shown.uncertainty}°</span>}
    </p>
  );
}
