/** `platterside selfcheck`: what the README claims, tried on this machine. */
import { parseArgs } from 'node:util';
import type { Command, ExitStatus } from './command.ts';
import { CLAIMS, COVERAGE, SPEED } from './selfcheck/claims.ts';
import { playDecks, type Tallies } from './selfcheck/playDecks.ts';
import type { Tally } from './selfcheck/tally.ts';

const help = `
platterside selfcheck [--long] [--json]

Plays practice decks whose faults are known, measures each as a recording from a bench, and prints what came of it beside what is claimed:
bias, spread and largest error of each figure on records without fault; how often the stated ± holds the truth on records with faults of
their own; and how fast this machine measures. The decks are the same every time. Ends with 0 where every claim held, with 1 where one did not.

  --long     200 decks instead of ten: about a quarter of an hour instead of half a minute; only so many say how often the ± holds
  --json     one JSON document on standard output
`;

const DECKS = 10;
const LONG_DECKS = 200;
const FIRST_SEED = 7_000_000;

interface Line {
  readonly quantity: string;
  readonly unit: string;
  readonly claim: string;
  readonly decks: number;
  readonly withheld: number;
  readonly bias: number;
  readonly spread: number;
  readonly largest: number;
  /** % of decks whose truth the stated ± holds, on records with faults of their own */
  readonly coverage: number;
  readonly coverageDecks: number;
  readonly holds: boolean;
  readonly why: string | null;
}

/** Processor time of this process, s: other programs on the machine do not count. */
function processorS(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** A figure that is withheld from more decks than this is no figure. */
const MOST_WITHHELD = 0.1;

function lineOf({ quantity, unit, words }: (typeof CLAIMS)[number], tallies: Tallies): Line {
  const accuracy = tallies.accuracy.get(quantity) as Tally;
  const coverage = tallies.coverage.get(quantity) as Tally;
  const beside = tallies.missed.filter((miss) => miss.startsWith(`${quantity} of `));
  const rare = [accuracy, coverage].some((t) => t.withheld > MOST_WITHHELD * (t.count + t.withheld));
  const narrow = coverage.objection?.startsWith('too narrow') ? coverage.objection : null;
  const why = rare ? 'withheld too often' : (beside[0] ?? narrow);
  return {
    quantity,
    unit,
    claim: words,
    decks: accuracy.count,
    withheld: accuracy.withheld + coverage.withheld,
    bias: accuracy.bias,
    spread: accuracy.spread,
    largest: accuracy.largest,
    coverage: coverage.coverage,
    coverageDecks: coverage.count,
    holds: why === null,
    why,
  };
}

function table(lines: readonly Line[]): string {
  const rows = lines.map((line) => {
    const { title, decimals } = CLAIMS.find(({ quantity }) => quantity === line.quantity) as (typeof CLAIMS)[number];
    const show = (value: number): string => value.toFixed(decimals).replace('-', '−');
    return [
      title,
      line.unit === 'deg' ? '°' : line.unit,
      show(line.bias),
      show(line.spread),
      show(line.largest),
      line.claim,
      `${line.coverage.toFixed(0)} % of ${line.coverageDecks}`,
      line.holds ? 'holds' : 'does not hold',
    ];
  });
  const all = [['figure', '', 'bias', 'spread', 'largest', 'claimed', '± holds in', ''], ...rows];
  const widths = all[0].map((_, i) => Math.max(...all.map((row) => row[i].length)));
  return all
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i]))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

export const command: Command = {
  name: 'selfcheck',
  summary: 'what is claimed of the figures, tried on this machine with decks whose faults are known',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values } = parseArgs({
      args: [...args],
      options: { long: { type: 'boolean' }, json: { type: 'boolean' } },
    });
    const tallies = await playDecks(values.long === true ? LONG_DECKS : DECKS, FIRST_SEED, processorS, (done) => {
      if (io.progress) io.err(`\rselfcheck ${Math.floor(100 * done)} %`);
    });
    if (io.progress) io.err('\r\u001b[K');
    const lines = CLAIMS.map((claim) => lineOf(claim, tallies));
    const times = tallies.playedS / tallies.measuringS;
    const holds = lines.every((line) => line.holds) && times >= SPEED.atLeast;
    if (values.json === true) {
      const document = {
        schema: 1,
        decks: tallies.decks,
        firstSeed: FIRST_SEED,
        figures: lines,
        coverageClaim: COVERAGE.words,
        speed: { timesFasterThanPlayed: times, claim: SPEED.words, holds: times >= SPEED.atLeast },
        holds,
      };
      io.out(`${JSON.stringify(document, null, 2)}\n`);
    } else {
      const whys = lines.flatMap(({ why }) => (why === null ? [] : [`  ${why}`]));
      io.out(
        [
          `${tallies.decks} practice decks, half of them on records without fault (bias, spread, largest error), half on records with faults`,
          `of their own (± holds: ${COVERAGE.words} claimed); seeds from ${FIRST_SEED}.`,
          '',
          table(lines),
          '',
          `speed: ${times.toFixed(1)} times as fast as the record plays by processor time (claimed: ${SPEED.words})${times >= SPEED.atLeast ? '' : ', does not hold'}`,
          ...whys,
          holds ? 'Every claim held.' : 'Not every claim held.',
          '',
        ].join('\n'),
      );
    }
    return holds ? 0 : 1;
  },
};
