/** What was read off the sheet, or otherwise of how the arm stands. */
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { explainedOptionsOf } from '../../../core/job/fields/chosen.ts';
import { readChoices } from '../../../core/job/stations/place/choices.ts';
import { readFields } from '../../../core/job/stations/place/fields.ts';
import { rulerRadiusText, sheetRead } from '../../../core/job/stations/place/readRequest.ts';
import type { ReadTyped, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { OptionList } from '../../parts/OptionList.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { PointFields } from './PointFields.tsx';
import { HowRead, TheShell } from './ReadingLimits.tsx';
import { SheetChoice } from './SheetChoice.tsx';

const kinds = explainedOptionsOf(readChoices.kind);

/** names the form for whoever leads to it */
export const WHAT_WAS_READ = 'What you read';

export interface ReadingFormProps {
  readonly place: PlaceDocument;
  readonly typed: ReadTyped;
  readonly sheet: SheetTyped;
  set(patch: ReadTyped): void;
}

export function ReadingForm({ place, typed, sheet, set }: ReadingFormProps) {
  const kind = typed.kind ?? 'miss';
  const drawn = sheetRead(typed, sheet, place);
  return (
    <section class="card stack" aria-label={WHAT_WAS_READ}>
      <h3 class="strong">{WHAT_WAS_READ}</h3>
      {(kind === 'miss' || kind === 'twist') && (
        <>
          <p class="soft small">{say(statement('sight-cantilever'))}</p>
          <PointFields which="inner" kind={kind} typed={typed} drawn={drawn} set={set} />
          <Fold title="At the outer point too" answer={kind === 'miss' ? 'two are surer' : ''}>
            <PointFields which="outer" kind={kind} typed={typed} drawn={drawn} set={set} />
          </Fold>
        </>
      )}
      {kind === 'square' && (
        <div class="fields">
          <TypedFields of={readFields} names={['squareFirst', 'squareSecond']} typed={typed} set={set} />
        </div>
      )}
      {kind === 'ruler' && (
        <div class="fields">
          <TypedFields of={readFields} names={['rulerOverhang']} typed={typed} set={set} />
          <TypedFields of={readFields} names={['rulerTwist']} typed={typed} set={set} />
          {(typed.rulerTwist ?? '').trim() !== '' && (
            <FieldEntry
              field={readFields.rulerRadius}
              text={rulerRadiusText(typed, drawn)}
              onText={(rulerRadius) => set({ rulerRadius })}
            />
          )}
        </div>
      )}
      {kind === 'stated' && (
        <div class="fields">
          <TypedFields of={readFields} names={['statedLength', 'statedOffset']} typed={typed} set={set} />
        </div>
      )}
      <Fold title="Read another way" answer={kinds.find(({ value }) => value === kind)?.label}>
        <OptionList
          label={readChoices.kind.label}
          options={kinds}
          value={kind}
          onValue={(value) => set({ kind: value })}
        />
        {(kind === 'miss' || kind === 'twist') && <SheetChoice typed={typed} sheet={sheet} place={place} set={set} />}
      </Fold>
      <HowRead typed={typed} set={set} />
      <TheShell typed={typed} set={set} />
    </section>
  );
}
