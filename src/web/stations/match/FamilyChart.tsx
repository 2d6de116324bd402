/** Responses over frequency for several loads, the one that there is now among them. */
import { LineChart } from '../../parts/LineChart.tsx';

export interface Member {
  readonly name: string;
  /** the one that there is now */
  readonly now?: boolean;
  readonly y: readonly number[];
}

export interface FamilyChartProps {
  readonly name: string;
  /** Hz, ascending, the same for all */
  readonly x: readonly number[];
  readonly members: readonly Member[];
}

const [FROM_HZ, TO_HZ] = [200, 24_000];
/** dB; a straight line must look straight, and a steep one keep the others readable */
const LEAST_SPAN = [-6, 3] as const;
const LOWEST_DB = -24;

export function FamilyChart({ name, x, members }: FamilyChartProps) {
  const from = x.findIndex((hz) => hz >= FROM_HZ);
  const to = x.findLastIndex((hz) => hz <= TO_HZ);
  const seen = members.flatMap((one) => one.y.slice(from, to + 1));
  const low = Math.max(LOWEST_DB, Math.min(LEAST_SPAN[0], ...seen.map((db) => db - 1)));
  const high = Math.max(LEAST_SPAN[1], ...seen.map((db) => db + 1));
  return (
    <LineChart
      name={name}
      family
      series={members.map(({ name, now, y }) => ({ name, x, y, style: now ? 'accent' : 'soft' }))}
      xLabel="frequency"
      yLabel="level re 1 kHz"
      xUnit="Hz"
      yUnit="dB"
      xLog
      xDomain={[x[from], x[to]]}
      yDomain={[low, high]}
      height={300}
      marks={[{ x: 20_000 }]}
      yDecimals={1}
      signed
      readFrom={10_000}
    />
  );
}
