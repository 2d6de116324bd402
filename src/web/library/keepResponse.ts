/** A measured response put with its preamp in the library. */
import { LONGEST_RESPONSE } from '../../core/job/parts.ts';
import { responseFault } from '../../core/job/stations/run/responses.ts';
import { api } from '../api.ts';
import { placeOnShelf, type ShelfPartOf } from './shelf.ts';

/** @returns the part's revision with it, or a sentence why it is not kept */
export async function keepResponse(
  { id, part: { responseCsv, name } }: ShelfPartOf<'preamp'>,
  csv: string,
): Promise<{ readonly revision: number } | { readonly why: string }> {
  const why = responseFault(csv, name, LONGEST_RESPONSE);
  if (why !== null) return { why };
  try {
    const record = await api.changePart('preamp', id, {
      changes: [{ path: ['responseCsv'], was: responseCsv, is: csv }],
    });
    placeOnShelf(record);
    return record;
  } catch (error) {
    return { why: error instanceof Error ? error.message : String(error) };
  }
}
