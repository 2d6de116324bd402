/** Two recordings of the same sweeps, a known capacitance across the inputs in one: coil and load apart from the tip. */
import { useState } from 'preact/hooks';
import { withAddedCapacitance } from '../../../core/advise/loading/withAddedCapacitance.ts';
import { groupCurves } from '../../../core/draw/chart/curves.ts';
import type { Job } from '../../../core/job/api.ts';
import { readQuantity } from '../../../core/job/fields/quantity.ts';
import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { api } from '../../api.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Select } from '../../parts/Choice.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { CurveChart } from '../../side/CurveChart.tsx';
import { shownSide, sideDocument } from '../../side/shownSide.ts';
import { useAsked } from '../../useAsked.ts';

const FIELDS = {
  added: { label: 'Capacitance added (pF)', most: 20, unit: 'pF', min: 10, max: 5000 },
  load: { label: 'Load resistance (Ω)', most: 20, help: '47000 unless typed', unit: 'Ω', min: 100, max: 1e6 },
  coil: { label: 'Coil resistance (Ω)', most: 20, help: '700 ± 400 unless typed', unit: 'Ω', min: 1, max: 10_000 },
} as const;
type Name = keyof typeof FIELDS;
const QUANTITIES = /^(coil-inductance-heard|load-capacitance-heard|(electrical|tip)-resonance(-q)?)$/;

export function CapacitanceFold({ job }: { readonly job: Job }) {
  const [typed, setTyped] = useState<Partial<Record<Name, string>>>({});
  const [chosen, setChosen] = useState('');
  const shown = shownSide.value?.captureId ?? null;
  const first = sideDocument.value;
  const others = ofWhatIsFitted(job).filter(({ id }) => id !== shown);
  const second = useAsked(
    () => (chosen === '' ? Promise.resolve(null) : api.capture(job.id, chosen).then(({ document }) => document)),
    [job.id, chosen],
  );
  const hasSweep = first?.curves.some(({ quantity }) => quantity === 'frequency-response') ?? false;
  if (first === null || !hasSweep || others.length === 0) return null;
  const read = (name: Name) => readQuantity(typed[name], FIELDS[name]);
  const value = (name: Name): number | undefined => {
    const of = read(name);
    return 'value' in of ? of.value : undefined;
  };
  const pf = value('added');
  const usable = (['load', 'coil'] as const).every((name) => !('wrong' in read(name)));
  const parted =
    second === null || pf === undefined || !usable
      ? null
      : withAddedCapacitance(first, second, { addedF: pf * 1e-12, loadOhm: value('load'), coilOhm: value('coil') });
  const findings = parted?.findings.filter(({ quantity }) => QUANTITIES.test(quantity)) ?? [];
  const curves = parted?.curves.filter(({ quantity }) => /^response-of-(coil|tip)$/.test(quantity)) ?? [];
  const why = parted?.problems.filter(({ quantity }) => quantity === 'coil-inductance-heard') ?? [];
  return (
    <Fold title="Coil and tip: capacitance added" answer={findings.length === 0 ? 'two recordings' : 'told apart'}>
      <p>{say(statement('capacitance-how'))}</p>
      <Caution>{say(statement('capacitance-caution'))}</Caution>
      <Select
        label="Recording with the capacitance"
        value={chosen}
        options={[
          { value: '', label: 'none chosen' },
          ...others.map(({ id, file, heardAt }) => ({
            value: id,
            label: `${file}, ${heardAt.slice(0, 16).replace('T', ' ')}`,
          })),
        ]}
        onValue={setChosen}
      />
      <div class="fields">
        {(Object.keys(FIELDS) as Name[]).map((name) => {
          const of = read(name);
          return (
            <TextField
              key={name}
              of={FIELDS[name]}
              text={typed[name]}
              onText={(text) => setTyped({ ...typed, [name]: text })}
              {...('wrong' in of ? { hint: say(of.wrong) } : {})}
            />
          );
        })}
      </div>
      {why.map(({ message }) => (
        <p class="soft" key={message}>
          {message}
        </p>
      ))}
      <FindingList findings={findings} />
      {groupCurves(curves).map((group) => (
        <CurveChart key={group.quantity} group={group} bands={first.bands} findings={findings} />
      ))}
    </Fold>
  );
}
