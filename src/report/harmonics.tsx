/** The harmonics of every tone as one table instead of three rows for each band and channel. */
import { HARMONICS, type HarmonicLine, harmonicTitles } from '../core/job/harmonicLines.ts';
import { figureLines } from '../core/words/figureLines.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';
import { Channel } from './figures.tsx';

export function HarmonicsTable({ lines, note }: { lines: readonly HarmonicLine[]; note: string }) {
  if (lines.length === 0) return null;
  return (
    <div class="wide">
      <table>
        <caption>
          {say(statement('harmonics-of-tone', { title: titles.harmonics }))} {note}
        </caption>
        <thead>
          <tr>
            <th scope="col">{titles.band}</th>
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
                return <td class="figure">{finding === undefined ? '–' : figureLines(finding)[0]}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
