/** Match: gain, headroom from the stylus to the converter, and noise under 5 cm/s. */

import { AUDIO_SPAN } from '../electrics/flattestLoad.ts';
import { gainFor, headroomDb } from '../electrics/levels.ts';
import type { CoilAndLoad } from '../electrics/loading.ts';
import { riaaPlaybackDb } from '../electrics/riaa.ts';
import { type InputNoise, type NoiseBudget, noiseBudget, thermalNoise } from '../electrics/thermalNoise.ts';
import { dbToRatio, ratioToDb } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, type JudgedFinding, toldAdvice } from './document.ts';
import { DEFAULT_LIMITS, judgeForecast } from './limits.ts';
import { emptyAnswer, type MatchAnswer, type MatchInput, missing, withhold } from './matchInput.ts';
import { ASSUMED, INPUT_LEVEL_MV, LINE_LEVEL_V, LOUDEST_DB } from './matchLimits.ts';
import { networkOf, uncertainNetwork } from './matchLoading.ts';
import { expanded } from './propagate.ts';

/** dB of a relative standard uncertainty, first order. */
const relativeToDb = (relative: number): number => (20 / Math.LN10) * relative;

const OUTPUT_DB = relativeToDb(ASSUMED.output);

/** Volts at the preamp's input at 5 cm/s, step-up included. */
const atInput = (input: MatchInput): number => input.outputMv! * 1e-3 * (input.stepUp ?? 1);

const judgedBy =
  ({ limits = DEFAULT_LIMITS }: MatchInput) =>
  (quantity: string, value: number, unit: string, uncertainty: number | null, ...notes: Statement[]) =>
    judgeForecast({ quantity, value, unit, uncertainty, bands: [], notes }, limits);

function headroomFindings(input: MatchInput): MatchAnswer {
  const finding = judgedBy(input);
  const why = missing(input, ['outputMv', 'gainDb', 'maxOutputV']);
  const converter = missing(input, ['outputMv', 'gainDb', 'converterFullScaleV']);
  const findings: JudgedFinding[] = [];
  if (why === null) {
    const value = headroomDb(atInput(input), input.gainDb!, input.maxOutputV!);
    const u = 2 * Math.hypot(OUTPUT_DB, ASSUMED.gainDb, relativeToDb(ASSUMED.maxOutput));
    findings.push(
      finding(
        'headroom',
        value,
        'dB',
        u,
        statement('headroom-preamp', { loudestDb: LOUDEST_DB }),
        ...(input.converterFullScaleV === undefined ? [statement('converter-not-known')] : []),
      ),
    );
  }
  if (converter === null) {
    const value = headroomDb(atInput(input), input.gainDb!, input.converterFullScaleV!);
    const u = 2 * Math.hypot(OUTPUT_DB, ASSUMED.gainDb, relativeToDb(ASSUMED.maxOutput));
    findings.push(finding('headroom-converter', value, 'dB', u, statement('headroom-converter-note')));
  }
  return {
    ...emptyAnswer,
    findings,
    advice: headroomAdvice(findings, input),
    problems: [
      ...(why === null ? [] : withhold(['headroom'], why).problems),
      ...(converter === null || input.converterFullScaleV === undefined
        ? []
        : withhold(['headroom-converter'], converter).problems),
    ],
  };
}

function headroomAdvice(findings: readonly JudgedFinding[], input: MatchInput): Advice[] {
  const tight = findings.filter((f) => f.verdict !== 'good').sort((a, b) => (a.value as number) - (b.value as number));
  if (tight.length === 0) return [];
  const amount = LOUDEST_DB - (tight[0].value as number);
  const stage = tight[0].quantity === 'headroom' ? 'preamp' : 'converter';
  const values = { loudestDb: LOUDEST_DB, stage, headroomDb: tight[0].value as number, amountDb: amount };
  return [
    toldAdvice({
      action: 'lower-gain',
      amount,
      unit: 'dB',
      direction: 'down',
      predicts: tight.map((f) => ({ quantity: f.quantity, value: (f.value as number) + amount, unit: 'dB' })),
      reasons: [statement((input.stepUp ?? 1) > 1 ? 'lower-gain-step-up' : 'lower-gain', values)],
    }),
  ];
}

/** What gain brings 5 cm/s to line level, and what the present gain makes of it. */
function gainFindings(input: MatchInput): JudgedFinding[] {
  const finding = judgedBy(input);
  if (input.outputMv === undefined) return [];
  const u = 2 * OUTPUT_DB;
  const wanted = gainFor(atInput(input), LINE_LEVEL_V);
  const note = (input.stepUp ?? 1) > 1 ? 'gain-to-line-step-up' : 'gain-to-line';
  const findings: JudgedFinding[] = [finding('gain-wanted', wanted, 'dB', u, statement(note, { volts: LINE_LEVEL_V }))];
  if (input.gainDb !== undefined) {
    const volts = atInput(input) * dbToRatio(input.gainDb);
    const relative = 2 * Math.hypot(ASSUMED.output, ASSUMED.gainDb / relativeToDb(1));
    findings.push(finding('line-level', volts * 1e3, 'mV', volts * 1e3 * relative, statement('line-level-note')));
  }
  return findings;
}

/** One turns ratio: what it makes of load, level and noise. */
export interface StepUpChoice {
  readonly ratio: number;
  /** what the coil sees, Ω */
  readonly loadAtCoilOhm: number;
  /** of the open coil, dB, negative */
  readonly lossDb: number;
  /** at the moving-magnet input at 5 cm/s, open coil's level taken as the output quoted, mV */
  readonly levelMv: number;
  /** level within 2 to 10 mV and a load of at least twice the coil */
  readonly suits: boolean;
}

/**
 * Step-up ratios for a moving coil before a moving-magnet input.
 *
 * @param coilResistanceOhm 0.1–10 000
 * @param outputMv at 5 cm/s, coil open, 0.001–1000
 * @param loadResistanceOhm of the input, 1–10⁷
 */
export function stepUpChoices(
  coilResistanceOhm: number,
  outputMv: number,
  loadResistanceOhm: number,
  ratios: readonly number[] = [5, 8, 10, 12, 15, 20, 25, 30],
): readonly StepUpChoice[] {
  if (!(0.1 <= coilResistanceOhm && coilResistanceOhm <= 10000)) {
    throw new RangeError(`the coil’s resistance is ${coilResistanceOhm} Ω; from 0.1 to 10000 Ω was expected`);
  }
  if (!(0.001 <= outputMv && outputMv <= 1000))
    throw new RangeError(`the output is ${outputMv} mV; from 0.001 to 1000 mV was expected`);
  if (!(1 <= loadResistanceOhm && loadResistanceOhm <= 1e7)) {
    throw new RangeError(`the load resistance is ${loadResistanceOhm} Ω; from 1 to 10000000 Ω was expected`);
  }
  return ratios.map((ratio) => {
    if (!(1 <= ratio && ratio <= 100))
      throw new RangeError(`the step-up ratio is ${ratio}; from 1 to 100 was expected`);
    const loadAtCoilOhm = loadResistanceOhm / ratio ** 2;
    const share = loadAtCoilOhm / (loadAtCoilOhm + coilResistanceOhm);
    const levelMv = outputMv * ratio * share;
    const suits =
      INPUT_LEVEL_MV.from <= levelMv &&
      levelMv <= INPUT_LEVEL_MV.to &&
      loadAtCoilOhm >= DEFAULT_LIMITS['load-over-coil'].bad * coilResistanceOhm;
    return { ratio, loadAtCoilOhm, lossDb: ratioToDb(share), levelMv, suits };
  });
}

/** Noise of coil, load and input, plain and behind the playback curve, V rms at the input. */
function noiseShares(
  network: CoilAndLoad,
  input: InputNoise | null,
): { readonly plain: NoiseBudget; readonly equalised: NoiseBudget } {
  return {
    plain: noiseBudget(network, input),
    equalised: noiseBudget(network, input, AUDIO_SPAN, undefined, (f) => dbToRatio(riaaPlaybackDb(f))),
  };
}

function noiseFindings(input: MatchInput): MatchAnswer {
  const finding = judgedBy(input);
  const known = networkOf(input);
  const whole = input.inputNoiseNvPerRootHz === undefined ? [] : (['noise-with-input'] as const);
  if (!known.found) return withhold(['thermal-noise', 'noise-under-reference', ...whole], known.why);
  const { network } = known;
  const noise = thermalNoise(network);
  const inputs = uncertainNetwork(network);
  const u = expanded<keyof CoilAndLoad>((n) => thermalNoise(n), inputs) as number;
  const findings = [finding('thermal-noise', noise * 1e6, 'µV', u * 1e6, statement('noise-span'))];
  const why = missing(input, ['outputMv']);
  if (why !== null) {
    return {
      ...emptyAnswer,
      findings,
      problems: withhold(['noise-under-reference', ...whole], why).problems,
    };
  }
  const signal = atInput(input);
  const uDb = 2 * Math.hypot(OUTPUT_DB, relativeToDb(u / 2 / noise));
  findings.push(
    finding(
      'noise-under-reference',
      ratioToDb(signal / noise),
      'dB',
      uDb,
      statement('noise-under-5'),
      ...(whole.length === 0 ? [statement('preamp-noise-on-top')] : []),
    ),
  );
  const own: InputNoise | null =
    input.inputNoiseNvPerRootHz === undefined
      ? null
      : { voltage: input.inputNoiseNvPerRootHz * 1e-9, current: (input.inputNoisePaPerRootHz ?? 0) * 1e-12 };
  const { plain, equalised } = noiseShares(network, own);
  const part = (name: string, volts: number, ...notes: Statement[]) =>
    findings.push(finding(name, ratioToDb(signal / volts), 'dB', uDb, ...notes));
  part('noise-of-coil', plain.coil, statement('noise-coil-share'));
  part('noise-of-load', plain.load, statement('noise-load-share'));
  if (plain.input !== null && plain.input > 0) {
    const current = input.inputNoisePaPerRootHz === undefined ? [statement('current-noise-not-known')] : [];
    part('noise-of-input', plain.input, statement('noise-input-share'), ...current);
    part('noise-with-input', plain.total, statement('noise-together'));
  }
  part('noise-equalised', equalised.total, statement(own === null ? 'noise-equalised-two' : 'noise-equalised-three'));
  return { ...emptyAnswer, findings };
}

/** `headroom`, gain, `thermal-noise`, `noise-under-reference` and their shares. */
export function matchLevels(input: MatchInput): MatchAnswer {
  const headroom = headroomFindings(input);
  const noise = noiseFindings(input);
  return {
    findings: [...noise.findings, ...headroom.findings, ...gainFindings(input)],
    advice: headroom.advice,
    curves: [],
    problems: [...noise.problems, ...headroom.problems],
  };
}
