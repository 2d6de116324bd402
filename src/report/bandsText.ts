/** Bands as a report counts them for people: from 1, neighbours drawn together. */

/** @param bands indices from 0, ascending. "1 to 5, 9, 10"; "–" for none */
export function bandsText(bands: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const band of bands) {
    const run = runs.at(-1);
    if (run !== undefined && band === run[1] + 1) run[1] = band;
    else runs.push([band, band]);
  }
  if (runs.length === 0) return '–';
  return runs.map(([first, last]) => runText(first + 1, last + 1)).join(', ');
}

function runText(first: number, last: number): string {
  if (first === last) return `${first}`;
  return last === first + 1 ? `${first}, ${last}` : `${first} to ${last}`;
}
