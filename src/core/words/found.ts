/** What may not exist: a value, or the reason why there is none. */
import type { Statement } from './statement.ts';

export type Found<T> = { readonly found: true; readonly value: T } | { readonly found: false; readonly why: Statement };

export const none = (why: Statement): { readonly found: false; readonly why: Statement } => ({ found: false, why });

export const valueOrNull = <T>(found: Found<T>): T | null => (found.found ? found.value : null);
