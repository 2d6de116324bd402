/** A job's limits as a file (`*.limits.json`), and back: what the command line judges by, and another job or shop takes over. */
import { parseLimits } from '../../../advise/limitsFile.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import { type ChosenLimits, type LimitsTyped, limitedQuantities, recheckQuantities } from './limits.ts';

const asTyped = (value: number): string => String(Number(value.toPrecision(12)));

/** What holds for a job: its class, and each limit and tolerance that is set otherwise, whoever set it. */
export function limitsFileText({ deckClass, limits, own, recheck, recheckOwn }: ChosenLimits): string {
  const file = {
    schema: 1,
    class: deckClass,
    limits: Object.fromEntries(
      own.map((quantity) => {
        const { good, bad, source } = limits[quantity];
        return [quantity, { good, bad, source }];
      }),
    ),
    recheck: Object.fromEntries(recheckOwn.map((quantity) => [quantity, recheck[quantity].most])),
  };
  return `${JSON.stringify(file, null, 1)}\n`;
}

export type LimitsTaken =
  | { readonly ok: true; readonly typed: LimitsTyped }
  | { readonly ok: false; readonly why: Statement };

/** A file's limits as they would have been typed; a limit for quantities of Match is among them too. */
export function limitsTakenFrom(text: string, fileName: string): LimitsTaken {
  const read = parseLimits(text, fileName);
  if (!read.ok) return read;
  const { deckClass, limits, recheck } = read.given;
  const unknown = Object.keys(limits).find((quantity) => !limitedQuantities.includes(quantity));
  if (unknown !== undefined)
    return {
      ok: false,
      why: statement('limits-none-such', { file: fileName, name: unknown, names: limitedQuantities.join(', ') }),
    };
  const own = Object.entries(limits).map(([quantity, { good, bad }]) => [
    quantity,
    { good: asTyped(good), bad: asTyped(bad) },
  ]);
  const tolerances = recheckQuantities.flatMap((quantity) => {
    const most = recheck[quantity];
    return most === undefined ? [] : [[quantity, asTyped(most)]];
  });
  return {
    ok: true,
    typed: { class: deckClass, own: Object.fromEntries(own), recheck: Object.fromEntries(tolerances) },
  };
}
