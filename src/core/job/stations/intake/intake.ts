/** Intake: what is noted of a deck as it comes in, and what of it goes on the report. */
import type { ReportLine } from '../../reportLines.ts';

/** As it was typed; every key may be missing. */
export interface IntakeData {
  cartridge: string;
  stylusHours: string;
  /** keys of `intakePoints` */
  checked: readonly string[];
  faults: string;
}

/** What is looked at before any work begins, in the order of the hands. */
export const intakePoints = [
  { key: 'guard', label: 'Guard on, arm locked in its rest, platter still' },
  { key: 'cantilever', label: 'Cantilever straight, seen from the front and from the side' },
  { key: 'tip', label: 'Tip there, clean, and not worn or chipped under the glass' },
  { key: 'bearings', label: 'Arm bearings free, without play' },
  { key: 'leads', label: 'Cartridge leads whole, clips firm on their pins' },
  { key: 'platter', label: 'Platter turns freely, belt or drive without fault' },
  { key: 'level', label: 'Deck stands level' },
  { key: 'hours', label: 'Stylus hours asked for' },
] as const;

export const HOURS = { min: 0, max: 20_000, unit: 'h' };

/** Only what was filled in, in the order of the page. */
export function intakeLines(data: Partial<IntakeData>): ReportLine[] {
  const done = intakePoints.filter((point) => data.checked?.includes(point.key));
  return [
    { label: 'Cartridge', text: data.cartridge ?? '' },
    { label: 'Stylus hours', text: data.stylusHours ?? '' },
    { label: 'Gone over', text: done.map((point) => point.label).join('; ') },
    { label: 'Faults found', text: data.faults ?? '' },
  ].filter((line) => line.text.trim() !== '');
}
