/** First letter large. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** First letter small: units within keep theirs. */
export const small = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
