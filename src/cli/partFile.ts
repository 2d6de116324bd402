/** A part's JSON file (docs/contract.md) that a flag names: exactly one part of the kind that the flag is called after. */
import type { PartKind } from '../core/job/partFields.ts';
import type { Part } from '../core/job/parts.ts';
import { UsageError } from './command.ts';
import { readText } from './textFile.ts';

/** @throws UsageError naming the file, what was found and what was expected */
export async function readPart<Kind extends PartKind>(kind: Kind, file: string): Promise<Part> {
  const text = readText(`--${kind} ${file}`, file, `a JSON file of one ${kind}`);
  const { partsFromJson } = await import('../core/job/partsJson.ts');
  const { faultSentence } = await import('../core/job/partFault.ts');
  const { parts, faults } = partsFromJson(text);
  if (faults.length > 0) throw new UsageError(`--${kind} ${file}: ${faultSentence(faults[0])}`);
  const fitting = parts.filter((part) => part.kind === kind);
  if (fitting.length !== 1) {
    const found = parts.map((part) => `${part.kind} '${part.name}'`).join(', ') || 'no part';
    throw new UsageError(`--${kind} ${file}: found ${found}; exactly one ${kind} was expected`);
  }
  return fitting[0];
}
