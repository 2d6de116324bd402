/** The lines of flutter as a spectrum is marked with them: by the part that turns there, else by their frequency. */
import type { JudgedFinding } from '../advise/document.ts';

const parts: Readonly<Record<string, string>> = {
  'flutter-of-platter': 'platter',
  'flutter-of-motor': 'motor',
  'flutter-of-belt': 'belt',
  'flutter-of-idler': 'idler',
  'flutter-of-mains': 'mains',
};

export function flutterMarks(findings: readonly JudgedFinding[]): { readonly x: number; readonly label: string }[] {
  return findings.flatMap(({ quantity, atHz, notes = [] }) => {
    if (quantity !== 'flutter-line' || atHz === undefined) return [];
    const named = notes.find(({ code }) => Object.hasOwn(parts, code));
    const times = named?.values.times;
    const label =
      named === undefined
        ? `${Number(atHz.toPrecision(3))} Hz`
        : `${times === 1 ? '' : `${times} × `}${parts[named.code]}`;
    return [{ x: atHz, label }];
  });
}
