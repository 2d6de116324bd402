/** The harmonics of every tone as one table: a line for each band and channel, what they have in common said once below. */
import './side.css';
import type { JudgedFinding } from '../../core/advise/document.ts';
import { HARMONICS, type HarmonicLine, harmonicTitles } from '../../core/job/harmonicLines.ts';
import type { Band } from '../../core/record/band.ts';
import { decimalsAtBench, showFigure } from '../../core/words/number.ts';
import { bandWords } from './bandWords.ts';

export interface HarmonicsTableProps {
  readonly lines: readonly HarmonicLine[];
  readonly note: string;
  readonly bands?: readonly Band[];
  /** the band picked on the time line */
  readonly picked?: number | null;
  /** opens what a figure rests on; without it the figures are plain text */
  onEvidence?(finding: JudgedFinding): void;
}

export function HarmonicsTable({ lines, note, bands = [], picked = null, onEvidence }: HarmonicsTableProps) {
  if (lines.length === 0) return null;
  return (
    <>
      <table class="rows harmonics">
        <caption class="unseen">Harmonics of each tone, % of the tone</caption>
        <thead>
          <tr>
            <th scope="col">harmonics, %</th>
            {HARMONICS.map((name) => (
              <th scope="col" key={name}>
                {harmonicTitles[name]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ band, channel, figures }) => (
            <tr key={`${band} ${channel}`} class={band === picked ? 'picked' : undefined}>
              <th scope="row">
                band {band + 1}
                {channel !== undefined && (
                  <>
                    {', '}
                    <span class={`channel ${channel}`}>{channel}</span>
                  </>
                )}
                {bands[band] !== undefined && <span class="pm"> {bandWords(bands[band])}</span>}
              </th>
              {HARMONICS.map((name) => (
                <td key={name}>
                  <HarmonicFigure
                    finding={figures[name]}
                    what={
                      name === 'total-harmonic-distortion'
                        ? 'all harmonics together'
                        : `${harmonicTitles[name]} harmonic`
                    }
                    onEvidence={onEvidence}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {note !== '' && <p class="soft small">{note}</p>}
    </>
  );
}

function HarmonicFigure({
  finding,
  what,
  onEvidence,
}: {
  finding: JudgedFinding | undefined;
  what: string;
  onEvidence?(finding: JudgedFinding): void;
}) {
  if (finding === undefined || typeof finding.value !== 'number') return <span class="unseen">not read</span>;
  const shown = showFigure(finding.value, finding.uncertainty, false, decimalsAtBench(finding.unit));
  const text = (
    <>
      {shown.value}
      {shown.uncertainty !== null && <span class="pm"> ±&nbsp;{shown.uncertainty}</span>}
    </>
  );
  if (onEvidence === undefined) return text;
  const said = shown.uncertainty === null ? shown.value : `${shown.value} ± ${shown.uncertainty}`;
  const where = [`band ${finding.bands[0] + 1}`, ...(finding.channel === undefined ? [] : [finding.channel])];
  return (
    <button
      type="button"
      class="evidence-button"
      aria-haspopup="dialog"
      aria-label={[`${said} %`, what, ...where].join(', ')}
      onClick={() => onEvidence(finding)}
    >
      {text}
    </button>
  );
}
