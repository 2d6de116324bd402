/** How loud the music is over the radius, for the criterion that takes it into account: a CSV file or its two ends. */
import { type MusicWeight, musicWeight } from '../core/geometry/music.ts';
import type { GrooveSpan } from '../core/geometry/span.ts';
import { readCsv } from '../core/words/csv.ts';
import { UsageError } from './command.ts';
import { numberFlag, numbersFlag } from './numbers.ts';
import { readText } from './textFile.ts';

/** Music weight from a CSV with columns radius_mm,weight. */
function musicFromCsv(file: string): MusicWeight {
  const csv = readText(`--music ${file}`, file, 'a CSV file');
  const { lines, open } = readCsv(csv);
  if (open !== null)
    throw new UsageError(`${file} line ${open}: a quotation mark is not closed; a closing one was expected`);
  const [header, ...body] = lines;
  const head = (header?.cells ?? []).map((name) => name.trim().toLowerCase());
  const [radius, weight] = [head.indexOf('radius_mm'), head.indexOf('weight')];
  if (radius < 0 || weight < 0) {
    const found = header === undefined ? 'nothing' : `'${header.cells.join(',').slice(0, 60)}'`;
    throw new UsageError(
      `${file} line ${header?.row ?? 1}: ${found} was found; the columns radius_mm,weight were expected`,
    );
  }
  const points = body.map(({ row, cells }) => ({
    radius: numberFlag(`${file} line ${row}`, cells[radius] ?? '', 'a radius in mm'),
    weight: numberFlag(`${file} line ${row}`, cells[weight] ?? '', 'a weight'),
  }));
  try {
    return musicWeight(points);
  } catch (error) {
    throw error instanceof RangeError ? new UsageError(`${file}: ${error.message}`) : error;
  }
}

/**
 * @param file of `--music`
 * @param ends of `--music-weight`: at the inner and at the outer groove of `span`
 * @throws UsageError naming the flag, what was found and what was expected
 */
export function readMusic(
  file: string | undefined,
  ends: string | undefined,
  span: GrooveSpan,
): MusicWeight | undefined {
  if (ends !== undefined && file !== undefined) {
    throw new UsageError('--music and --music-weight exclude each other; give one of the two');
  }
  if (file !== undefined) return musicFromCsv(file);
  if (ends === undefined) return undefined;
  const [inner, outer] = numbersFlag('--music-weight', ends, ['INNER', 'OUTER']);
  return musicWeight([
    { radius: span.inner, weight: inner },
    { radius: span.outer, weight: outer },
  ]);
}
