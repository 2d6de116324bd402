/** One self-contained HTML document: no script, no font and no picture from elsewhere. */
import type { ComponentChildren, VNode } from 'preact';
import { renderToStaticMarkup } from 'preact-render-to-string';
import { style } from './style.ts';

export interface Made {
  /** ISO time */
  readonly madeAt: string;
  /** of the program */
  readonly version: string;
}

/** `2026-03-04T09:30:00.000Z` → `2026-03-04 09:30 UTC` */
export const timeText = (iso: string): string => `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;

export function Sheet({ title, made, children }: { title: string; made: Made; children: ComponentChildren }) {
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="generator" content={`platterside ${made.version}`} />
        <title>{title}</title>
        <style dangerouslySetInnerHTML={{ __html: style }} />
      </head>
      <body>
        {children}
        <footer>
          <p>
            Figures are given as value ± expanded uncertainty (k = 2, about 95 %). Record and chain are in it. Where it
            is missing, the note says why. “With this record” says how the figure repeats. Verdicts: ✓ within limits, △
            worth adjusting, ✕ outside limits, ? undecided: the limit lies within ±; no mark: for information. A maker’s
            manual wins over this report.
          </p>
          <p>
            Made {timeText(made.madeAt)} by platterside {made.version}. A recording is known by its fingerprint (SHA-256
            of the file).
          </p>
        </footer>
      </body>
    </html>
  );
}

export const documentText = (sheet: VNode): string => `<!doctype html>\n${renderToStaticMarkup(sheet)}\n`;
