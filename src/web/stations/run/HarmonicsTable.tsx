/** The harmonics of every tone as one table: a line for each band and channel, what they have in common said once below. */
import type { JudgedFinding, SideDocument } from '../../../core/advise/document.ts';
import { decimalsAtBench, showFigure } from '../../parts/number.ts';
import { bandWords } from '../../side/bandWords.ts';
import { showEvidence } from '../../side/evidence.ts';

const columns = [
  { quantity: 'second-harmonic', title: 'second' },
  { quantity: 'third-harmonic', title: 'third' },
  { quantity: 'total-harmonic-distortion', title: 'all together' },
] as const;

/** Belongs into the table rather than into a list of findings. */
export const isHarmonic = (finding: JudgedFinding): boolean =>
  finding.bands.length === 1 && columns.some(({ quantity }) => quantity === finding.quantity);

/** What every note says after the tone that it is about. */
const commonNote = (findings: readonly JudgedFinding[]): string =>
  [...new Set(findings.map(({ note }) => note.replace(/^Of [^.]*\. /, '')))].join(' ');

interface Line {
  readonly band: number;
  readonly channel: 'left' | 'right' | undefined;
  readonly figures: readonly (JudgedFinding | undefined)[];
}

function linesOf(findings: readonly JudgedFinding[]): Line[] {
  const keys = [...new Set(findings.map(({ bands, channel }) => `${bands[0]} ${channel}`))];
  return keys.map((key) => {
    const own = findings.filter(({ bands, channel }) => `${bands[0]} ${channel}` === key);
    return {
      band: own[0].bands[0],
      channel: own[0].channel,
      figures: columns.map(({ quantity }) => own.find((finding) => finding.quantity === quantity)),
    };
  });
}

export function HarmonicsTable({
  findings,
  document,
  band,
}: {
  findings: readonly JudgedFinding[];
  document: SideDocument;
  band: number | null;
}) {
  return (
    <>
      <table class="rows harmonics">
        <caption class="unseen">Harmonics of each tone, % of the tone</caption>
        <thead>
          <tr>
            <th scope="col">harmonics, %</th>
            {columns.map(({ quantity, title }) => (
              <th scope="col" key={quantity}>
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {linesOf(findings).map((line) => {
            const heard = document.bands[line.band];
            const name = `band ${line.band + 1}`;
            return (
              <tr key={`${line.band} ${line.channel}`} class={line.band === band ? 'picked' : undefined}>
                <th scope="row">
                  {name}
                  {line.channel !== undefined && (
                    <>
                      {', '}
                      <span class={`channel ${line.channel}`}>{line.channel}</span>
                    </>
                  )}
                  {heard !== undefined && <span class="pm"> {bandWords(heard)}</span>}
                </th>
                {line.figures.map((finding, i) => (
                  <td key={columns[i].quantity}>
                    {finding === undefined || typeof finding.value !== 'number' ? (
                      <span class="unseen">not read</span>
                    ) : (
                      <HarmonicFigure
                        finding={finding}
                        value={finding.value}
                        name={`${columns[i].title} harmonic, ${name}, ${line.channel ?? ''}`}
                        onEvidence={() => showEvidence(finding, document)}
                      />
                    )}
                  </td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
      <p class="soft small">{commonNote(findings)}</p>
    </>
  );
}

function HarmonicFigure({
  finding,
  value,
  name,
  onEvidence,
}: {
  finding: JudgedFinding;
  value: number;
  name: string;
  onEvidence(): void;
}) {
  const shown = showFigure(value, finding.uncertainty, false, decimalsAtBench(finding.unit));
  const said = shown.uncertainty === null ? shown.value : `${shown.value} ± ${shown.uncertainty}`;
  return (
    <button
      type="button"
      class="evidence-button"
      aria-haspopup="dialog"
      aria-label={`${said} %, ${name.replace('all together harmonic', 'all harmonics together')}`}
      onClick={onEvidence}
    >
      {shown.value}
      {shown.uncertainty !== null && <span class="pm"> ±&nbsp;{shown.uncertainty}</span>}
    </button>
  );
}
