/** What a person may read, out of the sources: strings and page text, without names, paths and code. */
import { parseSync } from 'vite';

interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

/** Attributes and keys that hold no words. */
const SILENT = new Set([
  'class',
  'id',
  'for',
  'href',
  'key',
  'd',
  'viewBox',
  'points',
  'transform',
  'path',
  'aria-labelledby',
]);

/** A sentence, a label, a heading: it has a space in it or begins large. A single small word is a name. */
const isSpoken = (text: string): boolean => /\p{L}{2}/u.test(text) && (/\s/.test(text) || /^\p{Lu}\p{Ll}/u.test(text));

/** Of an element its own text, values in it as "…"; what is an element inside a line is read on. */
const INLINE = new Set(['a', 'b', 'code', 'i', 'span', 'strong']);

function lineOf(node: Node): string {
  const children = (node.children ?? []) as readonly Node[];
  return children
    .map((child): string => {
      if (child.type === 'JSXText') return String(child.value);
      if (child.type === 'JSXExpressionContainer') {
        const { type, value } = child.expression as Node;
        return type === 'Literal' && typeof value === 'string' ? value : type === 'JSXEmptyExpression' ? '' : '…';
      }
      const name = ((child.openingElement as Node | undefined)?.name as Node | undefined)?.name;
      return typeof name === 'string' && INLINE.has(name) ? lineOf(child) : '\n';
    })
    .join('');
}

/** Every line of an element that has a value between its words. */
export function mixedLines(file: string, source: string): string[] {
  const found: string[] = [];
  const visit = (node: Node): void => {
    if (node.type === 'JSXElement') {
      for (const line of lineOf(node).split('\n\n')) {
        const text = line.replace(/\s+/g, ' ').trim();
        if (text.includes('…') && isSpoken(text)) found.push(text);
      }
    }
    for (const value of Object.values(node)) {
      if (isNode(value)) visit(value);
      else if (Array.isArray(value)) value.filter(isNode).forEach(visit);
    }
  };
  visit(parseSync(file, source).program as unknown as Node);
  return found;
}

/** All text in a source that a person may read; values in templates as "…". */
export function spokenText(file: string, source: string): string[] {
  const found: string[] = [];
  const add = (raw: string): void => {
    const text = raw.replace(/\s+/g, ' ').trim();
    if (isSpoken(text)) found.push(text);
  };
  const visit = (node: Node): void => {
    if (
      /^TS(?!AsExpression|NonNull|Satisfies)/.test(node.type) ||
      /^(Import|Export(All|Named).*source)/.test(node.type)
    )
      return;
    if (node.type === 'JSXText') add(String(node.value));
    if (node.type === 'Literal' && typeof node.value === 'string') add(node.value);
    if (node.type === 'TemplateLiteral') {
      const quasis = node.quasis as readonly { value: { cooked: string } }[];
      add(quasis.map(({ value }) => value.cooked).join('…'));
    }
    for (const [key, value] of Object.entries(node)) {
      if (node.type === 'JSXAttribute' && SILENT.has(String((node.name as Node).name))) continue;
      if (key === 'source' || (key === 'key' && node.type === 'Property')) continue;
      if (isNode(value)) visit(value);
      else if (Array.isArray(value)) value.filter(isNode).forEach(visit);
    }
  };
  visit(parseSync(file, source).program as unknown as Node);
  return found;
}
