/** One line of a station in the report. */
export interface ReportLine {
  readonly label: string;
  readonly text: string;
}
