/** Readings that repeat: what their scatter says, and the control chart of this deck and record over its jobs. */

import { useState } from 'preact/hooks';
import type { Job } from '../../../core/job/api.ts';
import { type RepeatedFigure, repeatsOf } from '../../../core/job/repeats.ts';
import { repeatWords } from '../../../core/job/repeatWords.ts';
import { unitSign } from '../../../core/words/figure.ts';
import { quantityTitle } from '../../../core/words/quantities.ts';
import { sayAll } from '../../../core/words/statement.ts';
import { api } from '../../api.ts';
import { Select } from '../../parts/Choice.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { type Dot, LineChart } from '../../parts/LineChart.tsx';
import { useAsked } from '../../useAsked.ts';

const nameOf = ({ quantity, channel }: RepeatedFigure): string =>
  quantityTitle(quantity) + (channel === undefined ? '' : `, ${channel}`);
const idOf = ({ quantity, channel }: RepeatedFigure): string => `${quantity} ${channel ?? ''}`;

/** @param record key of the record file of what is shown; null: none */
export function RepeatsFold({ job, record }: { readonly job: Job; readonly record: string | null }) {
  const history = useAsked(() => api.deckHistory(job.deck.id), [job.deck.id, job.captures.length]);
  const [chosen, setChosen] = useState<string | null>(null);

  const figures = repeatsOf(job, record, history);
  const [first] = figures;
  if (first === undefined) return null;
  const shown = figures.find((figure) => idOf(figure) === chosen) ?? first;
  const odd = figures.filter(({ chart }) => chart?.signals.at(-1)?.length);
  return (
    <Fold
      title="Repeats"
      answer={odd.length === 0 ? `${shown.points.length} readings` : `out of control: ${odd.map(nameOf).join(', ')}`}
    >
      <Select
        label="Figure"
        value={idOf(shown)}
        options={figures.map((figure) => ({ value: idOf(figure), label: nameOf(figure) }))}
        onValue={setChosen}
      />
      <p>{sayAll(repeatWords(shown))}</p>
      <ControlCharts figure={shown} />
    </Fold>
  );
}

function ControlCharts({ figure }: { readonly figure: RepeatedFigure }) {
  const { points, chart } = figure;
  const unit = unitSign(figure.unit);
  const x = points.map((_, i) => i + 1);
  const level = (name: string, y: number) => ({ name, x: [1, points.length], y: [y, y], style: 'soft' as const });
  const dots = points.map(({ value, job }, i): Dot => {
    const changed = i === 0 || points[i - 1].job !== job;
    return {
      x: i + 1,
      y: value,
      ...(changed ? { label: `job ${job}` } : {}),
    };
  });
  return (
    <>
      <LineChart
        name={`${nameOf(figure)}, reading by reading`}
        series={[
          { name: 'readings', x, y: points.map(({ value }) => value) },
          ...(chart === null
            ? []
            : [level('upper limit', chart.high), level('mean', chart.centre), level('lower limit', chart.low)]),
        ]}
        dots={dots}
        xLabel="reading"
        yLabel={nameOf(figure)}
        xUnit=""
        yUnit={unit}
        xDecimals={0}
        yDecimals={3}
        height={220}
      />
      {chart !== null && (
        <LineChart
          name={`Moving range of ${nameOf(figure)}`}
          series={[
            { name: 'moving range', x: x.slice(1), y: chart.ranges },
            level('upper limit', chart.rangeLimit),
            level('mean', chart.meanRange),
          ]}
          xLabel="reading"
          yLabel="moving range"
          xUnit=""
          yUnit={unit}
          xDecimals={0}
          yDecimals={3}
          height={150}
        />
      )}
    </>
  );
}
