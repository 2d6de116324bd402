/** A QR code (ISO/IEC 18004) as one path of an SVG drawing: squares of side 1, the quiet zone of four around it. */
import { encode } from 'uqr';

const QUIET = 4;

/** @param text an address; a reader's camera is close, so the middle level of correction is enough */
export function qrPath(text: string): { readonly size: number; readonly path: string } {
  const { size, data } = encode(text, { ecc: 'M', border: QUIET });
  const rows = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])));
  return { size, path: rows.join('') };
}
