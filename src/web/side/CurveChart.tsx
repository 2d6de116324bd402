/** The curves of a document as a chart: axes from their units, left solid and right dashed. */

import type { Curve } from '../../core/measure/finding.ts';
import type { Band } from '../../core/record/band.ts';
import { unitSign } from '../../core/words/figure.ts';
import { curveTitles, quantityTitle } from '../../core/words/quantities.ts';
import { LineChart, type Mark, type Series } from '../parts/LineChart.tsx';
import { bandTimes, bandWords } from './bandWords.ts';
import type { CurveGroup } from './evidence.ts';

const xWords: Readonly<Record<string, string>> = {
  Hz: 'frequency',
  s: 'time',
  deg: 'tilt, clockwise positive',
  mm: 'radius',
};
const yWords: Readonly<Record<string, string>> = { dB: 'level', '%': 'deviation', deg: 'angle' };
const ownYWords: Readonly<Record<string, string>> = {
  'separation-against-tilt': 'separation',
  separation: 'separation',
};

/** A separation is of one channel into the other. */
function nameOf(quantity: string, { channel }: Curve): string | undefined {
  if (quantity !== 'separation-against-tilt' || channel === undefined) return channel;
  return channel === 'left' ? 'left into right' : 'right into left';
}

export function CurveChart({ group, bands }: { group: CurveGroup; bands: readonly Band[] }) {
  const [first] = group.curves;
  if (first === undefined) return null;
  const band = group.band === null ? undefined : bands[group.band];
  const title = curveTitles[group.quantity] ?? quantityTitle(group.quantity);
  const where = band === undefined ? '' : ` · band ${band.index + 1}, ${bandWords(band)}`;
  const series: Series[] = group.curves.map((curve, i) => ({
    name: nameOf(group.quantity, curve) ?? (group.curves.length > 1 ? `trace ${i + 1}` : title.toLowerCase()),
    x: curve.x,
    y: curve.y,
    style: curve.channel ?? (i === 0 ? 'plain' : 'soft'),
  }));
  const low = Math.min(...group.curves.map((curve) => curve.x.find((x) => x > 0) ?? Number.POSITIVE_INFINITY));
  const high = Math.max(...group.curves.map((curve) => curve.x.at(-1) ?? 0));
  const xLog = first.xUnit === 'Hz' && high / low > 12;
  const marks: Mark[] =
    group.quantity === 'level' && band !== undefined
      ? [
          { x: band.startS, label: 'read from here' },
          { x: band.endS, label: 'to here' },
        ]
      : band?.frequencyHz && first.xUnit === 'Hz'
        ? [{ x: band.frequencyHz }]
        : [];
  return (
    <section>
      <h3>
        {title}
        {where}
      </h3>
      <LineChart
        name={`${title}${where}${band === undefined ? '' : `, ${bandTimes(band)}`}`}
        series={series}
        xLabel={xWords[first.xUnit] ?? ''}
        yLabel={ownYWords[group.quantity] ?? yWords[first.yUnit] ?? ''}
        xUnit={unitSign(first.xUnit)}
        yUnit={unitSign(first.yUnit)}
        xLog={xLog}
        marks={marks}
        height={230}
        yDecimals={first.yUnit === '%' ? 3 : undefined}
      />
    </section>
  );
}
