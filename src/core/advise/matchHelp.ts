/** Match: what would help where a verdict is not good and no other question of Match brings its own advice. */
import { statement } from '../words/statement.ts';
import { type Advice, type JudgedFinding, toldAdvice } from './document.ts';
import { DEFAULT_LIMITS } from './limits.ts';
import type { MatchInput } from './matchInput.ts';
import { LINE_LEVEL_V, LOUDEST_DB } from './matchLimits.ts';

type Help = (finding: JudgedFinding, input: MatchInput, all: readonly JudgedFinding[]) => Advice;

const figureOf = (all: readonly JudgedFinding[], quantity: string): number | null => {
  const value = all.find((finding) => finding.quantity === quantity)?.value;
  return typeof value === 'number' ? value : null;
};

/** "96 Ω", "47 kΩ": two or three digits are as many as a load is bought by. */
const ohms = (value: number): string =>
  value >= 1000 ? `${Number((value / 1000).toPrecision(3))} kΩ` : `${Number(value.toPrecision(3))} Ω`;

/** The arm's maker sets the mass; screws and headshell are what a bench can change of it. */
const carriedMass: Help = ({ value }, { cartridgeMassMinG: least, cartridgeMassMaxG: most, hardwareMassG = 0 }) => {
  const mass = value as number;
  const light = least !== undefined && mass < least;
  const bound = (light ? least : most) as number;
  const amount = Math.abs(mass - bound);
  const enough = light || hardwareMassG > amount;
  const code = light ? 'carried-mass-too-light' : enough ? 'carried-mass-remove' : 'carried-mass-lighter-cartridge';
  return toldAdvice({
    action: light ? 'add-mass' : 'remove-mass',
    amount,
    unit: 'g',
    direction: 'at-the-headshell',
    predicts: [{ quantity: 'carried-mass', value: bound, unit: 'g' }],
    reasons: [statement(code, { boundG: bound, amountG: amount })],
  });
};

/** R_L / n² against R_s: what load the input would need, or what ratio suits the one there is. */
const loadOverCoil: Help = ({ value }, input) => {
  const { coilResistanceOhm = 0, stepUp = 1, loadResistanceOhm = 0, limits = DEFAULT_LIMITS } = input;
  const { good } = limits['load-over-coil'];
  const wanted = good * coilResistanceOhm;
  const atInput = wanted * stepUp ** 2;
  const ratio = Math.sqrt(loadResistanceOhm / wanted);
  const lower = stepUp > 1 && ratio >= 1 ? [statement('lower-step-up', { ratio: Math.floor(ratio * 10) / 10 })] : [];
  return toldAdvice({
    action: 'raise-load',
    amount: atInput,
    unit: 'Ω',
    direction: 'at-least',
    predicts: [{ quantity: 'load-over-coil', value: good, unit: '' }],
    reasons: [
      statement('raise-load', {
        times: value as number,
        lossDb: 20 * Math.log10(1 + 1 / (value as number)),
        load: ohms(atInput),
        wanted: good,
      }),
      ...lower,
      statement('maker-load-first'),
    ],
    cautions: [statement('caution-leads')],
  });
};

/** The largest share is the one worth working on. */
const noise: Help = (finding, { stepUp = 1, limits = DEFAULT_LIMITS }, all) => {
  const under = (quantity: string) => figureOf(all, quantity) ?? Number.MAX_VALUE;
  const shares = [
    { under: under('noise-of-coil'), code: 'noise-mostly-coil' as const },
    { under: under('noise-of-load'), code: 'noise-mostly-load' as const },
    {
      under: under('noise-of-input'),
      code: stepUp > 1 ? ('noise-mostly-input' as const) : ('noise-mostly-input-or-step-up' as const),
    },
  ].sort((a, b) => a.under - b.under);
  return toldAdvice({
    action: 'lower-noise',
    amount: null,
    unit: 'dB',
    direction: null,
    predicts: [],
    reasons: [
      statement('noise-too-high', { underDb: finding.value as number, wantedDb: limits[finding.quantity].good }),
      statement(shares[0].code),
    ],
  });
};

/** Too little comes out: the gain that is missing, as far as the loudest passages leave room for it. */
const lineLevel: Help = ({ value }, { principle, stepUp = 1 }, all) => {
  const volts = (value as number) * 1e-3;
  const short = 20 * Math.log10(LINE_LEVEL_V / volts);
  const room = Math.min(
    ...['headroom', 'headroom-converter'].map((quantity) => (figureOf(all, quantity) ?? Number.MAX_VALUE) - LOUDEST_DB),
  );
  const amount = Math.max(0, Math.min(short, room));
  const ratio = Math.round(10 ** (amount / 20));
  const how = principle === 'moving-coil' && stepUp === 1 && ratio > 1 ? [statement('by-step-up', { ratio })] : [];
  const so =
    amount < 1
      ? [statement('no-room-for-gain')]
      : [statement(amount < short ? 'more-gain-room' : 'more-gain-reaches', { amountDb: amount }), ...how];
  return toldAdvice({
    action: 'raise-gain',
    amount: amount < 1 ? null : amount,
    unit: 'dB',
    direction: 'up',
    predicts: amount < 1 ? [] : [{ quantity: 'line-level', value: 1e3 * volts * 10 ** (amount / 20), unit: 'mV' }],
    reasons: [statement('line-level-low', { millivolts: 1e3 * volts, shortDb: short }), ...so],
  });
};

const helps: Readonly<Record<string, Help>> = {
  'carried-mass': carriedMass,
  'load-over-coil': loadOverCoil,
  'line-level': lineLevel,
  'noise-with-input': noise,
  'noise-under-reference': noise,
};

/** One advice for each finding that needs it; noise is told once, for all of it together where the input’s is known. */
export function matchHelp(findings: readonly JudgedFinding[], input: MatchInput): readonly Advice[] {
  const whole = findings.some((finding) => finding.quantity === 'noise-with-input');
  return findings
    .filter(({ quantity, verdict }) => Object.hasOwn(helps, quantity) && (verdict === 'adjust' || verdict === 'bad'))
    .filter(({ quantity }) => !(whole && quantity === 'noise-under-reference'))
    .map((finding) => helps[finding.quantity](finding, input, findings));
}
