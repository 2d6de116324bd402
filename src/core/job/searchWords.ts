/** The words of a text, for finding jobs: letters and digits alone, lower case, without accents, so that both spellings are found. */

/** letters; what is longer is cut, here and in what is searched for */
const LONGEST = 40;
/** words of one text; the rest of a very long note is not searched */
const MOST_WORDS = 2000;

/** Each word once, in the order of the text. */
export function searchWords(text: string): string[] {
  const plain = text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const words = (plain.match(/[\p{L}\p{N}]+/gu) ?? []).map((word) => [...word].slice(0, LONGEST).join(''));
  return [...new Set(words)].slice(0, MOST_WORDS);
}

/** A deck's name as names are compared: without blanks around it, in small letters. */
export const plainName = (name: string): string => name.trim().toLowerCase();
