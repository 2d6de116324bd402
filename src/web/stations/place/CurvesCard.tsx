/** Tracking error and second harmonic over the groove radius, the criteria overlaid, the arm as it stands on top. */

import type { Series } from '../../../core/draw/chart/curves.ts';
import { speedWords } from '../../../core/draw/paper.ts';
import { criteria } from '../../../core/geometry/criteria.ts';
import { curvesToCsv, type NamedCurve } from '../../../core/geometry/curve.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { LineChart } from '../../parts/LineChart.tsx';
import { saveFile } from '../../saveFile.ts';

const titleOf = (name: string): string => criteria.find((one) => one.name === name)?.short ?? name;

interface Titled extends NamedCurve {
  readonly title: string;
  readonly style: 'accent' | 'plain' | 'soft';
}

/** The chosen arm first, the arm as it stands last, so that it is drawn on top. */
function titledCurves(place: PlaceDocument): readonly Titled[] {
  const within = place.method === 'exact-within-limits';
  const chosen: Titled = {
    name: within ? 'within-limits' : place.criterion,
    title: within ? 'this arm, within its limits' : `${titleOf(place.criterion)}, chosen`,
    points: place.curve,
    style: 'accent',
  };
  const others = place.overlays.map(
    (curve): Titled =>
      curve.name === 'as-it-stands'
        ? { ...curve, title: 'as it is set', style: 'plain' }
        : { ...curve, title: titleOf(curve.name), style: 'soft' },
  );
  return [chosen, ...others];
}

const seriesOf = (curves: readonly Titled[], value: (point: NamedCurve['points'][number]) => number): Series[] =>
  curves.map(({ title, style, points }) => ({
    name: title,
    style,
    x: points.map(({ radiusMm }) => radiusMm),
    y: points.map(value),
  }));

export function CurvesCard({ place }: { place: PlaceDocument }) {
  const curves = titledCurves(place);
  const { innerMm, outerMm } = place.groove;
  const marks = place.nullPointsMm.map((x) => ({ x }));
  const shared = {
    marks,
    xLabel: 'groove radius',
    xUnit: 'mm',
    xDomain: [innerMm, outerMm] as [number, number],
    xDecimals: 1,
    height: 280,
  };
  return (
    <section class="card stack place-curves" id="place-curves" aria-label="Curves over the side">
      <div class="do">
        <div>
          <h3>Tracking error over the side</h3>
          <LineChart
            {...shared}
            name="Tracking error over groove radius"
            series={seriesOf(curves, (point) => point.trackingErrorDeg)}
            yLabel="tracking error"
            yUnit="°"
            yDecimals={2}
          />
        </div>
        <div>
          <h3>Second harmonic over the side, 10 cm/s at {speedWords(place.rpm)} rpm</h3>
          <LineChart
            {...shared}
            name="Second harmonic over groove radius"
            series={seriesOf(curves, (point) => Math.abs(point.secondHarmonicPercent))}
            yLabel="second harmonic"
            yUnit="%"
            yDecimals={2}
          />
        </div>
      </div>
      <div class="buttons">
        <button
          type="button"
          class="button"
          onClick={() => saveFile('place-curves.csv', 'text/csv', curvesToCsv(curves))}
        >
          Save the curves as CSV
        </button>
        <span class="soft small">{say(statement('curves-lines'))}</span>
      </div>
    </section>
  );
}
