/** What a mm at the pivot is worth on this arm, and the arm drawn as it stands. */

import { type HeightSheet, MOST_BY_HEIGHT_DEG } from '../../../core/advise/height.ts';
import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import type { Answer } from '../../../core/job/stations/answer.ts';
import type { HeightAnswer } from '../../../core/job/stations/height/heightAnswers.ts';
import type { Spread } from '../../../core/job/stations/weigh/balance.ts';
import { showFigure } from '../../../core/words/number.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { Fold } from '../../parts/Fold.tsx';
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
          <Fold
            title="What else it turns"
            answer={answer.value.sheet.bearings.length > 1 ? 'by the kind of bearing' : ''}
          >
            <Bearings bearings={answer.value.sheet.bearings} />
          </Fold>
          <ArmHeightView
            riseMm={answer.value.riseMm}
            lengthMm={known.effectiveLengthMm?.value ?? 230}
            thicknessMm={answer.value.thicknessMm}
          />
        </>
      ) : answer.missing ? (
        <p class="invite">
          {sentence(answer.why)} {say(statement('type-or-pick-arm'))} <a href={stationPath(jobId, 'match')}>Match</a>
        </p>
      ) : (
        <p class="wrong-line">{sentence(answer.why)}</p>
      )}
      <Rests known={known} names={['effectiveLengthMm', 'offsetDeg']} page="methods/height" pageTitle="Arm height">
        <p>{say(statement('height-rests'))}</p>
      </Rests>
    </section>
  );
}

/** What else a degree upward brings, for the kind of bearing or for both. */
function Bearings({ bearings }: Pick<HeightSheet, 'bearings'>) {
  const kinds = { 'arm-line': 'bearing square to the line pivot to tip', cartridge: 'bearing square to the cartridge' };
  return (
    <>
      <ul class="small">
        {bearings.map(({ squareTo, mmPerDeg, tiltPerDeg }) => (
          <li key={squareTo}>
            {bearings.length > 1 && `${kinds[squareTo]}: ${mmPerDeg.toFixed(2)} mm for 1°, `}
            {tiltPerDeg === 0 ? 'no tilt' : `${tiltPerDeg.toFixed(2)}° of tilt clockwise with each degree up`}
          </li>
        ))}
      </ul>
      <p class="soft small">{say(statement('height-cures', { mostDeg: MOST_BY_HEIGHT_DEG }))}</p>
    </>
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
