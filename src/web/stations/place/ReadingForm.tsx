/** What was read off the sheet, or otherwise of how the arm stands. */
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { usualReadingUncertainty } from '../../../core/geometry/readings.ts';
import { USUAL_TIP_AHEAD } from '../../../core/geometry/slide.ts';
import { Select } from '../../parts/Choice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { OptionList } from './OptionList.tsx';
import { radiusText, rulerRadiusText, sheetRead } from './readRequest.ts';
import {
  ACROSS,
  ALONG,
  type DrawnSheet,
  LENGTH,
  OFFSET,
  OVERHANG,
  PIVOT,
  type PointTyped,
  RADIUS,
  type ReadingKind,
  type ReadTyped,
  type SheetFor,
  type SheetTyped,
  SLOT_ANGLE,
  SLOT_LEFT,
  TIP_AHEAD,
  TURN_LEFT,
  TWIST,
  WITHIN_DEG,
  WITHIN_MM,
  WITHIN_PIVOT,
} from './typed.ts';

const kinds: readonly { value: ReadingKind; label: string; says: string }[] = [
  {
    value: 'miss',
    label: 'the tip’s miss on the arc sheet',
    says: 'How far the tip stands off a cross, and how the cartridge is turned there. One point is enough, two are surer.',
  },
  {
    value: 'twist',
    label: 'the twist at both points of the two-point sheet',
    says: 'How the cartridge is turned against the long lines at each point.',
  },
  {
    value: 'square',
    label: 'the two radii where it stands square',
    says: 'Anywhere on a sheet with lines: where the cartridge stands parallel to the groove.',
  },
  { value: 'ruler', label: 'the overhang, by ruler', says: 'How far the tip swings past the spindle’s centre.' },
  {
    value: 'stated',
    label: 'effective length and offset, from elsewhere',
    says: 'A maker’s figures, or what was measured another way.',
  },
];

export interface ReadingFormProps {
  readonly place: PlaceDocument;
  readonly typed: ReadTyped;
  readonly sheet: SheetTyped;
  set(patch: ReadTyped): void;
}

type Which = 'inner' | 'outer';

export function ReadingForm({ place, typed, sheet, set }: ReadingFormProps) {
  const kind = typed.kind ?? 'miss';
  const drawn = sheetRead(typed, sheet, place);
  return (
    <section class="card stack" aria-label="What you read">
      <h3 class="strong">What you read</h3>
      <OptionList label="You read" options={kinds} value={kind} onValue={(value) => set({ kind: value })} />
      {(kind === 'miss' || kind === 'twist') && <SheetChoice typed={typed} sheet={sheet} place={place} set={set} />}
      {(kind === 'miss' || kind === 'twist') && (
        <>
          <p class="soft small">
            Sight the cantilever where you can see it, not the body: the two need not be parallel.
          </p>
          <Point which="inner" kind={kind} typed={typed} drawn={drawn} set={set} />
          <Point which="outer" kind={kind} typed={typed} drawn={drawn} set={set} />
        </>
      )}
      {kind === 'square' && (
        <div class="fields">
          <NumberField
            label="First radius"
            hint="From the centre of the spindle."
            text={typed.squareFirst}
            onText={(squareFirst) => set({ squareFirst })}
            {...RADIUS}
          />
          <NumberField
            label="Second radius"
            text={typed.squareSecond}
            onText={(squareSecond) => set({ squareSecond })}
            {...RADIUS}
          />
        </div>
      )}
      {kind === 'ruler' && (
        <div class="fields">
          <NumberField
            label="Overhang by ruler"
            hint="Tip past the spindle’s centre, with the arm swung over it."
            text={typed.rulerOverhang}
            onText={(rulerOverhang) => set({ rulerOverhang })}
            {...OVERHANG}
          />
          <TwistField
            label="Twist at a point of the sheet"
            text={typed.rulerTwist}
            onText={(rulerTwist) => set({ rulerTwist })}
            hint="Empty where not read. Clockwise seen from above is positive."
          />
          {(typed.rulerTwist ?? '').trim() !== '' && (
            <NumberField
              label="Radius of that point"
              text={rulerRadiusText(typed, drawn)}
              onText={(rulerRadius) => set({ rulerRadius })}
              {...RADIUS}
            />
          )}
        </div>
      )}
      {kind === 'stated' && (
        <div class="fields">
          <NumberField
            label="Effective length as it stands"
            text={typed.statedLength}
            onText={(statedLength) => set({ statedLength })}
            {...LENGTH}
          />
          <NumberField
            label="Offset as it stands"
            text={typed.statedOffset}
            onText={(statedOffset) => set({ statedOffset })}
            {...OFFSET}
          />
        </div>
      )}
      <HowRead typed={typed} set={set} />
      <TheShell typed={typed} set={set} />
    </section>
  );
}

function TwistField(props: { label: string; text: string | undefined; onText(text: string): void; hint?: string }) {
  return <NumberField {...props} {...TWIST} />;
}

interface PointProps {
  readonly which: Which;
  readonly kind: 'miss' | 'twist';
  readonly typed: ReadTyped;
  readonly drawn: DrawnSheet | null;
  set(patch: ReadTyped): void;
}

function Point({ which, kind, typed, drawn, set }: PointProps) {
  const point = typed[which] ?? {};
  const put = (patch: PointTyped): void => set({ [which]: { ...point, ...patch } });
  return (
    <fieldset class="point">
      <legend>At the {which} point</legend>
      <div class="fields">
        <NumberField
          label={`Radius of the ${which} point`}
          text={radiusText(typed, which, drawn)}
          onText={(radius) => put({ radius })}
          {...RADIUS}
        />
        {kind === 'miss' && (
          <>
            <NumberField
              label="Tip off the cross, forward"
              hint="Along the long lines, towards the shell’s front; minus: behind the cross."
              text={point.along}
              onText={(along) => put({ along })}
              {...ALONG}
            />
            <NumberField
              label="Tip off the cross, outward"
              hint="Across them, towards the rim; minus: towards the spindle."
              text={point.across}
              onText={(across) => put({ across })}
              {...ACROSS}
            />
          </>
        )}
        <TwistField
          label="Cartridge turned clockwise"
          hint="Against the long lines, from above; minus: anticlockwise."
          text={point.twist}
          onText={(twist) => put({ twist })}
        />
      </div>
    </fieldset>
  );
}

function SheetChoice({ place, typed, sheet, set }: ReadingFormProps) {
  const miss = (typed.kind ?? 'miss') === 'miss';
  const printed = miss ? sheet.drawnArc : sheet.drawnTwoPoint;
  if (!miss && printed === undefined) return null;
  const { spindleToPivotMm: d, effectiveLengthMm: L } = place;
  const numbers = (sheetNumbers: DrawnSheet) =>
    `${sheetNumbers.spindleToPivotMm.toFixed(2)} / ${sheetNumbers.effectiveLengthMm.toFixed(2)} mm`;
  const differs =
    printed !== undefined &&
    (d === null ||
      L === null ||
      Math.abs(printed.spindleToPivotMm - d) > 0.005 ||
      Math.abs(printed.effectiveLengthMm - L) > 0.005);
  const options: { value: SheetFor; label: string }[] = [
    ...(printed === undefined
      ? []
      : [{ value: 'printed' as const, label: `the one saved or printed here last, for ${numbers(printed)}` }]),
    { value: 'solved', label: 'for the arm above, as it is now' },
    ...(miss ? [{ value: 'other' as const, label: 'for other numbers, which stand on it' }] : []),
  ];
  const value = typed.sheetFor ?? (printed === undefined ? 'solved' : 'printed');
  return (
    <div class="stack tight">
      <Select
        label="The sheet that was read was drawn"
        options={options}
        value={options.some((option) => option.value === value) ? value : 'solved'}
        onValue={(sheetFor) => set({ sheetFor })}
      />
      {differs && value === 'printed' && (
        <p class="soft small">
          The numbers above have changed since that sheet was drawn. The reading is still taken for what is on the
          paper.
        </p>
      )}
      {value === 'other' && (
        <div class="fields">
          <NumberField
            label="Sheet’s spindle to pivot"
            text={typed.sheetPivot}
            onText={(sheetPivot) => set({ sheetPivot })}
            {...PIVOT}
          />
          <NumberField
            label="Sheet’s effective length"
            text={typed.sheetLength}
            onText={(sheetLength) => set({ sheetLength })}
            {...LENGTH}
          />
        </div>
      )}
    </div>
  );
}

interface FormPart {
  readonly typed: ReadTyped;
  set(patch: ReadTyped): void;
}

function HowRead({ typed, set }: FormPart) {
  const usual = usualReadingUncertainty;
  const ruler = typed.kind === 'ruler' || typed.kind === 'stated';
  return (
    <details>
      <summary>How well it was read</summary>
      <div class="fields">
        <NumberField
          label="Lengths to within ±"
          hint={`${ruler ? usual.overhang : usual.along} when left empty: an eye with ${ruler ? 'a steel ruler' : 'a lens on a 1 mm grid'}.`}
          text={typed.withinMm}
          onText={(withinMm) => set({ withinMm })}
          {...WITHIN_MM}
        />
        <NumberField
          label="Angles to within ±"
          hint={typed.kind === 'stated' ? '1 when left empty.' : '0.5 when left empty.'}
          text={typed.withinDeg}
          onText={(withinDeg) => set({ withinDeg })}
          {...WITHIN_DEG}
        />
        <NumberField
          label="Spindle to pivot known to within ±"
          hint={`${usual.spindleToPivot} when left empty.`}
          text={typed.withinPivot}
          onText={(withinPivot) => set({ withinPivot })}
          {...WITHIN_PIVOT}
        />
      </div>
      <p class="soft small">All k = 2: true 95 times in 100. The defaults are common practice, not from a source.</p>
    </details>
  );
}

function TheShell({ typed, set }: FormPart) {
  return (
    <details>
      <summary>What the shell allows</summary>
      <div class="fields">
        <NumberField
          label="Slot left forward"
          hint="From where the cartridge is now; empty: enough."
          text={typed.slotsForward}
          onText={(slotsForward) => set({ slotsForward })}
          {...SLOT_LEFT}
        />
        <NumberField
          label="Slot left back"
          text={typed.slotsBack}
          onText={(slotsBack) => set({ slotsBack })}
          {...SLOT_LEFT}
        />
        <NumberField
          label="Turn left, either way"
          text={typed.turnLeft}
          onText={(turnLeft) => set({ turnLeft })}
          {...TURN_LEFT}
        />
        <NumberField
          label="Tip ahead of the screws"
          hint={`${USUAL_TIP_AHEAD} when left empty, from memory: measure the cartridge.`}
          text={typed.tipAhead}
          onText={(tipAhead) => set({ tipAhead })}
          {...TIP_AHEAD}
        />
        <NumberField
          label="Angle of the slots"
          hint="Against the line pivot to tip; empty: along the cartridge."
          text={typed.slotAngle}
          onText={(slotAngle) => set({ slotAngle })}
          {...SLOT_ANGLE}
        />
      </div>
    </details>
  );
}
