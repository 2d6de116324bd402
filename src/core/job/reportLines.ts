/** What a station wants to have on the sheet that is handed over, read out of data whose other keys are its page's own. */
import type { StationData } from './api.ts';

export interface ReportLine {
  readonly label: string;
  readonly text: string;
}

/** Lines under `forReport`; what is not a line of label and text is passed over. */
export function reportLines(data: StationData): ReportLine[] {
  const lines: unknown = data.forReport;
  if (!Array.isArray(lines)) return [];
  return lines.flatMap((line: unknown) => {
    if (typeof line !== 'object' || line === null) return [];
    const { label, text } = line as { label?: unknown; text?: unknown };
    return typeof label === 'string' && typeof text === 'string' ? [{ label, text }] : [];
  });
}

/** Text under `notes`, or an empty string. */
export const stationNotes = (data: StationData): string => (typeof data.notes === 'string' ? data.notes.trim() : '');
