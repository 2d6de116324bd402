/** `platterside match`: will cartridge, arm, counterweight and preamp go together. */

import { parseArgs } from 'node:util';
import { matchDocument } from '../core/advise/match.ts';
import { type MatchFigure, type MatchInput, matchFigures } from '../core/advise/matchInput.ts';
import type { Problem } from '../core/capture/problem.ts';
import { grooveSpan } from '../core/geometry/span.ts';
import { type ChosenParts, matchInputOf } from '../core/job/matchFromParts.ts';
import type { Part } from '../core/job/parts.ts';
import { withheldFor } from '../core/job/stations/match/answer.ts';
import { within } from '../core/units/bounds.ts';
import { meansTwoNumbers } from '../core/units/typedQuantity.ts';
import { stopped } from '../core/words/statement.ts';
import { adviceText, findingsText } from './adviceText.ts';
import { type Command, UsageError } from './command.ts';
import { numberFlag } from './numbers.ts';
import { readPart } from './partFile.ts';
import { readLimits } from './readLimits.ts';

/** Single flags and the figure that each gives. */
const flags: Readonly<Record<string, MatchFigure>> = {
  'effective-mass': 'effectiveMassG',
  'effective-mass-lateral': 'effectiveMassLateralG',
  'headshell-mass': 'headshellMassG',
  'effective-length': 'effectiveLengthMm',
  'cartridge-mass': 'cartridgeMassG',
  'hardware-mass': 'hardwareMassG',
  compliance: 'complianceUmPerMn',
  'compliance-lateral': 'complianceLateralUmPerMn',
  'tracking-force': 'trackingForceMn',
  'coil-resistance': 'coilResistanceOhm',
  'coil-inductance': 'coilInductanceMh',
  'output-mv': 'outputMv',
  'load-resistance': 'loadResistanceOhm',
  'load-capacitance': 'loadCapacitancePf',
  gain: 'gainDb',
  'max-output': 'maxOutputV',
  'step-up': 'stepUp',
  'input-noise-voltage': 'inputNoiseNvPerRootHz',
  'input-noise-current': 'inputNoisePaPerRootHz',
  'converter-full-scale': 'converterFullScaleV',
  'spindle-to-pivot': 'spindleToPivotMm',
  friction: 'friction',
  'counterweight-mass': 'counterweightMassG',
  'arm-moment': 'armMomentGMm',
  'stub-from': 'stubFromMm',
  'stub-to': 'stubToMm',
};

const partFlags = ['arm', 'cartridge', 'preamp', 'cable', 'headshell', 'counterweight', 'hardware', 'deck'] as const;

const help = `
platterside match [--arm FILE.json] [--cartridge FILE.json] [--preamp FILE.json] [flags] [--json]

Will cartridge, arm, counterweight and preamp go together. Every flag is optional; what is missing withholds what needs
it. A single flag goes over the figure of a part file.

  part files (one part each, see docs/parts.md)
    --arm, --cartridge, --preamp, --cable, --headshell, --counterweight, --hardware, --deck FILE.json

  arm and cartridge
    --effective-mass G        --effective-length MM      --cartridge-mass G      --hardware-mass G
    --headshell-mass G        (where the effective mass is quoted without it)
    --compliance UM_PER_MN    (1 µm/mN = 10⁻⁶ cm/dyn)    --compliance-at static|10hz|100hz
    --effective-mass-lateral G, --compliance-lateral UM_PER_MN   where they differ
    --tracking-force MN       (1 g is 9.80665 mN)
    --counterweight-mass G    --arm-moment G_MM          --stub-from MM          --stub-to MM

  coil, load, levels
    --coil-resistance OHM     --coil-inductance MH       --output-mv MV (rms at 5 cm/s peak, 1 kHz, loaded)
    --load-resistance OHM     --load-capacitance PF      (cable and input together)
    --gain DB                 --max-output V             --step-up N
    --input-noise-voltage NV_PER_ROOT_HZ   --input-noise-current PA_PER_ROOT_HZ   --converter-full-scale V

  skating (with --effective-length and --tracking-force)
    --spindle-to-pivot MM     or --overhang MM           --groove INNER,OUTER (60.325,146.05)   --friction 0.3
    --offset DEG              is accepted for convenience: the pull does not depend on it

  --limits FILE               verdicts by other limits: a deck class and what differs from it
  --json                      one JSON document on standard output
`;

/** What checks files of parts is loaded only where there is one: answers to plain flags start faster without it. */
/** Flags over parts; bounds are told by the flag's name. */
async function inputFrom(values: Readonly<Record<string, string | boolean | undefined>>): Promise<MatchInput> {
  const text = (name: string) => values[name] as string | undefined;
  const chosen: Record<string, Part> = {};
  for (const kind of partFlags) {
    const file = text(kind);
    if (file !== undefined) chosen[kind] = await readPart(kind, file);
  }
  const given: { -readonly [Name in keyof MatchInput]: MatchInput[Name] } = {};
  for (const [flag, name] of Object.entries(flags)) {
    const typed = text(flag);
    if (typed === undefined) continue;
    const { low, high, unit } = matchFigures[name];
    const range = `a number from ${low} to ${high}${unit === '' ? '' : ` ${unit}`}`;
    if (meansTwoNumbers(typed, unit, low, high)) {
      throw new UsageError(
        `--${flag}: '${typed}' may mean two numbers; ${range} was expected, thousands without a separator`,
      );
    }
    given[name] = within(`--${flag}`, numberFlag(`--${flag}`, typed, range, unit), low, high, unit);
  }
  const basis = text('compliance-at');
  if (basis !== undefined) {
    if (basis !== 'static' && basis !== '10hz' && basis !== '100hz') {
      throw new UsageError(`--compliance-at: found '${basis}'; static, 10hz or 100hz was expected`);
    }
    given.complianceAt = basis;
  }
  const groove = text('groove');
  if (groove !== undefined) {
    const span = grooveSpan(groove);
    given.grooveInnerMm = span.inner;
    given.grooveOuterMm = span.outer;
  }
  const offset = text('offset');
  if (offset !== undefined)
    within('--offset', numberFlag('--offset', offset, 'an angle in degrees', 'deg'), -60, 60, 'deg');
  const input = { ...matchInputOf(chosen as ChosenParts), ...given };
  return withOverhang(input, text('overhang'), given);
}

/** L = d + overhang gives whichever of the two lengths no flag gave. */
function withOverhang(input: MatchInput, typed: string | undefined, given: MatchInput): MatchInput {
  if (typed === undefined) return input;
  const overhang = within('--overhang', numberFlag('--overhang', typed, 'a length in mm', 'mm'), -100, 100, 'mm');
  const { effectiveLengthMm: length, spindleToPivotMm: distance } = given;
  if (length !== undefined && distance !== undefined) {
    throw new UsageError(
      '--overhang: the length and the distance are both given already; two of the three were expected',
    );
  }
  if (length !== undefined) return { ...input, spindleToPivotMm: length - overhang };
  if (distance !== undefined) return { ...input, effectiveLengthMm: distance + overhang };
  const { effectiveLengthMm: partLength, spindleToPivotMm: partDistance } = input;
  if (partDistance !== undefined) return { ...input, effectiveLengthMm: partDistance + overhang };
  return partLength === undefined ? input : { ...input, spindleToPivotMm: partLength - overhang };
}

/** What is left out, one line for each reason. */
function withheldText(problems: readonly Problem[]): string {
  return withheldFor({ problems })
    .map(({ why, quantities }) => `  withheld: ${quantities.join(', ')}\n    ${stopped(why)}`)
    .join('\n');
}

export const command: Command = {
  name: 'match',
  summary: 'will cartridge, arm, counterweight and preamp go together',
  help,
  async run(args, io) {
    const names = [...Object.keys(flags), ...partFlags, 'compliance-at', 'groove', 'offset', 'overhang'];
    const { values } = parseArgs({
      args: [...args],
      options: {
        ...Object.fromEntries(names.map((name) => [name, { type: 'string' as const }])),
        limits: { type: 'string' },
        json: { type: 'boolean' },
      },
    });
    const limits = typeof values.limits === 'string' ? readLimits(values.limits).limits : undefined;
    const document = matchDocument({ ...(await inputFrom(values)), limits });
    const nothing = document.findings.length === 0;
    if (values.json === true) {
      io.out(`${JSON.stringify(document, null, 2)}\n`);
    } else {
      const texts = [
        // a part's range is what its note tells, and no interval of a reading
        findingsText(
          document.findings.map(({ low: _low, high: _high, ...finding }) => finding),
          io.colour,
        ),
        adviceText(document.advice),
        withheldText(document.problems),
      ];
      io.out(`${texts.filter((text) => text !== '').join('\n\n')}\n`);
    }
    if (nothing) {
      io.err('platterside: nothing can be matched from what was given; platterside match --help tells the flags.\n');
    }
    return nothing ? 1 : 0;
  },
};
