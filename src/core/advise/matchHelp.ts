/** Match: what would help where a verdict is not good and no other question of Match brings its own advice. */
import type { Advice, JudgedFinding } from './document.ts';
import type { MatchInput } from './matchInput.ts';
import { LINE_LEVEL_V, LOUDEST_DB, MATCH_LIMITS } from './matchLimits.ts';

type Help = (finding: JudgedFinding, input: MatchInput, all: readonly JudgedFinding[]) => Advice;

const figureOf = (all: readonly JudgedFinding[], quantity: string): number | null => {
  const value = all.find((finding) => finding.quantity === quantity)?.value;
  return typeof value === 'number' ? value : null;
};

/** "96 Ω", "47 kΩ": two or three digits are as many as a load is bought by. */
const ohms = (value: number): string =>
  value >= 1000 ? `${Number((value / 1000).toPrecision(3))} kΩ` : `${Number(value.toPrecision(3))} Ω`;

/** The arm's maker sets the mass; screws and shell are what a bench can change of it. */
const carriedMass: Help = ({ value }, { cartridgeMassMinG: least, cartridgeMassMaxG: most, hardwareMassG = 0 }) => {
  const mass = value as number;
  const light = least !== undefined && mass < least;
  const bound = (light ? least : most) as number;
  const amount = Math.abs(mass - bound);
  const enough = light || hardwareMassG > amount;
  return {
    action: light ? 'add-mass' : 'remove-mass',
    amount,
    unit: 'g',
    direction: 'at-the-headshell',
    predicts: [{ quantity: 'carried-mass', value: bound, unit: 'g' }],
    why: light
      ? `The arm’s maker asks for ${bound} g at least: heavier screws or a plate of ${amount.toFixed(1)} g bring it there.`
      : `The arm’s maker lets it carry ${bound} g: ${amount.toFixed(1)} g would have to go, ${
          enough
            ? 'by lighter screws, nuts or plate, or by a lighter cartridge'
            : 'more than the hardware holds, so by a lighter cartridge'
        }.`,
  };
};

/** R_L / n² against R_s: what load the input would need, or what ratio suits the one there is. */
const loadOverCoil: Help = ({ value }, { coilResistanceOhm = 0, stepUp = 1, loadResistanceOhm = 0 }) => {
  const wanted = MATCH_LIMITS['load-over-coil'].good * coilResistanceOhm;
  const atInput = wanted * stepUp ** 2;
  const ratio = Math.sqrt(loadResistanceOhm / wanted);
  const lower =
    stepUp > 1 && ratio >= 1
      ? ` With this input a step-up of at most 1:${(Math.floor(ratio * 10) / 10).toFixed(1)} does it.`
      : '';
  return {
    action: 'raise-load',
    amount: atInput,
    unit: 'Ω',
    direction: 'at-least',
    predicts: [{ quantity: 'load-over-coil', value: MATCH_LIMITS['load-over-coil'].good, unit: '' }],
    why: `The coil sees ${(value as number).toFixed(1)} times its own resistance, which takes ${(20 * Math.log10(1 + 1 / (value as number))).toFixed(1)} dB off its level. An input of ${ohms(atInput)} or more gives it ${MATCH_LIMITS['load-over-coil'].good} times.${lower} The load that the cartridge’s maker asks for wins.`,
    caution: 'Mute or switch the amplifier off before plugs or leads are touched.',
  };
};

/** The largest share is the one worth working on. */
const noise: Help = (finding, { stepUp = 1 }, all) => {
  const under = (quantity: string) => figureOf(all, quantity) ?? Number.MAX_VALUE;
  const shares = [
    {
      under: under('noise-of-coil'),
      what: 'the coil’s own: only a cartridge of more output or less resistance is quieter',
    },
    {
      under: under('noise-of-load'),
      what: 'the load resistor’s: a higher load is quieter where the cartridge’s maker allows it',
    },
    {
      under: under('noise-of-input'),
      what: `the input’s own: a quieter input${stepUp > 1 ? '' : ', or a step-up transformer before it,'} brings it down`,
    },
  ].sort((a, b) => a.under - b.under);
  return {
    action: 'lower-noise',
    amount: null,
    unit: 'dB',
    direction: null,
    predicts: [],
    why: `Noise lies ${(finding.value as number).toFixed(1)} dB under 5 cm/s; ${MATCH_LIMITS[finding.quantity].good} dB is wanted. Its largest share is ${shares[0].what}.`,
  };
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
  const how =
    principle === 'moving-coil' && stepUp === 1 && ratio > 1
      ? `, by a moving-coil input or a step-up of about 1:${ratio} before this one,`
      : '';
  const so =
    amount < 1
      ? 'The loudest passages leave no room for more gain here: a stage of gain behind this one is the way.'
      : `${amount.toFixed(0)} dB more gain${how} ${amount < short ? 'is what the loudest passages leave room for' : 'brings it there'}.`;
  return {
    action: 'raise-gain',
    amount: amount < 1 ? null : amount,
    unit: 'dB',
    direction: 'up',
    predicts: amount < 1 ? [] : [{ quantity: 'line-level', value: 1e3 * volts * 10 ** (amount / 20), unit: 'mV' }],
    why: `5 cm/s comes out at ${(1e3 * volts).toPrecision(2)} mV, ${short.toFixed(0)} dB under −10 dBV: what follows must be turned up, and its own noise with it. ${so}`,
  };
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
