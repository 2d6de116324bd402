/** Arm and cartridge in numbers: as Match has them, or typed here, each only for what it is needed for. */
import { useState } from 'preact/hooks';
import { QuantityField } from '../../library/QuantityField.tsx';
import { stationPath } from '../../route.ts';
import { FactField } from './FactField.tsx';
import type { Elsewhere, FactLayer, FactName, Facts } from './facts.ts';
import { FLOATS_AT, type WeighData } from './weighData.ts';

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
  readonly jobId: string;
  readonly data: Partial<WeighData>;
  readonly known: Facts;
  readonly layers: readonly FactLayer[];
  readonly elsewhere: Elsewhere;
  set(patch: Partial<WeighData>): void;
}

export function ArmFigures({ jobId, data, known, layers, elsewhere, set }: ArmFiguresProps) {
  const [open, setOpen] = useState(needed.some((name) => known[name] === undefined));
  const from = (where: string) => here.filter((name) => known[name]?.from === where).length;
  const said = [
    from('typed here') > 0 ? `${from('typed here')} typed here` : '',
    from('Match') > 0 ? `${from('Match')} from Match` : '',
    from('Fit') > 0 ? `${from('Fit')} from Fit` : '',
  ].filter((part) => part !== '');
  const onText = (name: FactName, text: string): void => set({ facts: { ...data.facts, [name]: text } });
  return (
    <details
      class="card arm-figures"
      id="arm-figures"
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <h3 class="strong">Arm and cartridge</h3>{' '}
        <span class="soft">
          {said.length === 0 ? 'nothing known yet' : `${said.join(', ')}`} of {here.length} figures
        </span>
      </summary>
      <p class="soft">
        What is left empty withholds only what needs it. Parts picked at <a href={stationPath(jobId, 'match')}>Match</a>{' '}
        stand here by themselves; what is typed here goes over them. A unit may be typed too: 9.4 in, 1.8 g.
      </p>
      <div class="stack">
        {groups.map(({ title, names }) => (
          <fieldset key={title}>
            <legend>{title}</legend>
            <div class="fields">
              {names.map((name) => (
                <FactField
                  key={name}
                  name={name}
                  layers={layers}
                  elsewhere={elsewhere}
                  forceUnit={data.forceUnit ?? 'g'}
                  onText={onText}
                />
              ))}
              {names.includes('armMomentGMm') && (
                <QuantityField
                  label="Or: the weight’s centre floats this arm at"
                  text={data.floatsAt}
                  hint="Behind the pivot, with this cartridge on. It stands in for the arm’s own moment."
                  onText={(floatsAt) => set({ floatsAt })}
                  {...FLOATS_AT}
                />
              )}
            </div>
          </fieldset>
        ))}
      </div>
    </details>
  );
}
