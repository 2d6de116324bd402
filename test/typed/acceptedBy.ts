/** For tests: anything that a zod schema accepts, with numbers and words as a bench types them among the texts. */
import * as fc from 'fast-check';
import { z } from 'zod';

interface JsonSchema {
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: JsonSchema | boolean;
  readonly items?: JsonSchema;
  readonly format?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
}

const typed = [
  '',
  ' ',
  '0',
  '222',
  '222 mm',
  '1,8 g',
  '1.8',
  '17.7 mN',
  '-3',
  '−3',
  '1e9',
  '47k',
  'abc',
  '½',
  '<b>&',
  '1,000',
  '20',
];

function text({ minLength = 0, maxLength = 200, format }: JsonSchema): fc.Arbitrary<string> {
  if (format === 'date-time') return fc.constantFrom('2026-03-04T09:30:00.000Z', '2000-01-01T00:00:00Z');
  const free = fc.string({ minLength, maxLength: Math.min(maxLength, 40), unit: 'grapheme' });
  const longest = fc.constant('9'.repeat(Math.max(minLength, maxLength)));
  return fc
    .oneof(
      { arbitrary: fc.constantFrom(...typed), weight: 8 },
      { arbitrary: free, weight: 3 },
      { arbitrary: longest, weight: 1 },
    )
    .filter((one) => minLength <= one.length && one.length <= maxLength);
}

function number({ type, minimum = -1e300, maximum = 1e300 }: JsonSchema): fc.Arbitrary<number> {
  if (type === 'integer') return fc.integer({ min: Math.max(minimum, -1e6), max: Math.min(maximum, 1e6) });
  const ends = [minimum, maximum, 0, 1, 18.2].filter((one) => minimum <= one && one <= maximum);
  return fc.oneof(fc.constantFrom(...ends), fc.double({ min: minimum, max: maximum, noNaN: true }));
}

function fromJson(schema: JsonSchema): fc.Arbitrary<unknown> {
  const several = schema.anyOf ?? schema.oneOf;
  if (several !== undefined) return fc.oneof(...several.map(fromJson));
  if (Array.isArray(schema.type)) return fc.oneof(...schema.type.map((type) => fromJson({ ...schema, type })));
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
  if (schema.type === 'null') return fc.constant(null);
  if (schema.type === 'boolean') return fc.boolean();
  if (schema.type === 'string') return text(schema);
  if (schema.type === 'number' || schema.type === 'integer') return number(schema);
  if (schema.type === 'array') return fc.array(fromJson(schema.items ?? {}), { maxLength: 4 });
  if (schema.type !== 'object') throw new Error(`no values are made for ${JSON.stringify(schema)}`);
  const { properties = {}, required = [] } = schema;
  return fc.record(Object.fromEntries(Object.entries(properties).map(([key, inner]) => [key, fromJson(inner)])), {
    requiredKeys: required as string[],
  });
}

/** @throws Error for a kind of schema that no values are made for */
export function acceptedBy<T>(schema: z.ZodType<T>): fc.Arbitrary<T> {
  const described = z.toJSONSchema(schema, { io: 'input' }) as JsonSchema;
  return fromJson(described).filter((value) => schema.safeParse(value).success) as fc.Arbitrary<T>;
}
