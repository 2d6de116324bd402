/** Times as the clock on the wall shows them, in the zone of this browser's machine, which is the bench's own. */

/** `2026-03-04`. @param iso time in UTC */
export const dayHere = (iso: string): string => new Date(iso).toLocaleDateString('sv-SE');

/** `2026-03-04 10:30` */
export const timeHere = (iso: string): string =>
  new Date(iso).toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });
