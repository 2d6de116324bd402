/** Harmonics as people read them: a line for each band and channel instead of five findings, what is common to all said once. */
import type { JudgedFinding } from '../advise/document.ts';
import { sayAll } from '../words/statement.ts';

export const HARMONICS = [
  'second-harmonic',
  'third-harmonic',
  'fourth-harmonic',
  'fifth-harmonic',
  'total-harmonic-distortion',
] as const;
export type HarmonicName = (typeof HARMONICS)[number];

/** Headings of the columns. */
export const harmonicTitles: Readonly<Record<HarmonicName, string>> = {
  'second-harmonic': 'second',
  'third-harmonic': 'third',
  'fourth-harmonic': 'fourth',
  'fifth-harmonic': 'fifth',
  'total-harmonic-distortion': 'all together',
};

export interface HarmonicLine {
  /** index of the band that they were read from */
  readonly band: number;
  readonly channel: 'left' | 'right' | undefined;
  readonly figures: Readonly<Partial<Record<HarmonicName, JudgedFinding>>>;
}

export interface SortedFindings {
  readonly lines: readonly HarmonicLine[];
  /** what all harmonics' notes have in common; '' where there are none */
  readonly note: string;
  /** all other findings, in their order */
  readonly rest: readonly JudgedFinding[];
}

const harmonicName = ({ quantity, bands, value }: JudgedFinding): HarmonicName | undefined =>
  bands.length === 1 && typeof value === 'number' ? HARMONICS.find((name) => name === quantity) : undefined;

/** @checked harmonicLines.test.ts */
export function harmonicLines(findings: readonly JudgedFinding[]): SortedFindings {
  const lines = new Map<string, HarmonicLine>();
  const notes = new Set<string>();
  const rest: JudgedFinding[] = [];
  for (const finding of findings) {
    const name = harmonicName(finding);
    if (name === undefined) {
      rest.push(finding);
      continue;
    }
    const { channel, bands } = finding;
    const key = `${bands[0]} ${channel}`;
    const line = lines.get(key) ?? { band: bands[0], channel, figures: {} };
    lines.set(key, { ...line, figures: { ...line.figures, [name]: finding } });
    // which tone it is of the band says; a document without statements, by an earlier version, keeps its whole note
    const common =
      finding.notes === undefined
        ? finding.note
        : sayAll(finding.notes.filter(({ code }) => code !== 'harmonic-of' && code !== 'harmonics-of'));
    if (common !== '') notes.add(common);
  }
  return { lines: [...lines.values()], note: [...notes].join(' '), rest };
}
