/** How closely it has to be set: the band that setting tolerances open, and which of them matters most. */

import type { PlaceDocument } from '../../../core/geometry/document.ts';
import type { Setting } from '../../../core/geometry/tolerance.ts';
import { armFields } from '../../../core/job/stations/place/fields.ts';
import type { ArmTyped } from '../../../core/job/stations/place/typed.ts';
import { capital } from '../../../core/words/capital.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { LineChart } from '../../parts/LineChart.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';

const settingWords: Readonly<Record<Setting, string>> = {
  overhang: 'overhang',
  twist: 'twist',
  'spindle-to-pivot': 'spindle to pivot',
};

export interface ToleranceCardProps {
  readonly place: PlaceDocument;
  readonly typed: ArmTyped;
  set(patch: ArmTyped): void;
}

export function ToleranceCard({ place, typed, set }: ToleranceCardProps) {
  const { tolerance } = place;
  const { linear, effects, mattersMost, peakDistortionPercent: peak, draws, seed } = tolerance;
  const radii = linear.map(({ radiusMm }) => radiusMm);
  const pivoted = place.kind === 'pivoted';
  return (
    <section class="card stack" id="place-tolerance" aria-label="How closely it has to be set">
      <h3 class="strong">How closely it has to be set</h3>
      <p class="aim">
        <b>{say(statement('matters-most', { what: capital(settingWords[mattersMost]) }))}</b>{' '}
        {say(statement('set-within-all', peak))}
      </p>
      <div class="do">
        <div class="stack">
          <div class="fields">
            <TypedFields of={armFields} names={['toleranceOverhang', 'toleranceTwist']} typed={typed} set={set} />
            {pivoted && <TypedFields of={armFields} names={['tolerancePivot']} typed={typed} set={set} />}
          </div>
          <table class="rows">
            <thead>
              <tr>
                <th scope="col">set off by</th>
                <th scope="col">highest 2nd harmonic, at worst</th>
                <th scope="col">more by</th>
              </tr>
            </thead>
            <tbody>
              {effects.map(({ setting, tolerance: size, unit, peakAtWorstPercent, risePercent }) => (
                <tr key={setting}>
                  <th scope="row">
                    {settingWords[setting]} ± {size.toFixed(2)}
                    {unit === 'deg' ? '°' : ' mm'}
                  </th>
                  <td>{peakAtWorstPercent.toFixed(2)} %</td>
                  <td>{risePercent.toFixed(2)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p class="soft small">{say(statement('tolerances-drawn', { draws, seed }))}</p>
        </div>
        <div>
          <LineChart
            name="Tracking error within the tolerances, over groove radius"
            series={[
              {
                name: 'as aimed at',
                style: 'accent',
                x: place.curve.map((p) => p.radiusMm),
                y: place.curve.map((p) => p.trackingErrorDeg),
              },
              { name: 'upper edge', style: 'soft', x: radii, y: linear.map((p) => p.trackingErrorHighDeg) },
              { name: 'lower edge', style: 'soft', x: radii, y: linear.map((p) => p.trackingErrorLowDeg) },
            ]}
            marks={place.nullPointsMm.map((x) => ({ x }))}
            xLabel="groove radius"
            xUnit="mm"
            yLabel="tracking error, 95 settings in 100"
            yUnit="°"
            xDomain={[place.groove.innerMm, place.groove.outerMm]}
            xDecimals={1}
            height={270}
          />
        </div>
      </div>
    </section>
  );
}
