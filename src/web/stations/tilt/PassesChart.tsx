/** Passes so far: each pass's separations at the tilt it was taken at, and where the turn should bring them. */
import type { SideDocument } from '../../../core/advise/document.ts';
import type { Series } from '../../../core/draw/chart/curves.ts';
import type { Job } from '../../../core/job/api.ts';
import { curvesFrom, passesOf } from '../../../core/job/stations/tilt/passes.ts';
import { type Dot, LineChart } from '../../parts/LineChart.tsx';
import { showCapture, shownSide } from '../../side/shownSide.ts';

export function PassesChart({ job, document }: { job: Job; document: SideDocument }) {
  const passes = passesOf(job);
  if (passes.length === 0) return null;
  const span = Math.max(1, ...passes.map((pass) => Math.abs(pass.tiltDeg))) * 1.35;
  const curves = curvesFrom(document, span, passes);
  const series: Series[] =
    curves === null
      ? []
      : [
          { name: 'left into right', x: curves.tiltDeg, y: curves.leftToRightDb, style: 'left' },
          { name: 'right into left', x: curves.tiltDeg, y: curves.rightToLeftDb, style: 'right' },
        ];
  const dots: Dot[] = passes.flatMap((pass) => [
    { x: pass.tiltDeg, y: pass.leftToRightDb, style: 'left' as const, label: `pass ${pass.number}` },
    { x: pass.tiltDeg, y: pass.rightToLeftDb, style: 'right' as const },
  ]);
  return (
    <section class="card">
      <h3>Passes so far</h3>
      <LineChart
        name="Separation of each pass against the tilt it was played at"
        series={series}
        dots={dots}
        marks={[{ x: 0 }]}
        xLabel="tilt, clockwise positive"
        yLabel="separation"
        xUnit="°"
        yUnit="dB"
        xDomain={[-span, span]}
        height={230}
        yDecimals={1}
      />
      {passes.length > 1 && (
        <p class="buttons small">
          <span class="soft">Show</span>
          {passes.map((pass) => {
            return (
              <button
                key={pass.captureId}
                type="button"
                class="button plain"
                aria-pressed={shownSide.value?.captureId === pass.captureId}
                onClick={() => void showCapture(job.id, pass.captureId)}
              >
                pass {pass.number}
              </button>
            );
          })}
        </p>
      )}
    </section>
  );
}
