/** What cable and input do to the top of the response: the field of loads, the curves over it, the flattest. */

import { useMemo } from 'preact/hooks';
import type { MatchDocument } from '../../../core/advise/match.ts';
import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { loadChoices, loadFamily, networkOf } from '../../../core/advise/matchLoading.ts';
import { deviationWithin } from '../../../core/electrics/flattestLoad.ts';
import type { CoilAndLoad } from '../../../core/electrics/loading.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { curvesOver } from '../../../core/job/stations/match/fields.ts';
import {
  capacitancesAround,
  loadFieldOf,
  ohmText,
  pfText,
  resistancesAround,
} from '../../../core/job/stations/match/loadField.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Choice } from '../../parts/Choice.tsx';
import { ScrollTable } from '../../parts/ScrollTable.tsx';
import { FamilyChart, type Member } from './FamilyChart.tsx';
import { Findings, LeftOut } from './Findings.tsx';

/** A difference in dB that is worth changing a load for. */
const WORTH_DB = 0.5;

export type Over = 'capacitance' | 'resistance';

const quantities = [
  'load-peak',
  'load-peak-frequency',
  'load-corner',
  'load-deviation-20khz',
  'load-at-coil',
  'load-over-coil',
];

export interface LoadCardProps {
  readonly input: MatchInput;
  readonly document: MatchDocument;
  readonly over: Over;
  onOver(over: Over): void;
}

export function LoadCard({ input, document, over, onOver }: LoadCardProps) {
  const known = useMemo(() => networkOf(input), [input]);
  return (
    <div class="do" id="load">
      <section class="card" aria-label="Response over load">
        <h3>Coil, cable and input: the electrical response</h3>
        {known.found ? (
          <LoadCurves network={known.network} input={input} over={over} onOver={onOver} />
        ) : (
          <p class="left-out">{`Left out: ${say(known.why)}.`}</p>
        )}
      </section>
      <section class="card" aria-label="Figures of the load">
        <h3>As it is{known.found ? `: ${whatStands(input)}` : ''}</h3>
        <Findings document={document} quantities={quantities} />
        {!known.found && <LeftOut document={document} quantities={quantities} />}
        {known.found && <Flattest network={known.network} input={input} />}
      </section>
    </div>
  );
}

const whatStands = ({ loadResistanceOhm, loadCapacitancePf, stepUp }: MatchInput): string =>
  [
    loadResistanceOhm === undefined ? '' : ohmText(loadResistanceOhm),
    loadCapacitancePf === undefined ? '' : pfText(loadCapacitancePf),
    stepUp === undefined || stepUp === 1 ? '' : `behind a step-up of 1:${stepUp}`,
  ]
    .filter((text) => text !== '')
    .join(', ');

interface LoadCurvesProps {
  readonly network: CoilAndLoad;
  readonly input: MatchInput;
  readonly over: Over;
  onOver(over: Over): void;
}

function LoadCurves({ network, input, over, onOver }: LoadCurvesProps) {
  const family = useMemo(() => {
    const nowPf = network.loadCapacitance * 1e12;
    return over === 'capacitance'
      ? loadFamily(network, [network.loadResistance], capacitancesAround(nowPf))
      : loadFamily(network, resistancesAround(network.loadResistance), [nowPf]);
  }, [network, over]);
  const members: Member[] = family.map(({ resistance, capacitancePf, curve }) => ({
    name: over === 'capacitance' ? pfText(capacitancePf) : ohmText(resistance),
    now:
      over === 'capacitance'
        ? near(capacitancePf, network.loadCapacitance * 1e12)
        : near(resistance, network.loadResistance),
    y: curve.y,
  }));
  return (
    <>
      <div class="load-choice">
        <Choice label={curvesOver.label} options={optionsOf(curvesOver)} value={over} onValue={onOver} />
      </div>
      <FamilyChart
        name={`Response for several ${over === 'capacitance' ? 'capacitances' : 'resistances'}`}
        x={family[0].curve.x}
        members={members}
      />
      <p class="soft small">
        {say(
          statement('load-lines', {
            at: over === 'capacitance' ? ohmText(network.loadResistance) : pfText(input.loadCapacitancePf ?? 0),
          }),
        )}
      </p>
      <LoadTable network={network} />
    </>
  );
}

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * Math.abs(b);

/** How flat each load is: the largest departure up to 20 kHz. */
function LoadTable({ network }: { network: CoilAndLoad }) {
  const field = useMemo(() => loadFieldOf(network), [network]);
  const flattest = field.flat().reduce((best, cell) => (cell.deviationDb < best.deviationDb ? cell : best));
  // where every load is as flat as any, none is worth naming
  const worth = deviationWithin(network) - flattest.deviationDb >= WORTH_DB;
  return (
    <>
      <h3 class="more">Largest departure from 1 kHz up to 20 kHz, ± dB</h3>
      <ScrollTable
        name="Departure by load"
        class="load-table"
        heads={[{ unseen: 'resistance' }, ...field[0].map((cell) => pfText(cell.capacitancePf))]}
      >
        {field.map((row) => (
          <tr key={row[0].resistance}>
            <th scope="row">{ohmText(row[0].resistance)}</th>
            {row.map((cell) => {
              const now =
                near(cell.resistance, network.loadResistance) &&
                near(cell.capacitancePf, network.loadCapacitance * 1e12);
              const best = worth && cell === flattest;
              return (
                <td key={cell.capacitancePf} class={`${now ? 'now' : ''} ${best ? 'best' : ''}`}>
                  {showNumber(cell.deviationDb, 1)}
                  {(now || best) && (
                    <span class="tag">{[now ? 'now' : '', best ? 'flattest' : ''].filter(Boolean).join(', ')}</span>
                  )}
                </td>
              );
            })}
          </tr>
        ))}
      </ScrollTable>
    </>
  );
}

/** The best that this cable allows, the flattest of all, and the maker's wish, which wins over both. */
function Flattest({ network, input }: { network: CoilAndLoad; input: MatchInput }) {
  const choices = useMemo(() => loadChoices(network, resistancesAround(network.loadResistance)), [network]);
  const { wantedCapacitanceMinPf: least, wantedCapacitanceMaxPf: most } = input;
  if (choices.nowDb < WORTH_DB && choices.free.deviation < WORTH_DB) {
    return <p class="soft">{say(statement('capacitance-hardly-matters', { db: choices.nowDb }))}</p>;
  }
  const wish =
    least !== undefined && most !== undefined
      ? `${least} to ${most} pF`
      : least !== undefined
        ? `at least ${least} pF`
        : most !== undefined
          ? `at most ${most} pF`
          : null;
  const rows = [
    { name: 'as it is set', pf: network.loadCapacitance * 1e12, db: choices.nowDb, more: '' },
    {
      name: 'best with this cable',
      pf: choices.withThisCable.capacitance * 1e12,
      db: choices.withThisCable.deviation,
      more: choices.withThisCable.atLeast ? 'what there is; less would be flatter still' : 'more added at the input',
    },
    { name: 'flattest of all', pf: choices.free.capacitance * 1e12, db: choices.free.deviation, more: '' },
    ...[...choices.resistances]
      .sort((a, b) => a.resistance - b.resistance)
      .filter((one) => !near(one.resistance, network.loadResistance))
      .map((one) => ({
        name: `at ${ohmText(one.resistance)} with this cable`,
        pf: one.capacitance * 1e12,
        db: one.deviation,
        more: '',
      })),
  ];
  return (
    <>
      <h3 class="more">Capacitance for the flattest response at {ohmText(network.loadResistance)}</h3>
      <table class="rows flattest">
        <tbody>
          {rows.map(({ name, pf, db, more }) => (
            <tr key={name}>
              <th scope="row">
                {name}
                {more !== '' && <span class="soft small"> {more}</span>}
              </th>
              <td>{pfText(pf)}</td>
              <td>
                ± {showNumber(db, 1)} <span class="pm">dB</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class={wish === null ? 'soft small' : 'small'}>
        {wish === null ? (
          say(statement('load-none-asked'))
        ) : (
          <>
            The cartridge’s maker asks for <b>{wish}</b>, cable and input together. That wins over the flattest.
          </>
        )}
      </p>
    </>
  );
}
