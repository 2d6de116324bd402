/** Sheets to scale → files: one PDF, or one SVG for each sheet. */
import { printerScale, trueScale } from '../core/draw/outline.ts';
import { type PaperName, papers } from '../core/draw/paper.ts';
import { toPdf } from '../core/draw/pdf.ts';
import type { Drawing } from '../core/draw/shape.ts';
import { toSvg } from '../core/draw/svg.ts';
import { UsageError } from './command.ts';
import { numbersFlag } from './numbers.ts';
import { replaceHelp, replaceOption, writeTextOutput } from './output.ts';

export const sheetOptions = {
  paper: { type: 'string' },
  'measured-100mm': { type: 'string' },
  output: { type: 'string', short: 'o' },
  ...replaceOption,
} as const;

export const sheetHelp = `
  --paper a4|letter         (a4)
  --measured-100mm X[,Y]    what the printer made of the template's 100 mm bars, across and down, mm
  -o FILE.pdf|FILE.svg      where to write; an SVG of several pages becomes FILE-1.svg, FILE-2.svg, …
${replaceHelp}`;

export interface SheetFlags {
  readonly paper: PaperName;
  readonly measured: readonly [number, number] | null;
  readonly file: string;
  readonly format: 'pdf' | 'svg';
  readonly replace: boolean;
}

/** @throws UsageError naming the flag, what was found and what was expected */
export function readSheetFlags(values: Readonly<Record<string, unknown>>): SheetFlags {
  const paper = (values.paper as string | undefined) ?? 'a4';
  if (!Object.hasOwn(papers, paper)) throw new UsageError(`--paper: '${paper}' was found; a4 or letter was expected`);
  const text = values['measured-100mm'] as string | undefined;
  let measured: SheetFlags['measured'] = null;
  if (text !== undefined) {
    const [x, y = x] = numbersFlag('--measured-100mm', text, ['X', 'Y'], 1);
    printerScale(x, y);
    measured = [x, y];
  }
  const file = values.output as string | undefined;
  if (file === undefined) throw new UsageError('-o FILE.pdf or -o FILE.svg is needed: where to write the template');
  const format = /\.(pdf|svg)$/i.exec(file)?.[1].toLowerCase();
  if (format !== 'pdf' && format !== 'svg') {
    throw new UsageError(`-o: '${file}' was found; a name that ends in .pdf or .svg was expected`);
  }
  return { paper: paper as PaperName, measured, file, format, replace: values.replace === true };
}

/**
 * Writes the sheets and returns the names of the files.
 *
 * @param inputs files that the command read
 */
export function writeSheets(
  sheets: readonly Drawing[],
  flags: SheetFlags,
  inputs: readonly (string | undefined)[],
): readonly string[] {
  const { measured, file, format, replace } = flags;
  const scale = measured === null ? trueScale : printerScale(...measured);
  const files: [string, string | Uint8Array][] =
    format === 'pdf'
      ? [[file, toPdf(sheets, scale)]]
      : sheets.map((sheet, i) => [
          sheets.length === 1 ? file : file.replace(/\.svg$/i, `-${i + 1}.svg`),
          toSvg(sheet, scale),
        ]);
  for (const [name, bytes] of files) {
    writeTextOutput({ flag: '-o', file: name, inputs, replace }, bytes);
  }
  return files.map(([name]) => name);
}
