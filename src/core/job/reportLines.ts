/** One line of a station in the report. */
export interface ReportLine {
  readonly label: string;
  readonly text: string;
  /** ISO time of it, told behind the text in the zone of whoever shows it */
  readonly at?: string;
}
