/** What turns at the frequency of a line of flutter, by what the bench knows of the drive; each with what to look at. */

import type { HeardTurning } from '../../measure/figuresOfSide.ts';
import type { Finding } from '../../measure/finding.ts';
import type { DriveFacts, NamedTurn } from '../../mechanics/driveTrain.ts';
import { nameTurn, turningParts } from '../../mechanics/driveTrain.ts';
import { type Statement, statement } from '../../words/statement.ts';

const CODES = {
  platter: 'flutter-of-platter',
  motor: 'flutter-of-motor',
  belt: 'flutter-of-belt',
  idler: 'flutter-of-idler',
  mains: 'flutter-of-mains',
} as const satisfies Record<NamedTurn['part'], string>;

/** @param turning as heard; null: no line can be named by what turns */
export function namedFlutter(findings: readonly Finding[], drive: DriveFacts, turning: HeardTurning | null): Finding[] {
  if (turning === null) return [...findings];
  const parts = turningParts(drive, turning.heardHz, turning.nominalHz);
  return findings.map((finding) => {
    if (finding.quantity !== 'flutter-line' || finding.atHz === undefined) return finding;
    const names = nameTurn(finding.atHz, turning.resolutionHz, parts);
    const said: Statement[] =
      names.length > 0
        ? names.map(({ part, times }) => statement(CODES[part], { times }))
        : [statement(parts.length > 1 ? 'flutter-of-nothing-known' : 'flutter-drive-unknown')];
    return { ...finding, notes: [...finding.notes, ...said] };
  });
}
