/** What angle to aim at, who says so, and how far this arm would have to go by what the maker states. */

import { angleTargets } from '../../../core/advise/height.ts';
import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import type { Answer } from '../../../core/job/stations/answer.ts';
import type { HeightAnswer } from '../../../core/job/stations/height/heightAnswers.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Figure } from '../../parts/Figure.tsx';
import { Rests } from '../../parts/Rests.tsx';
import { CantileverView } from './SideView.tsx';

const standard = angleTargets.find(({ name }) => name === 'standard');

const kinds = {
  standard: 'what the standard says',
  older: 'older records',
  level: 'what is common practice',
} as const;

/** mm; more than a pillar usually has (common practice) */
const MORE_THAN_A_PILLAR = 12;

const risesWords = (mm: number | null): string =>
  mm === null
    ? '–'
    : Math.abs(mm) < 0.05
      ? '✓ inside'
      : `${mm > 0 ? 'raise' : 'lower'} ${showNumber(Math.abs(mm), 1)} mm`;

export function TargetsCard({ known, answer }: { known: Facts; answer: Answer<HeightAnswer> }) {
  const stated = answer.found ? answer.value.sheet.statedDeg : null;
  const targets = answer.found ? answer.value.sheet.targets : angleTargets.map((one) => ({ ...one, riseMm: null }));
  return (
    <section class="card targets-card" aria-label="Angle to aim at">
      <h3>Angle to aim at</h3>
      {stated !== null && (
        <>
          <Figure size="mid" value={stated} unit="deg" uncertainty={null} />
          <p>
            at this height, by the maker’s statement alone. It carries no ±: makers give none, and cartridges were found
            several degrees from what is stated. Only a measurement tells.
          </p>
        </>
      )}
      {standard?.fromDeg != null && standard.toDeg !== null && (
        <CantileverView statedDeg={stated} standard={{ fromDeg: standard.fromDeg, toDeg: standard.toDeg }} />
      )}
      <div class="scroll-x">
        <table class="rows targets">
          <thead>
            <tr>
              <th scope="col">aim</th>
              <th scope="col">at the pivot</th>
            </tr>
          </thead>
          <tbody>
            {targets.map(({ name, title, source, riseMm, fromDeg }) => (
              <tr key={name}>
                <th scope="row">
                  <b>{title}</b> <span class="soft small">{kinds[name]}</span>
                  <span class="source soft small">{source.replace(/^common practice: /, '')}</span>
                </th>
                <td>
                  {fromDeg === null ? 'level first' : risesWords(riseMm)}
                  {riseMm !== null && Math.abs(riseMm) > MORE_THAN_A_PILLAR && (
                    <span class="source soft small">more than a pillar has</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {answer.found && stated === null && <p class="soft">{say(statement('once-angle-stated'))}</p>}
      <Rests
        known={known}
        names={['verticalAngleDeg', 'effectiveLengthMm']}
        page="methods/height"
        pageTitle="Arm height"
      >
        <p>{say(statement('stated-angle-rests'))}</p>
      </Rests>
    </section>
  );
}
