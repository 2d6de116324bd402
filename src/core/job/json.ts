/** What JSON holds, of which nothing is known yet. */
import type { z } from 'zod';

export type Json = z.core.util.JSONType;
export type JsonObject = { [key: string]: Json };

/** A list is none. */
export const isObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
