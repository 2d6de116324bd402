/** One chain: what it is made of, how each figure stands, and the control charts of one of them. */
import { useState } from 'preact/hooks';
import { type ChainCharts, type ChainFigure, chainPartNames, NO_RECORD } from '../../core/job/chains/chain.ts';
import { figureName } from '../../core/job/chains/chainWords.ts';
import { shownFigure, unitSign } from '../../core/words/figure.ts';
import { isSigned } from '../../core/words/quantities.ts';
import { api } from '../api.ts';
import { send } from '../connection.ts';
import { job } from '../jobState.ts';
import { Check, Select } from '../parts/Choice.tsx';
import { LineChart } from '../parts/LineChart.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { useAsked } from '../useAsked.ts';
import { ChangeChain } from './ChangeChain.tsx';

interface ChainCardProps {
  readonly id: string;
  /** asked again whenever one of them changes */
  readonly about: readonly unknown[];
}

const idOf = ({ quantity, channel }: ChainFigure): string => `${quantity} ${channel ?? ''}`;

export function ChainCard({ id, about }: ChainCardProps) {
  const [record, setRecord] = useState<string | undefined>(undefined);
  const [chosen, setChosen] = useState<string | null>(null);
  const charts = useAsked(() => api.chainCharts(id, record), [id, record, ...about]);
  if (charts === null) return <p class="soft">Looking…</p>;
  const { figures, says, records } = charts;
  const shown = figures.find((figure) => idOf(figure) === chosen) ?? figures[0];
  return (
    <>
      <p class="soft">{madeOf(charts)}</p>
      {says.map((text) => (
        <p key={text}>{text}</p>
      ))}
      {records.length > 1 && (
        <Select
          label="Record file"
          value={record ?? charts.record?.key ?? NO_RECORD}
          options={records.map(({ key, name }) => ({ value: key, label: key === NO_RECORD ? 'none' : name }))}
          onValue={setRecord}
        />
      )}
      {shown !== undefined && (
        <>
          <Standing figures={figures} />
          <Select
            label="Figure"
            value={idOf(shown)}
            options={figures.map((figure) => ({ value: idOf(figure), label: figureName(figure) }))}
            onValue={setChosen}
          />
          <p>{shown.says}</p>
          <Charts figure={shown} />
        </>
      )}
      <OwnJob chain={charts.chain} />
      <ChangeChain chain={charts.chain} />
    </>
  );
}

/** Whether the recordings of the open job are readings of the chain. */
function OwnJob({ chain }: { readonly chain: ChainCharts['chain'] }) {
  const open = job.value;
  if (open === null || open.practice) return null;
  const set = (on: boolean): void =>
    send(async () => {
      await api.setJobChain(open.id, on ? chain.id : null);
    });
  return (
    <Check
      label={`The recordings of job ${open.number} are readings of it`}
      checked={chain.jobs.includes(open.number)}
      onChecked={set}
    />
  );
}

function madeOf({ chain, method, record }: ChainCharts): string {
  const parts = chainPartNames.flatMap((name) => {
    const part = chain.parts[name];
    return part === undefined ? [] : [`${name} ${part}`];
  });
  const kind = [record === null ? [] : record.name, method === null ? [] : `methods version ${method}`].flat();
  return [...parts, ...kind].join(' · ');
}

function Standing({ figures }: { readonly figures: readonly ChainFigure[] }) {
  return (
    <ScrollTable name="Figures of the chain" heads={['Figure', 'Last read', 'Limits', 'Readings', 'State']}>
      {figures.map((figure) => {
        const { quantity, unit, points, limits } = figure;
        const show = (value: number, uncertainty: number | null = null) =>
          shownFigure(value, unit, uncertainty, isSigned(quantity));
        const last = points[points.length - 1];
        return (
          <tr key={idOf(figure)}>
            <th scope="row">{figureName(figure)}</th>
            <td>{show(last.value, last.uncertainty)}</td>
            <td>{limits === null ? 'none yet' : `${show(limits.low)} to ${show(limits.high)}`}</td>
            <td>{points.length}</td>
            <td>{stateOf(figure)}</td>
          </tr>
        );
      })}
    </ScrollTable>
  );
}

function stateOf({ points, limits }: ChainFigure): string {
  const last = points[points.length - 1].signal;
  if (last === 'beyond') return '✕ outside';
  if (last === 'jump') return '△ jumped';
  if (last === 'run') return '△ on one side';
  return limits === null ? '' : '✓ within';
}

function Charts({ figure }: { readonly figure: ChainFigure }) {
  const { points, limits, gap } = figure;
  const unit = unitSign(figure.unit);
  const name = figureName(figure);
  const x = points.map((_, i) => i + 1);
  const level = (of: string, y: number) => ({ name: of, x: [1, points.length], y: [y, y], style: 'soft' as const });
  const follows = x.slice(1).filter((_, i) => i + 1 !== gap);
  const day = (at: string): string => at.slice(0, 10);
  const shared = {
    xLabel: 'reading',
    xUnit: '',
    yUnit: unit,
    xDecimals: 0,
    yDecimals: 3,
    marks: gap === null ? [] : [{ x: gap + 0.5, label: 'others are not drawn' }],
  };
  return (
    <>
      <LineChart
        {...shared}
        name={`${name}, reading by reading, ${day(points[0].at)} to ${day(points[points.length - 1].at)}`}
        series={[
          { name: 'readings', x, y: points.map(({ value }) => value) },
          ...(limits === null
            ? []
            : [level('upper limit', limits.high), level('mean', limits.centre), level('lower limit', limits.low)]),
        ]}
        dots={points.flatMap(({ signal, value, at, uncertainty }, i) =>
          signal === null
            ? []
            : [{ x: i + 1, y: value, label: day(at), ...(uncertainty === null ? {} : { uncertainty }) }],
        )}
        yLabel={name}
        height={240}
      />
      {limits !== null && (
        <LineChart
          {...shared}
          name={`Moving range of ${name}`}
          series={[
            {
              name: 'moving range',
              x: follows,
              y: follows.map((place) => Math.abs(points[place - 1].value - points[place - 2].value)),
            },
            level('upper limit', limits.rangeLimit),
            level('mean', limits.meanRange),
          ]}
          yLabel="moving range"
          height={150}
        />
      )}
    </>
  );
}
