/** Single figures, typed over the parts' or without any part; each says where the figure in use comes from. */
import { useState } from 'preact/hooks';
import { type MatchFigure, matchFigures } from '../../../core/advise/matchInput.ts';
import { quantityText, readQuantity } from '../../../core/job/fields/quantity.ts';
import { figureGroups, figureHelp, figureLabels } from '../../../core/job/stations/match/figureGroups.ts';
import { boundsOf, classesFor, classesInUse, type Said } from '../../../core/job/stations/match/matchData.ts';
import type { TypicalClass } from '../../../core/job/typicalClasses.ts';
import { rangeText } from '../../../core/job/typicalParts.ts';
import { Select } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import type { Match } from '../../useMatch.ts';

export function TypedFigures({ match }: { match: Match }) {
  const { data, reading } = match;
  const anyTyped = Object.values(data.typed ?? {}).some((text) => text.trim() !== '');
  const [open, setOpen] = useState(anyTyped);
  const classes = classesInUse(data, reading);
  return (
    <details class="fold typed-figures" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>Every figure, and single ones typed over</h3>
      </summary>
      <p class="soft small">
        What is typed here goes over the part’s figure, for this job alone. Empty it to have the part’s again.
      </p>
      {open && (
        <div class="stack">
          {figureGroups.map((group, i) => (
            <fieldset key={group.title}>
              <legend>{group.title}</legend>
              <div class="fields">
                {group.figures.map((figure) => (
                  <FigureEntry key={figure} figure={figure} match={match} inUse={classes.get(figure)} />
                ))}
                {i === 0 && <SaidFields match={match} />}
                {group.figures.includes('coilResistanceOhm') && <PrincipleField match={match} />}
              </div>
            </fieldset>
          ))}
        </div>
      )}
    </details>
  );
}

interface FigureEntryProps {
  readonly figure: MatchFigure;
  readonly match: Match;
  readonly inUse: TypicalClass | undefined;
}

function FigureEntry({ figure, match, inUse }: FigureEntryProps) {
  const { data, reading } = match;
  const { unit } = matchFigures[figure];
  const text = data.typed?.[figure] ?? '';
  const put = (typed: string, typical = ''): void =>
    match.set({
      typed: { ...data.typed, [figure]: typed },
      typical: { ...data.typical, [figure]: typical },
      // a class of compliance is meant as at 10 Hz
      ...(typical !== '' && figure === 'complianceUmPerMn'
        ? { said: { ...data.said, complianceAt: '10hz' as const } }
        : {}),
    });
  const fromPart = reading.fromParts[figure];
  const typed = readQuantity(text, boundsOf(figure));
  const source =
    inUse !== undefined
      ? `${inUse.name}, ${rangeText(inUse)}: common practice`
      : 'value' in typed
        ? `typed here${/[a-zµΩ°]/i.test(text) ? `: ${quantityText(typed.value, unit)}` : ''}${fromPart === undefined ? '' : `, over the part’s ${quantityText(fromPart, unit)}`}`
        : fromPart === undefined
          ? 'not known'
          : `from the parts: ${quantityText(fromPart, unit)}`;
  const help = figureHelp[figure];
  const choices = classesFor(figure);
  return (
    <div class="figure-entry">
      <FieldEntry
        field={{ label: figureLabels[figure], ...boundsOf(figure) }}
        text={text}
        onText={(next) => put(next)}
        hint={`${source}${help === undefined ? '' : ` (${help})`}`}
      />
      {choices.length > 0 && (fromPart === undefined || text !== '') && (
        <Select
          label={`${figureLabels[figure]}: a typical class`}
          options={[
            { value: '', label: 'none' },
            ...choices.map((one) => ({ value: one.name, label: `${one.name}, ${one.usual} ${one.unit}` })),
          ]}
          value={data.typical?.[figure] ?? ''}
          onValue={(name) => {
            const one = choices.find((candidate) => candidate.name === name);
            put(one === undefined ? '' : String(one.usual), one?.name);
          }}
        />
      )}
    </div>
  );
}

const partSays = (what: string | undefined): string => (what === undefined ? 'not known' : `as the part says: ${what}`);

function SaidFields({ match }: { match: Match }) {
  const { data, reading } = match;
  const say = (patch: Said): void => match.set({ said: { ...data.said, ...patch } });
  const bases = { static: 'at rest (static)', '10hz': 'at 10 Hz', '100hz': 'at 100 Hz' } as const;
  const masses = { bare: 'without the headshell', 'with-headshell': 'with the headshell' } as const;
  const { complianceAt, effectiveMassIs } = reading.fromParts;
  return (
    <>
      <Select
        label="Compliance is quoted"
        options={[
          { value: '', label: partSays(complianceAt && bases[complianceAt]) },
          { value: 'static', label: bases.static },
          { value: '10hz', label: bases['10hz'] },
          { value: '100hz', label: bases['100hz'] },
        ]}
        value={data.said?.complianceAt ?? ''}
        onValue={(value) => say({ complianceAt: value as Said['complianceAt'] })}
      />
      <Select
        label="Effective mass is quoted"
        options={[
          { value: '', label: partSays(effectiveMassIs && masses[effectiveMassIs]) },
          { value: 'bare', label: masses.bare },
          { value: 'with-headshell', label: masses['with-headshell'] },
        ]}
        value={data.said?.effectiveMassIs ?? ''}
        onValue={(value) => say({ effectiveMassIs: value as Said['effectiveMassIs'] })}
      />
    </>
  );
}

function PrincipleField({ match }: { match: Match }) {
  const { data, reading } = match;
  const words = {
    'moving-magnet': 'moving magnet',
    'moving-iron': 'moving iron',
    'moving-coil': 'moving coil',
  } as const;
  const { principle } = reading.fromParts;
  return (
    <Select
      label="Principle"
      options={[
        { value: '', label: partSays(principle && words[principle]) },
        { value: 'moving-magnet', label: words['moving-magnet'] },
        { value: 'moving-iron', label: words['moving-iron'] },
        { value: 'moving-coil', label: words['moving-coil'] },
      ]}
      value={data.said?.principle ?? ''}
      onValue={(value) => match.set({ said: { ...data.said, principle: value as Said['principle'] } })}
    />
  );
}
