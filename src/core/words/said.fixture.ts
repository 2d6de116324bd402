/** A value with every statement in it said, for checks of whole sentences. */
import { type Statement, say } from './statement.ts';

const isStatement = (value: object): value is Statement => 'code' in value && 'values' in value;

export function said(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (isStatement(value)) return say(value);
  if (Array.isArray(value)) return value.map(said);
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, said(one)]));
}
