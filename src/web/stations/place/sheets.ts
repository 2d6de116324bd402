/** The sheets to scale for this arm: the same drawings that the commands `template` and `strobe` write. */

import { arcTemplate } from '../../../core/draw/arcTemplate.ts';
import { printerScale, type Scale, trueScale } from '../../../core/draw/outline.ts';
import type { PaperName } from '../../../core/draw/paper.ts';
import type { Drawing } from '../../../core/draw/shape.ts';
import { strobeDisc } from '../../../core/draw/strobe.ts';
import { twoPointTemplate } from '../../../core/draw/twoPoint.ts';
import { criteria } from '../../../core/geometry/criteria.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { spanIn } from '../../../core/job/stations/place/arms.ts';
import { sheetFields } from '../../../core/job/stations/place/fields.ts';
import { neededField, optionalField } from '../../../core/job/stations/place/fieldValue.ts';
import type { SheetStyle, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import { type Found, none } from '../../../core/words/found.ts';
import { statement } from '../../../core/words/statement.ts';

/** What the printer made of 100 mm, across and down; null where it was not measured. */
export type Measured = readonly [number, number] | null;

/** @throws Unusable where one is out of its bounds, or only the second was measured */
export function measuredOf(typed: SheetTyped): Measured {
  const down = optionalField(sheetFields.madeDown, typed.madeDown);
  if (down === undefined && (typed.madeAcross ?? '').trim() === '') return null;
  const across = neededField(sheetFields.madeAcross, typed.madeAcross);
  return [across, down ?? across];
}

export const scaleOf = (measured: Measured): Scale => (measured === null ? trueScale : printerScale(...measured));

/** @returns the pages, or the reason why there is no such sheet */
export function templateSheets(
  place: PlaceDocument,
  style: SheetStyle,
  paper: PaperName,
  measured: Measured,
): Found<readonly Drawing[]> {
  if (place.kind === 'tangential') {
    return none(statement('no-template-tangential'));
  }
  const request = {
    figures: place,
    span: spanIn(place),
    criterion: criteria.find(({ name }) => name === place.criterion)?.title ?? place.criterion,
    rpm: place.rpm,
    paper,
    measured,
  };
  const template = style === 'arc' ? arcTemplate(request) : twoPointTemplate(request);
  return template.found ? { found: true, value: template.value.sheets } : template;
}

/** rpm; outermost ring first */
const STROBE_SPEEDS = [100 / 3, 45, 78.26] as const;

export const strobeSheet = (mains: '50' | '60', paper: PaperName, measured: Measured) =>
  strobeDisc(mains === '50' ? 50 : 60, STROBE_SPEEDS, paper, measured);
