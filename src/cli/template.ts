/** `platterside template`: a protractor to scale for this arm and these records. */

import { parseArgs } from 'node:util';
import { arcTemplate } from '../core/draw/arcTemplate.ts';
import { twoPointTemplate } from '../core/draw/twoPoint.ts';
import { criteria } from '../core/geometry/criteria.ts';
import { placeDocument } from '../core/geometry/document.ts';
import { say } from '../core/words/statement.ts';
import { CannotError, type Command, UsageError } from './command.ts';
import { geometryHelp, geometryOptions, readGeometry } from './geometryFlags.ts';
import { joinedNegatives } from './numbers.ts';
import { readSheetFlags, sheetHelp, sheetOptions, writeSheets } from './sheetFile.ts';

const help = `
platterside template --spindle-to-pivot MM --style two-point|arc -o FILE.pdf

A template to scale, as vectors, with the numbers that it was drawn for.

  --style two-point|arc     grids at the two null points for any arm, or the tip's arc for this arm with a sight line to
                            the pivot (two-point)
${sheetHelp}
${geometryHelp}
`;

export const command: Command = {
  name: 'template',
  summary: 'a protractor to scale for this arm and these records, PDF or SVG',
  help,
  async run(args, io) {
    const { values } = parseArgs({
      args: joinedNegatives(args),
      options: { ...geometryOptions, ...sheetOptions, style: { type: 'string' }, json: { type: 'boolean' } },
    });
    const style = values.style ?? 'two-point';
    if (style !== 'two-point' && style !== 'arc') {
      throw new UsageError(`--style: '${style}' was found; two-point or arc was expected`);
    }
    const sheet = readSheetFlags(values);
    const { stated: _, makers: __, ...asked } = await readGeometry(values);
    const document = placeDocument(asked);
    if (!document.found) throw new CannotError(`no template can be drawn: ${say(document.why)}`);
    const place = document.value;
    if (place.kind === 'tangential') {
      throw new CannotError('no template can be drawn for a tangential arm: its tip runs straight to the spindle');
    }
    const request = {
      figures: place,
      span: asked.span,
      criterion: criteria.find(({ name }) => name === asked.criterion)?.title ?? asked.criterion,
      rpm: place.rpm,
      paper: sheet.paper,
      measured: sheet.measured,
    };
    const template = style === 'arc' ? arcTemplate(request) : twoPointTemplate(request);
    if (!template.found) throw new CannotError(`no template can be drawn: ${say(template.why)}`);
    const files = writeSheets(template.value.sheets, sheet, [values.music]);
    if (values.json === true) {
      const { effectiveLengthMm, overhangMm, offsetDeg, nullPointsMm, spindleToPivotMm } = place;
      io.out(
        `${JSON.stringify({ schema: 1, files, style, paper: sheet.paper, spindleToPivotMm, effectiveLengthMm, overhangMm, offsetDeg, nullPointsMm }, null, 2)}\n`,
      );
    } else {
      io.out(
        `${files.join('\n')}\nPrint at 100 %, not fitted to the page, and lay a ruler on both 100 mm bars before use.\n`,
      );
    }
    return 0;
  },
};
