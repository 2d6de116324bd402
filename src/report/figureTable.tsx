/** Before and after as both reports show it: head and row of one figure, with what a report has besides. */
import type { ComponentChildren } from 'preact';
import { type FigureRow, figureName, newest } from '../core/job/stations/handOver/figureRows.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { FigureCell, VerdictMark } from './figures.tsx';

interface Besides {
  /** cells between the figures and the verdict */
  readonly between?: ComponentChildren;
}

export const FigureHead = ({ between }: Besides) => (
  <thead>
    <tr>
      <th scope="col">{titles.figure}</th>
      <th scope="col" class="figure">
        {titles.before}
      </th>
      <th scope="col" class="figure">
        {titles.after}
      </th>
      {between}
      <th scope="col">{titles.verdict}</th>
    </tr>
  </thead>
);

export const FigureLine = ({ row, between }: Besides & { readonly row: FigureRow }) => (
  <tr>
    <th scope="row">{figureName(row)}</th>
    <FigureCell finding={row.before} none={titles.notBefore} />
    <FigureCell finding={row.after} none={titles.notAfter} />
    {between}
    <td>
      <VerdictMark verdict={newest(row).verdict} />
    </td>
  </tr>
);
