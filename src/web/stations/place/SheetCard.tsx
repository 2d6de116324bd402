/** Sheets to set the cartridge by: what to print, on which paper, and what the printer makes of 100 mm. */

import type { PaperName } from '../../../core/draw/paper.ts';
import { toPdf } from '../../../core/draw/pdf.ts';
import type { Drawing } from '../../../core/draw/shape.ts';
import { ringWords } from '../../../core/draw/strobe.ts';
import { toSvg } from '../../../core/draw/svg.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { explainedOptionsOf, optionsOf } from '../../../core/job/fields/chosen.ts';
import { aimedArm } from '../../../core/job/stations/place/arms.ts';
import { sheetChoices } from '../../../core/job/stations/place/choices.ts';
import { sheetFields } from '../../../core/job/stations/place/fields.ts';
import { Unusable } from '../../../core/job/stations/place/fieldValue.ts';
import type { DrawnSheet, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import { type Statement, say, sentence, statement } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { OptionList } from '../../parts/OptionList.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { docsPath } from '../../route.ts';
import { saveFile } from '../../saveFile.ts';
import { DrawingView } from './DrawingView.tsx';
import { printSheets } from './printSheets.ts';
import { type Measured, measuredOf, scaleOf, strobeSheet, templateSheets } from './sheets.ts';

const styles = explainedOptionsOf(sheetChoices.style);
const papers = optionsOf(sheetChoices.paper);

export interface SheetCardProps {
  readonly place: PlaceDocument;
  readonly typed: SheetTyped;
  set(patch: SheetTyped): void;
}

function measuredTyped(typed: SheetTyped): { measured: Measured } | { wrong: Statement } {
  try {
    return { measured: measuredOf(typed) };
  } catch (error) {
    if (!(error instanceof Unusable)) throw error;
    return { wrong: error.missing ? statement('measure-across-too') : error.why };
  }
}

export function SheetCard({ place, typed, set }: SheetCardProps) {
  const style = typed.style ?? 'arc';
  const paper = typed.paper ?? 'a4';
  const printer = measuredTyped(typed);
  const measured = 'measured' in printer ? printer.measured : null;
  const sheets = templateSheets(place, style, paper, measured);
  const drawn = (): void => {
    const arm = aimedArm(place);
    if (arm === null) return;
    const numbers: DrawnSheet = {
      spindleToPivotMm: arm.spindleToPivot,
      effectiveLengthMm: arm.effectiveLength,
      nullPointsMm: place.nullPointsMm,
    };
    set(style === 'arc' ? { drawnArc: numbers } : { drawnTwoPoint: numbers });
  };
  return (
    <section class="card stack" id="place-sheet" aria-label="A template to set it by">
      <h3 class="strong">A template to set it by</h3>
      <Caution title="With a template on the platter:">{say(statement('template-caution'))}</Caution>
      <div class="do">
        <div class="stack">
          <OptionList
            label={sheetChoices.style.label}
            options={styles}
            value={style}
            onValue={(value) => set({ style: value })}
          />
          <div class="fields">
            <Choice
              label={sheetChoices.paper.label}
              options={papers}
              value={paper}
              onValue={(value) => set({ paper: value })}
            />
          </div>
          <div class="fields">
            <TypedFields of={sheetFields} names={['madeAcross', 'madeDown']} typed={typed} set={set} />
          </div>
          <div class="notice">
            <p>
              <b>{say(statement('measure-bars'))}</b> {say(statement('print-at-100'))}
            </p>
          </div>
        </div>
        <div class="stack">
          {sheets.found ? (
            <Pages drawings={sheets.value} name={style === 'arc' ? 'Arc template' : 'Two-point template'} />
          ) : (
            <p>
              <b>Not drawn:</b> {say(sheets.why)}.
            </p>
          )}
        </div>
      </div>
      {'wrong' in printer ? (
        <p class="wrong-line" role="alert">
          {sentence(printer.wrong)}
        </p>
      ) : (
        sheets.found && (
          <SheetButtons
            name={`${style}-sheet-${paper}`}
            what={style === 'arc' ? 'arc template' : 'two-point template'}
            drawings={sheets.value}
            measured={printer.measured}
            main
            onMade={drawn}
          />
        )
      )}
      <p class="small">
        <a href={docsPath('methods/templates')}>How true to scale the templates are, and how that was proved</a>
      </p>
      {!('wrong' in printer) && <Strobe typed={typed} paper={paper} measured={printer.measured} set={set} />}
    </section>
  );
}

function Pages({ drawings, name }: { drawings: readonly Drawing[]; name: string }) {
  return (
    <div class="pages">
      {drawings.map((drawing, i) => (
        <DrawingView
          key={drawing.title}
          class="paper"
          drawing={drawing}
          name={
            drawings.length === 1
              ? `${name}, as it prints`
              : `${name}, page ${i + 1} of ${drawings.length}, as it prints`
          }
        />
      ))}
    </div>
  );
}

interface SheetButtonsProps {
  /** of the file, without its ending */
  readonly name: string;
  readonly what: string;
  readonly drawings: readonly Drawing[];
  readonly measured: Measured;
  readonly main?: boolean;
  onMade?(): void;
}

function SheetButtons({ name, what, drawings, measured, main = false, onMade }: SheetButtonsProps) {
  const scale = scaleOf(measured);
  const made = (make: () => void) => () => {
    make();
    onMade?.();
  };
  const savePdf = () => saveFile(`${name}.pdf`, 'application/pdf', toPdf(drawings, scale));
  const saveSvg = () => {
    for (const [i, drawing] of drawings.entries()) {
      const file = drawings.length === 1 ? `${name}.svg` : `${name}-${i + 1}.svg`;
      saveFile(file, 'image/svg+xml', toSvg(drawing, scale));
    }
  };
  return (
    <div class="buttons">
      <button type="button" class={main ? 'button main' : 'button'} onClick={made(savePdf)}>
        Save the {what} as PDF
      </button>
      <button type="button" class="button" onClick={made(() => printSheets(drawings, scale))}>
        Print the {what}
      </button>
      <button type="button" class="button" onClick={made(saveSvg)}>
        Save the {what} as SVG
      </button>
    </div>
  );
}

interface StrobeProps {
  readonly typed: SheetTyped;
  readonly paper: PaperName;
  readonly measured: Measured;
  set(patch: SheetTyped): void;
}

function Strobe({ typed, paper, measured, set }: StrobeProps) {
  const mains = typed.mains ?? '50';
  const { drawing, rings } = strobeSheet(mains, paper, measured);
  return (
    <details class="fold strobe">
      <summary>
        <h3>A strobe disc on the same paper</h3>
      </summary>
      <div class="stack">
        <Choice
          label={sheetChoices.mains.label}
          options={optionsOf(sheetChoices.mains)}
          value={mains}
          onValue={(value) => set({ mains: value })}
        />
        <ul class="small">
          {rings.map((ring) => (
            <li key={ring.nominalRpm}>{ringWords(ring)}</li>
          ))}
        </ul>
        <SheetButtons name={`strobe-${mains}hz-${paper}`} what="strobe disc" drawings={[drawing]} measured={measured} />
      </div>
    </details>
  );
}
