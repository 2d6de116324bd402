/** What the limits of the arm cost, and what can be done about a pivot that stands elsewhere. */

import { criteria } from '../../../core/geometry/criteria.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { ScrollTable } from '../../parts/ScrollTable.tsx';

export function LimitsCard({ place }: { place: PlaceDocument }) {
  const { limits, pivotChoices } = place;
  const withheld = place.withheld.find(({ quantity }) => quantity === 'pivot choices');
  if ((limits === null || limits.heldBy.length === 0) && pivotChoices === null && withheld === undefined) return null;
  return (
    <section class="card stack" aria-label="What the arm does not allow">
      {limits !== null && limits.heldBy.length > 0 && <Held limits={limits} place={place} />}
      {withheld !== undefined && <p>{say(statement('no-choice-for-pivot', { why: withheld.why }))}</p>}
      {pivotChoices !== null && (
        <div>
          <h3>With the pivot where it is</h3>
          <ScrollTable
            name="With the pivot where it is"
            heads={[
              'What to do',
              'effective length, mm',
              'offset, °',
              'highest 2nd harmonic, %',
              'rms over the side, %',
            ]}
          >
            {pivotChoices.map(({ choice, does, figures }) => (
              <tr key={choice}>
                <th scope="row">{does}</th>
                <td>{figures.effectiveLengthMm?.toFixed(2)}</td>
                <td>{showNumber(figures.offsetDeg, 2)}</td>
                <td>{figures.peakDistortionPercent.toFixed(2)}</td>
                <td>{figures.rmsDistortionPercent.toFixed(2)}</td>
              </tr>
            ))}
          </ScrollTable>
        </div>
      )}
    </section>
  );
}

function Held({ place, limits }: { place: PlaceDocument; limits: NonNullable<PlaceDocument['limits']> }) {
  const different = criteria.find(({ name }) => name === place.criterion)?.withinLimits;
  const { heldBy, free, costsPeakPercent: peak, costsRmsPercent: rms } = limits;
  return (
    <div>
      <h3>The best that remains</h3>
      <p class="aim">{say(statement('held-by', { by: heldBy.join(' and ') }))}</p>
      {different !== undefined && <p>{say(different)}</p>}
      {free === null || peak === null || rms === null ? (
        <p>{say(statement('nothing-to-compare'))}</p>
      ) : (
        <p>
          {say(
            statement('against-open-arm', {
              peak: place.peakDistortionPercent,
              freePeak: free.peakDistortionPercent,
              morePeak: peak,
              rms: place.rmsDistortionPercent,
              freeRms: free.rmsDistortionPercent,
              moreRms: rms,
            }),
          )}
        </p>
      )}
    </div>
  );
}
