/** The chain's own share: two recordings of the job, the cartridge's leads exchanged left for right between them. */
import { z } from 'zod';
import type { JudgedFinding } from '../../../advise/document.ts';
import type { Problem } from '../../../capture/problem.ts';
import { type Played, withSwappedLeads } from '../../../side/withSwappedLeads.ts';
import { figureLines } from '../../../words/figureLines.ts';
import { quantityTitle } from '../../../words/quantities.ts';
import type { ReportLine } from '../../reportLines.ts';
import type { TypedBy } from '../stationModel.ts';

const captureId = z.string().min(1).max(64);
export const exchangedSchema = z.strictObject({ first: captureId, second: captureId });
export type Exchanged = TypedBy<typeof exchangedSchema>;

export const exchangedFields = { label: 'Recordings with the leads exchanged' } as const;

const PARTED = ['channel-balance-cartridge', 'channel-balance-chain'];

export interface ChainShare {
  /** of the cartridge, then of the chain; empty where they do not part */
  readonly findings: readonly JudgedFinding[];
  /** why not; null where they do */
  readonly withheld: Problem | null;
}

export function chainShare(both: Played): ChainShare {
  return {
    findings: both.findings.filter(({ quantity }) => PARTED.includes(quantity)),
    withheld: both.problems.find(({ quantity }) => quantity === PARTED[1]) ?? null,
  };
}

/** @param captures of the job */
export function exchangedLines(
  exchanged: Exchanged | undefined,
  captures: readonly { readonly id: string; readonly findings: readonly JudgedFinding[] }[],
): readonly ReportLine[] {
  const of = (id: string | undefined): Played | null => {
    const findings = captures.find((capture) => capture.id === id)?.findings;
    return findings === undefined ? null : { findings, curves: [], problems: [] };
  };
  const [first, second] = [of(exchanged?.first), of(exchanged?.second)];
  if (first === null || second === null) return [];
  const { findings, withheld } = chainShare(withSwappedLeads(first, second));
  if (withheld !== null) return [{ label: exchangedFields.label, text: withheld.message }];
  return findings.map((finding) => ({
    label: quantityTitle(finding.quantity),
    text: figureLines(finding)
      .filter((line) => line !== null)
      .join('; '),
  }));
}
