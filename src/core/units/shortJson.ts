/** A value from a file as JSON, short enough for a sentence; undefined where JSON has no text for it. */
export function shortJson(value: unknown, most = 60): string | undefined {
  let text: string | undefined;
  try {
    text = JSON.stringify(value);
  } catch (error) {
    // the engine reads deeper nesting than it can write
    if (error instanceof RangeError) return 'lists within lists without end';
    throw error;
  }
  return text !== undefined && text.length > most ? `${text.slice(0, most - 3)}…` : text;
}
