/** Beside the move: where the tip belongs, arm and records, sheets to print, curves and tolerances. */

import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { nullPointsText } from '../../../core/geometry/nullWords.ts';
import type { ArmTyped, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import type { PlaceTyped } from '../../../core/job/stations/place.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Fold } from '../../parts/Fold.tsx';
import { ArmForm, type ArmFormProps } from './ArmForm.tsx';
import { CriteriaCard } from './CriteriaCard.tsx';
import { CurvesCard } from './CurvesCard.tsx';
import { LimitsCard } from './LimitsCard.tsx';
import { PlanCard } from './PlanCard.tsx';
import { SetTo } from './SetTo.tsx';
import { SheetCard } from './SheetCard.tsx';
import { ToleranceCard } from './ToleranceCard.tsx';

export interface PlaceFoldsProps {
  readonly place: PlaceDocument;
  readonly typed: Pick<PlaceTyped, 'arm' | 'sheet'>;
  readonly fallbacks: ArmFormProps['fallbacks'];
  setArm(patch: ArmTyped): void;
  setSheet(patch: SheetTyped): void;
  /** says that the arm's base was moved on the deck */
  onBaseMoved(): void;
}

export function PlaceFolds({ place, typed, fallbacks, setArm, setSheet, onBaseMoved }: PlaceFoldsProps) {
  const arm = typed.arm ?? {};
  const { low, high } = place.tolerance.peakDistortionPercent;
  return (
    <div class="folds">
      {place.asItStands !== null && (
        <Fold title="Where the tip belongs" answer={`overhang ${showNumber(place.overhangMm, 1)} mm`}>
          <SetTo place={place} known={arm.known ?? 'spindle-to-pivot'} />
        </Fold>
      )}
      <Fold title="Arm and records" answer={armGist(place)}>
        <div class="do">
          <ArmForm typed={arm} set={setArm} fallbacks={fallbacks} />
          <div class="stack">
            {place.spindleToPivotMm !== null && (
              <BaseMoved
                place={place}
                aimed={(arm.known ?? 'spindle-to-pivot') !== 'spindle-to-pivot'}
                onMoved={onBaseMoved}
              />
            )}
            <PlanCard place={place} />
            <LimitsCard place={place} />
          </div>
        </div>
      </Fold>
      <Fold title="Template to print" answer="arc or two-point">
        <SheetCard place={place} typed={typed.sheet ?? {}} set={setSheet} />
      </Fold>
      <Fold title="Curves" answer={nullPointsText(place)}>
        <CurvesCard place={place} />
      </Fold>
      {place.criteria.length > 0 && (
        <Fold title="Other criteria" answer={`${place.criteria.length} compared`}>
          <CriteriaCard place={place} />
        </Fold>
      )}
      <Fold
        title="How closely to set it"
        answer={`peak second harmonic ${low.toFixed(1)} to ${high.toFixed(1)} %, set by hand`}
      >
        <ToleranceCard place={place} typed={arm} set={setArm} />
      </Fold>
    </div>
  );
}

function BaseMoved({ place, aimed, onMoved }: { place: PlaceDocument; aimed: boolean; onMoved(): void }) {
  return (
    <section class="card stack" aria-label="The arm’s base">
      <h3 class="strong">The arm’s base</h3>
      <p>
        {aimed
          ? say(statement('set-pivot-at', { mm: place.spindleToPivotMm ?? 0 }))
          : say(statement('measure-pivot-again'))}
      </p>
      <div class="buttons">
        <button type="button" class="button" onClick={onMoved}>
          I moved the arm’s base
        </button>
        <span class="soft small">{say(statement('base-marks'))}</span>
      </div>
    </section>
  );
}

/** "226.5 mm, 60.3 to 146.1 mm": the arm and the grooves that the answer is for. */
function armGist({ spindleToPivotMm, groove }: PlaceDocument): string {
  const pivot = spindleToPivotMm === null ? 'tangential arm' : `spindle to pivot ${spindleToPivotMm.toFixed(1)} mm`;
  return `${pivot}, grooves from ${showNumber(groove.innerMm, 1)} to ${showNumber(groove.outerMm, 1)} mm`;
}
