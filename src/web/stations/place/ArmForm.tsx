/** What is known of the arm, what can be moved, which grooves it plays, and what it is to be set for. */
import { type CriterionName, criteria } from '../../../core/geometry/criteria.ts';
import { innerEdges, namedSpans, outerEdges } from '../../../core/geometry/span.ts';
import { Check, Choice, Select } from '../../parts/Choice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { spanOf, speedOf } from './armRequest.ts';
import { Unusable } from './fieldValue.ts';
import { OptionList } from './OptionList.tsx';
import {
  type ArmTyped,
  type Known,
  LENGTH,
  type Movable,
  OFFSET,
  OVERHANG,
  PIVOT,
  RADIUS,
  RPM,
  type Speed,
  WEIGHT,
} from './typed.ts';

export interface ArmFormProps {
  readonly typed: ArmTyped;
  set(patch: ArmTyped): void;
}

const known: readonly { value: Known; label: string }[] = [
  { value: 'spindle-to-pivot', label: 'spindle to pivot' },
  { value: 'effective-length', label: 'effective length' },
  { value: 'overhang', label: 'overhang' },
  { value: 'tangential', label: 'tangential arm' },
];

const movable: readonly { value: Movable; label: string; says: string }[] = [
  {
    value: 'both',
    label: 'slide and twist',
    says: 'Open slots: the cartridge can be slid and twisted as far as it takes.',
  },
  { value: 'slide', label: 'slide only', says: 'The cartridge cannot be twisted in its shell: the offset is fixed.' },
  { value: 'twist', label: 'twist only', says: 'The cartridge cannot be slid: the effective length is fixed.' },
  {
    value: 'slots',
    label: 'slots with ends',
    says: 'The slots or the shell stop somewhere; the best within them is found.',
  },
  { value: 'nothing', label: 'nothing', says: 'To see what an arm does that leaves nothing to move.' },
];

/** With another length known it is the pivot that can still be placed. */
const placeable: readonly { value: Movable; label: string; says: string }[] = [
  {
    value: 'both',
    label: 'pivot and twist',
    says: 'Where the pivot stands and how the cartridge is twisted are both open.',
  },
  { value: 'slide', label: 'pivot only', says: 'The cartridge cannot be twisted in its shell: the offset is fixed.' },
];

const spanWords: Readonly<Record<string, string>> = {
  '12in': '12-inch, RIAA 1963 inside, IEC 1958 outside',
  '12in-iec-1958': '12-inch, IEC 1958',
  '12in-iec-1964': '12-inch, RIAA 1963 inside, IEC 1964 outside',
  '12in-din-1981': '12-inch, DIN 1981',
  '10in': '10-inch',
  '7in': '7-inch',
  '78-12in': '78s, 12-inch',
  '78-10in': '78s, 10-inch',
};

const spans = [
  ...namedSpans
    .filter(({ name }) => Object.hasOwn(spanWords, name))
    .map(({ name, inner, outer }) => ({ value: name, label: `${spanWords[name]}: ${inner} to ${outer} mm` })),
  { value: 'own', label: 'my own records: two radii' },
];

const speeds: readonly { value: Speed; label: string }[] = [
  { value: '33', label: '33⅓' },
  { value: '45', label: '45' },
  { value: '78', label: '78.26' },
  { value: 'own', label: 'another' },
];

const aims = criteria.map(({ name, title, says }) => ({
  value: name as CriterionName,
  label: title,
  says: `${says.charAt(0).toUpperCase()}${says.slice(1)}.`,
}));

export function ArmForm({ typed, set }: ArmFormProps) {
  const what = typed.known ?? 'spindle-to-pivot';
  return (
    <section class="card stack place-arm" aria-label="This arm and these records">
      <h3 class="strong">This arm and these records</h3>
      <Choice
        label="What do you know of the arm?"
        options={known}
        value={what}
        onValue={(value) => set({ known: value })}
      />
      <div class="fields">
        {what === 'spindle-to-pivot' && (
          <NumberField
            label="Spindle to pivot"
            hint="Centre of the spindle to centre of the arm’s pivot, measured on this deck."
            text={typed.spindleToPivot}
            onText={(spindleToPivot) => set({ spindleToPivot })}
            {...PIVOT}
          />
        )}
        {what === 'effective-length' && (
          <NumberField
            label="Effective length"
            hint="Centre of the pivot to the stylus tip."
            text={typed.effectiveLength}
            onText={(effectiveLength) => set({ effectiveLength })}
            {...LENGTH}
          />
        )}
        {what === 'overhang' && (
          <NumberField
            label="Overhang"
            hint="How far the tip swings past the spindle."
            text={typed.overhang}
            onText={(overhang) => set({ overhang })}
            {...OVERHANG}
          />
        )}
        {what === 'tangential' && <Tangential typed={typed} set={set} />}
      </div>
      {what !== 'tangential' && <MovableFields typed={typed} set={set} whole={what === 'spindle-to-pivot'} />}
      {what === 'spindle-to-pivot' && <Elsewhere typed={typed} set={set} />}
      <Grooves typed={typed} set={set} />
      <OptionList
        label="Set it for"
        options={aims}
        value={typed.criterion ?? 'lofgren-a'}
        onValue={(criterion) => set({ criterion })}
      />
      {typed.criterion === 'even-music' && (
        <div class="fields">
          <NumberField
            label="Weight at the inner groove"
            hint="Any scale; straight between the two."
            text={typed.weightInner}
            onText={(weightInner) => set({ weightInner })}
            {...WEIGHT}
          />
          <NumberField
            label="Weight at the outer groove"
            hint="Lower here where the music lies further in."
            text={typed.weightOuter}
            onText={(weightOuter) => set({ weightOuter })}
            {...WEIGHT}
          />
        </div>
      )}
    </section>
  );
}

function Tangential({ typed, set }: ArmFormProps) {
  return (
    <>
      <NumberField
        label="Overhang that cannot be changed"
        hint="Leave empty where it can be set."
        text={typed.heldOverhang}
        onText={(heldOverhang) => set({ heldOverhang })}
        {...OVERHANG}
      />
      <NumberField
        label="Twist that cannot be changed"
        hint="Clockwise seen from above positive; leave empty where it can be set."
        text={typed.heldTwist}
        onText={(heldTwist) => set({ heldTwist })}
        {...OFFSET}
      />
    </>
  );
}

function MovableFields({ typed, set, whole }: ArmFormProps & { whole: boolean }) {
  const options = whole ? movable : placeable;
  const chosen = options.find(({ value }) => value === typed.movable) ?? options[0];
  const offset = chosen.value === 'slide' || chosen.value === 'nothing';
  const length = chosen.value === 'twist' || chosen.value === 'nothing';
  return (
    <div class="stack tight">
      <Choice
        label="What can be moved?"
        options={options}
        value={chosen.value}
        onValue={(value) => set({ movable: value })}
      />
      <p class="soft small" role="status">
        {chosen.says}
      </p>
      {(offset || length || chosen.value === 'slots') && (
        <div class="fields">
          {length && (
            <NumberField
              label="Fixed effective length"
              text={typed.heldLength}
              onText={(heldLength) => set({ heldLength })}
              {...LENGTH}
            />
          )}
          {offset && (
            <NumberField
              label="Fixed offset"
              hint="Cartridge against the line from pivot to tip."
              text={typed.heldOffset}
              onText={(heldOffset) => set({ heldOffset })}
              {...OFFSET}
            />
          )}
          {chosen.value === 'slots' && (
            <>
              <NumberField
                label="Shortest effective length"
                hint="Cartridge fully back."
                text={typed.slotsShortest}
                onText={(slotsShortest) => set({ slotsShortest })}
                {...LENGTH}
              />
              <NumberField
                label="Longest effective length"
                hint="Cartridge fully forward."
                text={typed.slotsLongest}
                onText={(slotsLongest) => set({ slotsLongest })}
                {...LENGTH}
              />
              <NumberField
                label="Least offset"
                hint="Both empty where the shell lets it turn freely."
                text={typed.turnLeast}
                onText={(turnLeast) => set({ turnLeast })}
                {...OFFSET}
              />
              <NumberField
                label="Largest offset"
                text={typed.turnMost}
                onText={(turnMost) => set({ turnMost })}
                {...OFFSET}
              />
            </>
          )}
        </div>
      )}
    </div>
  );
}

function Elsewhere({ typed, set }: ArmFormProps) {
  return (
    <div>
      <Check
        label="The pivot does not stand where the arm’s maker wants it"
        checked={typed.elsewhere === true}
        onChecked={(elsewhere) => set({ elsewhere })}
      />
      {typed.elsewhere === true && (
        <div class="fields">
          <NumberField
            label="Maker’s spindle to pivot"
            text={typed.makersPivot}
            onText={(makersPivot) => set({ makersPivot })}
            {...PIVOT}
          />
          <NumberField
            label="Maker’s effective length"
            text={typed.makersLength}
            onText={(makersLength) => set({ makersLength })}
            {...LENGTH}
          />
          <NumberField
            label="Maker’s offset"
            text={typed.makersOffset}
            onText={(makersOffset) => set({ makersOffset })}
            {...OFFSET}
          />
        </div>
      )}
    </div>
  );
}

/** The span as far as it is typed; null while it is not. */
function spanTyped(typed: ArmTyped) {
  try {
    return spanOf(typed);
  } catch (error) {
    if (error instanceof Unusable || error instanceof RangeError) return null;
    throw error;
  }
}

function Grooves({ typed, set }: ArmFormProps) {
  const span = spanTyped(typed);
  return (
    <div class="stack tight">
      <Select
        label="Which grooves?"
        options={spans}
        value={typed.grooves ?? '12in'}
        onValue={(grooves) => set({ grooves })}
      />
      {typed.grooves === 'own' && (
        <div class="fields">
          <NumberField
            label="Innermost groove"
            hint={`Radius; ${innerEdges['riaa-1963'].radius} is the usual 12-inch one.`}
            text={typed.inner}
            onText={(inner) => set({ inner })}
            {...RADIUS}
          />
          <NumberField
            label="Outermost groove"
            hint={`Radius; ${outerEdges['iec-1958'].radius} is the usual 12-inch one.`}
            text={typed.outer}
            onText={(outer) => set({ outer })}
            {...RADIUS}
          />
        </div>
      )}
      {span !== null && typed.grooves !== 'own' && <p class="soft small">Radii from: {span.source}.</p>}
      <Choice
        label="Speed, rpm"
        options={speeds}
        value={span === null ? (typed.speed ?? '33') : speedOf(typed, span)}
        onValue={(speed) => set({ speed })}
      />
      {typed.speed === 'own' && (
        <NumberField label="Turns a minute" text={typed.rpm} onText={(rpm) => set({ rpm })} {...RPM} />
      )}
    </div>
  );
}
