/**
 * Reads the Markdown that this product's own pages are written in: headings, paragraphs, lists, tables, code, quotes;
 * emphasis, code and links within a line. It yields a tree, never HTML, so nothing in a page can become a script.
 */

export type Inline =
  | { readonly kind: 'text' | 'code'; readonly text: string }
  | { readonly kind: 'strong' | 'em'; readonly parts: readonly Inline[] }
  | { readonly kind: 'link'; readonly href: string; readonly parts: readonly Inline[] };

export type Block =
  | { readonly kind: 'heading'; readonly level: number; readonly id: string; readonly parts: readonly Inline[] }
  | { readonly kind: 'paragraph'; readonly parts: readonly Inline[] }
  | { readonly kind: 'code'; readonly text: string }
  | { readonly kind: 'quote'; readonly blocks: readonly Block[] }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly Block[])[] }
  | {
      readonly kind: 'table';
      readonly head: readonly (readonly Inline[])[];
      readonly rows: readonly (readonly (readonly Inline[])[])[];
    }
  | { readonly kind: 'rule' };

const INLINE =
  /`([^`]+)`|!\[([^\]]*)\]\([^)]*\)|\[((?:[^[\]]|\[[^\]]*\])+)\]\(([^)\s]+)(?:\s+"[^"]*")?\)|\*\*(.+?)\*\*|(?<![\w*])\*([^*\s](?:[^*]*[^*\s])?)\*(?![\w*])|(?<!\w)_([^_\s](?:[^_]*[^_\s])?)_(?!\w)/;

export function readInline(source: string): Inline[] {
  const parts: Inline[] = [];
  let rest = source;
  while (rest !== '') {
    const match = INLINE.exec(rest);
    if (match === null) break;
    if (match.index > 0) parts.push({ kind: 'text', text: withoutEscapes(rest.slice(0, match.index)) });
    const [whole, code, image, label, href, strong, star, underline] = match;
    if (code !== undefined) parts.push({ kind: 'code', text: code });
    else if (image !== undefined) parts.push({ kind: 'text', text: image });
    else if (label !== undefined) parts.push({ kind: 'link', href, parts: readInline(label) });
    else if (strong !== undefined) parts.push({ kind: 'strong', parts: readInline(strong) });
    else parts.push({ kind: 'em', parts: readInline(star ?? underline) });
    rest = rest.slice(match.index + whole.length);
  }
  if (rest !== '') parts.push({ kind: 'text', text: withoutEscapes(rest) });
  return parts;
}

const withoutEscapes = (text: string): string => text.replace(/\\([\\`*_{}[\]()#+\-.!|<>])/g, '$1');

const headingId = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s-]/gu, '')
    .trim()
    .replace(/\s+/g, '-');

const ITEM = /^(\s*)([-*+]|\d+[.)])\s+(.*)$/;

/** Cells of a table's row; a bar inside backticks or after a backslash is no border. */
function cells(line: string): string[] {
  const inner = line.trim().replace(/^\|/, '').replace(/\|$/, '');
  const out: string[] = [''];
  let code = false;
  for (let i = 0; i < inner.length; i++) {
    const mark = inner[i];
    if (mark === '`') code = !code;
    if (mark === '\\' && inner[i + 1] === '|') {
      out[out.length - 1] += '|';
      i++;
    } else if (mark === '|' && !code) out.push('');
    else out[out.length - 1] += mark;
  }
  return out.map((cell) => cell.trim());
}

export function readMarkdown(source: string): Block[] {
  return readBlocks(
    source
      .replace(/\r\n?/g, '\n')
      .replace(/<!--[\s\S]*?-->/g, '')
      .split('\n'),
  );
}

function readBlocks(lines: readonly string[]): Block[] {
  const blocks: Block[] = [];
  let i = 0;
  const takeWhile = (keep: (line: string) => boolean): string[] => {
    const taken: string[] = [];
    while (i < lines.length && keep(lines[i])) taken.push(lines[i++]);
    return taken;
  };
  while (i < lines.length) {
    const text = lines[i];
    const fence = /^\s*(```+|~~~+)/.exec(text);
    const heading = /^(#{1,6})\s+(.*?)\s*#*\s*$/.exec(text);
    if (text.trim() === '') i++;
    else if (fence !== null) {
      i++;
      const body = takeWhile((line) => !line.trim().startsWith(fence[1]));
      i++;
      blocks.push({ kind: 'code', text: body.join('\n') });
    } else if (heading !== null) {
      i++;
      blocks.push({
        kind: 'heading',
        level: heading[1].length,
        id: headingId(heading[2]),
        parts: readInline(heading[2]),
      });
    } else if (/^\s{0,3}([-*_])(\s*\1){2,}\s*$/.test(text)) {
      i++;
      blocks.push({ kind: 'rule' });
    } else if (/^( {4}|\t)/.test(text)) {
      const body = takeWhile((line) => /^( {4}|\t)/.test(line) || line.trim() === '');
      blocks.push({
        kind: 'code',
        text: body
          .map((line) => line.replace(/^( {4}|\t)/, ''))
          .join('\n')
          .trimEnd(),
      });
    } else if (text.startsWith('>')) {
      const body = takeWhile((line) => line.startsWith('>'));
      blocks.push({ kind: 'quote', blocks: readBlocks(body.map((line) => line.replace(/^>\s?/, ''))) });
    } else if (
      text.includes('|') &&
      /^\s*\|?[\s:|-]*-[\s:|-]*\|?\s*$/.test(lines[i + 1] ?? '') &&
      (lines[i + 1] ?? '').includes('|')
    ) {
      const head = cells(text).map(readInline);
      i += 2;
      const rows = takeWhile((line) => line.includes('|')).map((line) => cells(line).map(readInline));
      blocks.push({ kind: 'table', head, rows });
    } else if (ITEM.test(text)) blocks.push(readList());
    else {
      const body = takeWhile(
        (line) => line.trim() !== '' && !/^(#{1,6}\s|```|>|~~~)/.test(line) && !(ITEM.test(line) && line !== text),
      );
      blocks.push({ kind: 'paragraph', parts: readInline(body.map((line) => line.trim()).join(' ')) });
    }
  }
  return blocks;

  function readList(): Block {
    const first = ITEM.exec(lines[i]) as RegExpExecArray;
    const depth = first[1].length;
    const ordered = /\d/.test(first[2]);
    const items: Block[][] = [];
    while (i < lines.length) {
      const item = ITEM.exec(lines[i]);
      if (item === null || item[1].length !== depth || /\d/.test(item[2]) !== ordered) break;
      i++;
      const body = [item[3]];
      while (i < lines.length) {
        const line = lines[i];
        const deeper = /^\s*/.exec(line)?.[0].length ?? 0;
        const next = lines[i + 1] ?? '';
        if (line.trim() === '') {
          if (!/^\s/.test(next) || (/^\s*/.exec(next)?.[0].length ?? 0) <= depth) break;
        } else if (deeper <= depth && (ITEM.test(line) || /^(#{1,6}\s|```|>)/.test(line))) break;
        body.push(line.slice(Math.min(deeper, depth + 2)));
        i++;
      }
      items.push(readBlocks(body));
      // a blank line between two items
      if (lines[i]?.trim() === '' && ITEM.exec(lines[i + 1] ?? '')?.[1].length === depth) i++;
    }
    return { kind: 'list', ordered, items };
  }
}

/** Text of a tree of inlines, without marks. */
function plainText(parts: readonly Inline[]): string {
  return parts.map((part) => ('text' in part ? part.text : plainText(part.parts))).join('');
}

/** First block of code below a page's heading: its formula. */
export function formulaOf(source: string): string | null {
  const block = readMarkdown(source).find((candidate) => candidate.kind === 'code');
  return block?.kind === 'code' ? block.text : null;
}

/** First heading, as plain text. */
export function titleOf(source: string): string | null {
  const heading = readMarkdown(source).find((block) => block.kind === 'heading');
  return heading?.kind === 'heading' ? plainText(heading.parts) : null;
}
