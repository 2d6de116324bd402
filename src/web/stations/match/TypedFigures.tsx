/** Single figures, typed over the parts' or without any part; each says where the figure in use comes from. */
import { useState } from 'preact/hooks';
import type { MatchFigure } from '../../../core/advise/matchInput.ts';
import { type Chosen, optionsOf } from '../../../core/job/fields/chosen.ts';
import { quantityText, readQuantity } from '../../../core/job/fields/quantity.ts';
import { typedIn } from '../../../core/job/partWords.ts';
import { matchFields, saidChoices } from '../../../core/job/stations/match/fields.ts';
import { figureGroups } from '../../../core/job/stations/match/figureGroups.ts';
import { classesFor, classesInUse } from '../../../core/job/stations/match/matchData.ts';
import type { TypicalClass } from '../../../core/job/typicalClasses.ts';
import { rangeText } from '../../../core/job/typicalParts.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Select } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import type { Match } from '../../useMatch.ts';

export function TypedFigures({ match }: { match: Match }) {
  const { data, reading } = match;
  const typed = Object.values(data.typed ?? {}).filter((text) => text.trim() !== '').length;
  const [open, setOpen] = useState(false);
  const classes = classesInUse(data, reading);
  return (
    <details class="fold typed-figures" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>Every figure, and single ones typed over</h3>
        {typed > 0 && <span class="soft">{typed} typed</span>}
      </summary>
      <p class="soft small">{say(statement('typed-over-part'))}</p>
      {open && (
        <div class="stack">
          {figureGroups.map((group, i) => (
            <fieldset key={group.title}>
              <legend>{group.title}</legend>
              <div class="fields">
                {group.figures.map((figure) => (
                  <FigureEntry key={figure} figure={figure} match={match} inUse={classes.get(figure)} />
                ))}
                {i === 0 && <SaidField name="complianceAt" match={match} />}
                {i === 0 && <SaidField name="effectiveMassIs" match={match} />}
                {group.figures.includes('coilResistanceOhm') && <SaidField name="principle" match={match} />}
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
  const field = matchFields[figure];
  const { unit, usual } = field;
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
  const asPart =
    fromPart === undefined
      ? ''
      : (typedIn(Object.values(reading.chosen), figure, fromPart, unit) ?? quantityText(fromPart, unit));
  const typed = readQuantity(text, field);
  const source =
    inUse !== undefined
      ? `${inUse.name}, ${rangeText(inUse)}: common practice`
      : 'value' in typed
        ? `typed here${/[a-zµΩ°]/i.test(text) ? `: ${quantityText(typed.value, unit)}` : ''}${fromPart === undefined ? '' : `, over the part’s ${asPart}`}`
        : fromPart !== undefined
          ? `from the parts: ${asPart}`
          : usual === undefined
            ? 'not known'
            : `${quantityText(usual.value, unit)}, ${usual.from}`;
  const choices = classesFor(figure);
  return (
    <div class="figure-entry">
      <FieldEntry
        field={field}
        text={text}
        onText={(next) => put(next)}
        hint={field.help === undefined ? source : `${source}. ${field.help}`}
      />
      {choices.length > 0 && (fromPart === undefined || text !== '') && (
        <Select
          label={`${field.label}: a typical class`}
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

/** What is chosen here goes over what the part says. */
function SaidField<Name extends keyof typeof saidChoices>({ name, match }: { name: Name; match: Match }) {
  const { data, reading } = match;
  const choice: Chosen = saidChoices[name];
  const ofPart = reading.fromParts[name];
  return (
    <Select
      label={choice.label}
      options={[
        { value: '', label: ofPart === undefined ? 'not known' : `as the part says: ${choice.options[ofPart]}` },
        ...optionsOf(choice),
      ]}
      value={data.said?.[name] ?? ''}
      onValue={(value) => match.set({ said: { ...data.said, [name]: value } })}
    />
  );
}
