/** Other records than the one it was set on: what they do to the angle and to the force. */

import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import { forceWords, gOfMn } from '../../../core/job/fields/force.ts';
import type { Answer } from '../../../core/job/stations/answer.ts';
import type { HeightAnswer } from '../../../core/job/stations/height/heightAnswers.ts';
import { heightFields, USUAL_THICKNESS_MM } from '../../../core/job/stations/height/heightData.ts';
import type { HeightTyped } from '../../../core/job/stations/height.ts';
import { forceOverHeight } from '../../../core/job/stations/weigh/gauge.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, sayAll, sentence, statement } from '../../../core/words/statement.ts';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { LineChart } from '../../parts/LineChart.tsx';
import { Rests } from '../../parts/Rests.tsx';
import { ScrollTable } from '../../parts/ScrollTable.tsx';

export interface ThicknessCardProps {
  readonly data: HeightTyped;
  readonly known: Facts;
  readonly answer: Answer<HeightAnswer>;
  readonly force: { readonly mn: number; readonly from: string } | null;
  set(patch: HeightTyped): void;
}

export function ThicknessCard({ data, known, answer, force, set }: ThicknessCardProps) {
  return (
    <section class="card thickness-card" aria-label="Records of other thickness">
      <h3>Records of other thickness</h3>
      {answer.found ? (
        <Table answer={answer.value} />
      ) : (
        <p class={answer.missing ? 'invite' : 'wrong-line'}>{sentence(answer.why)}</p>
      )}
      <div class="fields">
        <FieldEntry field={heightFields.other} text={data.other} onText={(other) => set({ other })} />
      </div>
      {answer.found && answer.value.forceLeftOut === null && force !== null && (
        <ForceOverThickness known={known} answer={answer.value} forceMn={force.mn} />
      )}
      {answer.found && answer.value.forceLeftOut !== null && (
        <p class="soft">{say(statement('force-change-left-out', { why: answer.value.forceLeftOut }))}</p>
      )}
      <Rests
        known={known}
        names={['effectiveLengthMm', 'movingMassG', 'centreBelowPivotMm', 'pivotAboveTipMm']}
        page="methods/height"
        pageTitle="Arm height"
      >
        <p>
          {sayAll([
            statement('thicker-lifts'),
            force === null
              ? statement('force-by-balance')
              : statement('force-by-balance-for', { force: forceWords(force.mn), from: force.from }),
            statement('thickness-assumed', { mm: USUAL_THICKNESS_MM }),
          ])}
        </p>
      </Rests>
    </section>
  );
}

function Table({ answer }: { answer: HeightAnswer }) {
  const { sheet, thicknessMm } = answer;
  const withForce = sheet.thickness.some(({ forceMn }) => forceMn !== null);
  return (
    <ScrollTable
      name="Angle and force for other records"
      class="rows thickness"
      heads={['record', 'angle', 'to undo it', ...(withForce ? ['force'] : [])]}
    >
      {sheet.thickness.map(({ thicknessMm: mm, angleDeg, riseMm, forceMn }) => {
        const same = Math.abs(mm - thicknessMm) < 1e-9;
        return (
          <tr key={mm} class={same ? 'picked' : undefined}>
            <th scope="row">
              {showNumber(mm, 1)} mm{same && <span class="source soft small">set on this</span>}
            </th>
            <td>{same ? '0' : showNumber(angleDeg, 2, true)}°</td>
            <td>{same ? '–' : `${riseMm > 0 ? 'up' : 'down'} ${showNumber(Math.abs(riseMm), 1)} mm`}</td>
            {withForce && (
              <td>
                {forceMn === null ? '' : same ? '0' : `${showNumber(forceMn, 2, true)} mN`}
                {forceMn !== null && !same && (
                  <span class="source pm">± {(Math.ceil(Math.abs(forceMn) * 20 - 1e-6) / 100).toFixed(2)}</span>
                )}
              </td>
            )}
          </tr>
        );
      })}
    </ScrollTable>
  );
}

function ForceOverThickness({ known, answer, forceMn }: { known: Facts; answer: HeightAnswer; forceMn: number }) {
  const line = forceOverHeight(known, forceMn, 0.8 - answer.thicknessMm, 3.4 - answer.thicknessMm);
  if (!line.found) return null;
  return (
    <>
      <LineChart
        name="Force over the record’s thickness"
        series={[
          { name: 'force', x: line.value.x.map((rise) => rise + answer.thicknessMm), y: line.value.y, style: 'accent' },
        ]}
        marks={[{ x: answer.thicknessMm, label: 'set on this' }]}
        xLabel="record’s thickness"
        yLabel="force at the tip"
        xUnit="mm"
        yUnit="mN"
        xDecimals={1}
        yDecimals={2}
        height={190}
      />
      <p class="soft small">
        {say(statement('force-on-set-record', { force: forceWords(forceMn), tenth: showNumber(gOfMn(0.1), 3) }))}
      </p>
    </>
  );
}
