/** Parts as JSON: one part, a list of parts, or a library. */
import { checkPart, type PartFault, type PartsRead, quoted } from './partFault.ts';
import type { Part } from './parts.ts';

/** `{"schema": 1, "parts": […]}` with two-space indents and a final newline. */
export const partsToJson = (parts: readonly Part[]): string => `${JSON.stringify({ schema: 1, parts }, null, 2)}\n`;

/** Reads all or nothing: `{…one part…}`, `[…]` or `{"schema": 1, "parts": […]}`. */
export function partsFromJson(text: string): PartsRead {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const found = error instanceof Error ? `text that is not JSON (${error.message})` : 'text that is not JSON';
    return {
      parts: [],
      faults: [{ row: null, column: null, found, expected: 'JSON of one part, a list or a library' }],
    };
  }
  const library = value as { schema?: unknown; parts?: unknown } | null;
  const list = Array.isArray(value) ? value : Array.isArray(library?.parts) ? library.parts : null;
  if (list !== null && !Array.isArray(value) && library?.schema !== 1) {
    return { parts: [], faults: [{ row: null, column: 'schema', found: quoted(library?.schema), expected: '1' }] };
  }
  const parts: Part[] = [];
  const faults: PartFault[] = [];
  (list ?? [value]).forEach((entry, index) => {
    const checked = checkPart(entry, list === null ? null : index + 1);
    if (checked.found) parts.push(checked.part);
    else faults.push(...checked.faults);
  });
  return faults.length > 0 ? { parts: [], faults } : { parts, faults };
}
