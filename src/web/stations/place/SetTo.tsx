/** Where the tip is to be set: overhang, offset and null points, big, each with how closely it is to be set. */

import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { nullSpread } from '../../../core/geometry/nullSpread.ts';
import { aimedArm } from '../../../core/job/stations/place/arms.ts';
import type { Known } from '../../../core/job/stations/place/typed.ts';
import { degToRad } from '../../../core/units/units.ts';
import { unitSign } from '../../../core/words/figure.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Figure } from '../../parts/Figure.tsx';

interface Tile {
  readonly title: string;
  readonly value: number;
  readonly unit: string;
  /** k = 2, in `unit`; null where what a hand makes of it stands in `says` */
  readonly within: number | null;
  readonly says: string;
}

function overhangWords(mm: number): string {
  if (Math.abs(mm) < 0.05) return 'the tip passes over the spindle’s centre';
  return mm < 0 ? 'the tip stops short of the spindle' : 'the tip past the spindle';
}

function tilesOf(place: PlaceDocument, known: Known): readonly Tile[] {
  const { overhangMm, twistDeg, spindleToPivotMm } = place.tolerance;
  const arm = aimedArm(place);
  const spread =
    arm === null
      ? null
      : nullSpread(arm, { overhang: overhangMm, twist: degToRad(twistDeg), spindleToPivot: spindleToPivotMm });
  const nulls = place.nullPointsMm;
  const tiles: Tile[] = [];
  if (arm !== null && known !== 'spindle-to-pivot') {
    tiles.push({
      title: 'Spindle to pivot',
      value: arm.spindleToPivot,
      unit: 'mm',
      within: spindleToPivotMm,
      says: 'where the pivot is to be',
    });
  }
  if (known !== 'overhang') {
    tiles.push({
      title: 'Overhang',
      value: place.overhangMm,
      unit: 'mm',
      within: overhangMm,
      says: overhangWords(place.overhangMm),
    });
  }
  tiles.push({
    title: arm === null ? 'Twist' : 'Offset',
    value: place.offsetDeg,
    unit: 'deg',
    within: twistDeg,
    says: arm === null ? 'against the groove’s direction' : 'cartridge against the line pivot to tip',
  });
  for (const [i, radius] of nulls.entries()) {
    tiles.push({
      title: nulls.length === 1 ? 'Null point' : i === 0 ? 'Inner null point' : 'Outer null point',
      value: radius,
      unit: 'mm',
      within: null,
      says:
        spread === null
          ? 'radius where it is square; within your tolerances it may be gone'
          : `square; by hand ${(radius - spread[i]).toFixed(0)} to ${(radius + spread[i]).toFixed(0)} mm`,
    });
  }
  return tiles;
}

export function SetTo({ place, known }: { place: PlaceDocument; known: Known }) {
  const tiles = tilesOf(place, known);
  return (
    <section aria-label="Set the tip here">
      <div class="set-to">
        {tiles.map((tile) => (
          <div class="card" key={tile.title}>
            <h3>{tile.title}</h3>
            {tile.within === null ? (
              <p class="figure mid">
                {showNumber(tile.value, 1)}
                <span class="unit">{'\u00a0'}mm</span>
              </p>
            ) : (
              <Figure size="mid" value={tile.value} unit={tile.unit} uncertainty={tile.within} />
            )}
            <p class="soft small">{tile.says}</p>
          </div>
        ))}
      </div>
      <p class="unseen" role="status">
        {tiles.map(({ title, value, unit }) => `${title} ${showNumber(value, 1)} ${unitSign(unit)}`).join(', ')}
      </p>
      <p class="soft small under">
        ± is your tolerance, 95 settings in 100.
        {place.nullPointsMm.length === 0 && place.kind === 'pivoted' && ` ${say(statement('no-null-point'))}`}
      </p>
    </section>
  );
}
