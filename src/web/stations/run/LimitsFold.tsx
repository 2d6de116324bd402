/** The limits that verdicts go by: deck class and own limits of this job, over those of the shop. */

import { useEffect, useRef, useState } from 'preact/hooks';
import { DECK_CLASSES } from '../../../core/advise/deckClasses.ts';
import { RECHECK_CLASSES } from '../../../core/advise/recheck.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { limitsOf, withShop } from '../../../core/job/shop.ts';
import {
  deckClassChoice,
  type LimitsTyped,
  limitedQuantities,
  limitField,
  limitUnit,
  recheckTold,
} from '../../../core/job/stations/run/limits.ts';
import { limitsFileText, limitsTakenFrom } from '../../../core/job/stations/run/limitsTransfer.ts';
import type { RunTyped } from '../../../core/job/stations/run.ts';
import { unitSign } from '../../../core/words/figure.ts';
import { tidy } from '../../../core/words/number.ts';
import { quantityTitle } from '../../../core/words/quantities.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { refreshJob } from '../../jobState.ts';
import { Choice } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { FilePick } from '../../parts/FilePick.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { saveFile } from '../../saveFile.ts';
import { jobAndShop, setShop } from '../../shop.ts';
import { useStation } from '../../useStation.ts';
import { RecheckFields } from './RecheckFields.tsx';

const isSet = (limits: LimitsTyped | undefined): boolean =>
  limits?.class !== undefined ||
  Object.values(limits?.recheck ?? {}).some((text) => text !== '') ||
  Object.values(limits?.own ?? {}).some(({ good, bad }) => (good ?? '') !== '' || (bad ?? '') !== '');

export function LimitsFold({ jobId }: { jobId: string }) {
  const station = useStation<RunTyped>(jobId, 'run');
  const both = jobAndShop(jobId);
  const { shop } = both;
  const typed: LimitsTyped = station.data.limits ?? {};
  const chosen = limitsOf(both);
  const without = limitsOf({ run: {}, shop });
  const set = (limits: LimitsTyped): void => station.set({ limits });
  // readings that are kept are judged anew by the server
  const text = JSON.stringify(typed);
  const told = useRef(text);
  useEffect(() => {
    if (!station.saved || told.current === text) return;
    told.current = text;
    refreshJob();
  }, [station.saved, text]);
  const [refused, setRefused] = useState('');
  const take = async (file: File): Promise<void> => {
    const taken = limitsTakenFrom(await file.text(), file.name);
    setRefused(taken.ok ? '' : sentence(taken.why));
    if (taken.ok) set(taken.typed);
  };
  const otherwise = chosen.own.length + chosen.recheckOwn.length;
  const own = otherwise === 0 ? '' : `, ${otherwise} set otherwise`;
  return (
    <Fold title="Limits" answer={`${chosen.deckClass}${own}`}>
      <p class="soft small">{say(statement('limits-judge'))}</p>
      <Choice
        label={deckClassChoice.label}
        value={typed.class ?? 'none'}
        options={[{ value: 'none', label: `as the shop has it: ${without.deckClass}` }, ...optionsOf(deckClassChoice)]}
        onValue={(name) => set({ ...typed, class: name === 'none' ? undefined : name })}
      />
      <div class="limits">
        <OwnLimits typed={typed} without={without} onOwn={(own) => set({ ...typed, own })} />
      </div>
      <RecheckFields
        under={typed.class === undefined ? without.recheck : RECHECK_CLASSES[typed.class]}
        typed={typed.recheck ?? {}}
        onTyped={(recheck) => set({ ...typed, recheck })}
      />
      {chosen.faults.map((fault) => (
        <p class="wrong-line" role="alert" key={say(fault)}>
          {say(fault)}
        </p>
      ))}
      <div class="buttons">
        <button
          type="button"
          class="button"
          disabled={!isSet(typed)}
          onClick={() => {
            setShop({ limits: withShop({ limits: typed }, shop).limits });
            set({});
          }}
        >
          Make these the shop’s
        </button>
        <button type="button" class="button" disabled={!isSet(typed)} onClick={() => set({})}>
          Back to the shop’s
        </button>
        <button
          type="button"
          class="button"
          disabled={!isSet(shop.limits)}
          onClick={() => setShop({ limits: undefined })}
        >
          Clear the shop’s
        </button>
        <button
          type="button"
          class="button"
          onClick={() => saveFile('own.limits.json', 'application/json', limitsFileText(chosen))}
        >
          Export the limits
        </button>
        <FilePick label="Import limits" accept=".json,application/json" onFiles={([file]) => void take(file)} />
      </div>
      {refused !== '' && (
        <p class="wrong-line" role="alert">
          {refused}
        </p>
      )}
      {isSet(shop.limits) && <p class="soft small">The shop’s: {shopWords(without)}.</p>}
    </Fold>
  );
}

interface OwnLimitsProps {
  readonly typed: LimitsTyped;
  /** what holds without the job's own */
  readonly without: ReturnType<typeof limitsOf>;
  onOwn(own: NonNullable<LimitsTyped['own']>): void;
}

function OwnLimits({ typed, without, onOwn }: OwnLimitsProps) {
  const now = typed.class === undefined ? without.limits : DECK_CLASSES[typed.class];
  return limitedQuantities.map((quantity) => {
    const given = typed.own?.[quantity] ?? {};
    const edge = (which: 'good' | 'bad') => (
      <FieldEntry
        field={limitField(quantity, which)}
        text={given[which]}
        fallback={{ value: now[quantity][which], from: now[quantity].source }}
        onText={(limit) => onOwn({ ...typed.own, [quantity]: { ...given, [which]: limit } })}
      />
    );
    return (
      <fieldset key={quantity}>
        <legend>
          {quantityTitle(quantity)}
          {limitUnit(quantity) === '' ? '' : `, ${unitSign(limitUnit(quantity))}`}
        </legend>
        <div class="fields">
          {edge('good')}
          {edge('bad')}
        </div>
      </fieldset>
    );
  });
}

const shopWords = ({ deckClass, limits, own, recheck, recheckOwn }: ReturnType<typeof limitsOf>): string =>
  [
    `class ${deckClass}`,
    ...own.map((name) => `${quantityTitle(name)} ${tidy(limits[name].good)} and ${tidy(limits[name].bad)}`),
    ...recheckOwn.map((name) => `checked again beyond ${recheckTold(recheck, [name])}`),
  ].join('; ');
