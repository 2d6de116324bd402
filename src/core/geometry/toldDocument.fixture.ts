/** Plain data as lines, so that a test can hold all of a document: an object of plain values is a line, numbers have eight figures. */

const isPlain = (value: unknown): boolean => value === null || typeof value !== 'object';

function told(value: unknown): string {
  if (typeof value !== 'number') return `${value}`;
  // what is nought but for rounding is nought
  return `${Math.abs(value) < 1e-9 ? 0 : Number(value.toPrecision(8))}`;
}

export function toldDocument(value: unknown, path = ''): string[] {
  if (isPlain(value)) return [`${path} ${told(value)}`.trim()];
  if (Array.isArray(value) && value.every(isPlain)) return [`${path} [${value.map(told).join(' ')}]`.trim()];
  const entries = Object.entries(value as object);
  const plain = entries.filter(([, inner]) => isPlain(inner));
  const line = `${path}: ${plain.map(([key, inner]) => `${key} ${told(inner)}`).join(', ')}`;
  return [
    ...(plain.length > 0 ? [line] : []),
    ...entries
      .filter(([, inner]) => !isPlain(inner))
      .flatMap(([key, inner]) => toldDocument(inner, path === '' ? key : `${path}.${key}`)),
  ];
}
