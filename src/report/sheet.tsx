/** One self-contained HTML document: no script, nothing loaded, and a policy inside that holds it to that wherever it is opened. */
import { type ComponentChildren, createContext, type VNode } from 'preact';
import { useContext } from 'preact/hooks';
import { renderToStaticMarkup } from 'preact-render-to-string';
import { verdictWords } from '../core/words/quantities.ts';
import { say, statement } from '../core/words/statement.ts';
import { style } from './style.ts';

export interface Made {
  /** ISO time */
  readonly madeAt: string;
  /** of the program */
  readonly version: string;
  /** the bench's own, by its IANA name: every time is told in it */
  readonly zone: string;
}

/** The same as the server's header for reports, as far as a meta tag may say it: a file has no headers. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** `2026-03-04T09:30:00.000Z`, `Europe/Prague` → `2026-03-04 10:30` */
function timeText(iso: string, zone: string): string {
  // Swedish writes dates as ISO does
  return new Date(iso).toLocaleString('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' });
}

const Zone = createContext('UTC');

/** A time in the bench's own zone. */
export function Time({ at }: { at: string }) {
  return <>{timeText(at, useContext(Zone))}</>;
}

export interface SheetProps {
  readonly title: string;
  readonly made: Made;
  /** class of the body: how tightly it is set */
  readonly kind: 'customer' | 'technician' | 'side';
  readonly children: ComponentChildren;
}

const marks = (['good', 'adjust', 'bad', 'undecided'] as const).map((verdict) => verdictWords[verdict]).join(', ');

export function Sheet({ title, made, kind, children }: SheetProps) {
  const { madeAt, version, zone } = made;
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={POLICY} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="generator" content={`platterside ${version}`} />
        <title>{title}</title>
        {/* none of its own, so that no browser asks the server for one */}
        <link rel="icon" href="data:," />
        <style dangerouslySetInnerHTML={{ __html: style }} />
      </head>
      <body class={kind}>
        <Zone.Provider value={zone}>{children}</Zone.Provider>
        <footer>
          <p>
            {say(statement('how-to-read'))} {marks}.{' '}
            {kind === 'customer' ? '' : `${say(statement('recording-fingerprint'))} `}
            {say(statement('made-by', { at: timeText(madeAt, zone), version }))}{' '}
            {say(statement('times-zone', { zone }))}
          </p>
        </footer>
      </body>
    </html>
  );
}

export const documentText = (sheet: VNode): string => `<!doctype html>\n${renderToStaticMarkup(sheet)}\n`;
