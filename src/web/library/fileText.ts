/** The letters of a file that a person picked, or why they cannot be read: a wrong guess would change names for good. */

export type FileText =
  | { readonly found: true; readonly text: string }
  | { readonly found: false; readonly why: string };

/** UTF-8, or UTF-16 where a byte order mark says so; anything else is refused. The mark itself is left out. */
export function fileText(bytes: Uint8Array): FileText {
  const [first, second] = bytes;
  const encoding =
    first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
  try {
    return { found: true, text: new TextDecoder(encoding, { fatal: true }).decode(bytes) };
  } catch {
    return {
      found: false,
      why: 'its letters are not UTF-8; save the table as .csv in UTF-8',
    };
  }
}
