/** The text of `JSON.stringify(value, null, 2)` in pieces, so that a long recording's document is never held as one string too. */

const PIECE = 1 << 16;
/** lists and objects inside these are one piece each */
const DEPTH = 2;

export function* jsonPieces(value: unknown): Generator<string> {
  let piece = '';
  for (const part of parts(value, '', DEPTH)) {
    piece += part;
    if (piece.length < PIECE) continue;
    yield piece;
    piece = '';
  }
  yield piece;
}

function* parts(value: unknown, indent: string, depth: number): Generator<string> {
  const inner = `${indent}  `;
  const isList = Array.isArray(value);
  if (typeof value !== 'object' || value === null || depth === 0) {
    yield JSON.stringify(value, null, 2).replaceAll('\n', `\n${indent}`);
    return;
  }
  const entries = isList
    ? value.map((one): [string, unknown] => ['', one ?? null])
    : Object.entries(value).filter(([, one]) => one !== undefined);
  if (entries.length === 0) {
    yield isList ? '[]' : '{}';
    return;
  }
  yield isList ? '[' : '{';
  for (const [i, [key, one]] of entries.entries()) {
    yield `${i === 0 ? '' : ','}\n${inner}${isList ? '' : `${JSON.stringify(key)}: `}`;
    yield* parts(one, inner, depth - 1);
  }
  yield `\n${indent}${isList ? ']' : '}'}`;
}
