/** The harmonics of every tone as one table instead of three rows for each band and channel. */
import { HARMONICS, type HarmonicLine, harmonicTitles } from '../core/job/harmonicLines.ts';
import { Channel, figureText } from './figures.tsx';

export function HarmonicsTable({ lines, note }: { lines: readonly HarmonicLine[]; note: string }) {
  if (lines.length === 0) return null;
  return (
    <div class="wide">
      <table>
        <caption>Harmonics of each tone, % of the tone, ± expanded uncertainty, k = 2. {note}</caption>
        <thead>
          <tr>
            <th scope="col">Read from band</th>
            {HARMONICS.map((name) => (
              <th scope="col" class="figure">
                {harmonicTitles[name]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ band, channel, figures }) => (
            <tr>
              <th scope="row">
                {band + 1}
                <Channel channel={channel} />
              </th>
              {HARMONICS.map((name) => {
                const finding = figures[name];
                return <td class="figure">{finding === undefined ? '–' : figureText(finding)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
