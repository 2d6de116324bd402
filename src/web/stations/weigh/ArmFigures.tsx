/** Arm and cartridge in numbers: as Match has them, or typed here, each only for what it is needed for. */
import { useState } from 'preact/hooks';
import type { Bench } from '../../../core/job/fields/benchFacts.ts';
import type { FactName } from '../../../core/job/fields/factFields.ts';
import { weighFields } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { FactEntry } from '../../parts/FactEntry.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { Fold } from '../../parts/Fold.tsx';

const groups: readonly { title: string; names: readonly FactName[] }[] = [
  {
    title: 'For the force to aim at',
    names: ['trackingForceMinMn', 'trackingForceMaxMn', 'trackingForceRecommendedMn'],
  },
  {
    title: 'For the counterweight’s way',
    names: ['effectiveLengthMm', 'counterweightMassG', 'threadPitchMm', 'dialPerTurnMn'],
  },
  {
    title: 'For its place on the stub',
    names: ['cartridgeMassG', 'hardwareMassG', 'armMomentGMm', 'stubFromMm', 'stubToMm'],
  },
  { title: 'For force over height', names: ['movingMassG', 'centreBelowPivotMm', 'pivotAboveTipMm'] },
  { title: 'For the skating force', names: ['spindleToPivotMm'] },
];

const here = groups.flatMap(({ names }) => names);
const needed: readonly FactName[] = [
  'trackingForceMinMn',
  'trackingForceMaxMn',
  'effectiveLengthMm',
  'counterweightMassG',
];

export interface ArmFiguresProps {
  readonly data: WeighTyped;
  readonly bench: Bench;
  set(patch: WeighTyped): void;
}

function missingWords(known: Bench['facts'], names: readonly FactName[]): string {
  const missing = names.filter((name) => known[name] === undefined).length;
  return missing === 0 ? 'all known' : `${missing} of ${names.length} not known`;
}

export function ArmFigures({ data, bench, set }: ArmFiguresProps) {
  const known = bench.facts;
  const [open, setOpen] = useState(needed.some((name) => known[name] === undefined));
  const sources = here.flatMap((name) => known[name]?.from ?? []);
  const said = [...new Set(sources)].map((from) => `${sources.filter((one) => one === from).length} ${from}`);
  const onText = (name: FactName, text: string): void => set({ facts: { ...data.facts, [name]: text } });
  return (
    <details
      class="fold arm-figures"
      id="arm-figures"
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <h3>Arm and cartridge</h3>{' '}
        <span class="soft">
          {said.length === 0 ? 'nothing known yet' : `${said.join(', ')}`} of {here.length} figures
        </span>
      </summary>
      <div class="stack">
        {groups.map(({ title, names }, i) => (
          <Fold key={title} title={title} answer={missingWords(known, names)} open={i < 2}>
            <div class="fields">
              {names.map((name) => (
                <FactEntry
                  key={name}
                  name={name}
                  bench={bench}
                  text={data.facts?.[name]}
                  forceUnit={data.forceUnit ?? 'g'}
                  onText={onText}
                />
              ))}
              {names.includes('armMomentGMm') && (
                <FieldEntry
                  field={weighFields.floatsAt}
                  text={data.floatsAt}
                  onText={(floatsAt) => set({ floatsAt })}
                />
              )}
            </div>
          </Fold>
        ))}
      </div>
    </details>
  );
}
