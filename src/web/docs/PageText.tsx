/** A page's text as elements. */
import type { ComponentChildren, JSX } from 'preact';
import { docsPath } from '../route.ts';
import { type Block, type Inline, readMarkdown } from './markdown.ts';
import { hasPage, resolvePage } from './pages.ts';

const inlines = (parts: readonly Inline[], from: string): ComponentChildren => parts.map((part) => inline(part, from));

function inline(part: Inline, from: string): ComponentChildren {
  switch (part.kind) {
    case 'text':
      return part.text;
    case 'code':
      return <code>{part.text}</code>;
    case 'strong':
      return <strong>{inlines(part.parts, from)}</strong>;
    case 'em':
      return <em>{inlines(part.parts, from)}</em>;
    case 'link': {
      const to = resolvePage(from, part.href);
      const inner = inlines(part.parts, from);
      if (to !== null && hasPage(to.page)) return <a href={docsPath(to.page, to.section)}>{inner}</a>;
      if (!/^https?:/.test(part.href)) return inner;
      return (
        <a href={part.href} target="_blank" rel="noreferrer">
          {inner}
        </a>
      );
    }
  }
}

function block(one: Block, from: string, shift: number): JSX.Element {
  switch (one.kind) {
    case 'heading': {
      const Tag = `h${Math.min(6, one.level + shift)}` as 'h2';
      return <Tag id={one.id}>{inlines(one.parts, from)}</Tag>;
    }
    case 'paragraph':
      return <p>{inlines(one.parts, from)}</p>;
    case 'code':
      return (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
        <pre tabIndex={0}>
          <code>{one.text}</code>
        </pre>
      );
    case 'quote':
      return <blockquote>{one.blocks.map((inner) => block(inner, from, shift))}</blockquote>;
    case 'list': {
      const items = one.items.map((item) => (
        <li>
          {item.map((inner) =>
            inner.kind === 'paragraph' ? <>{inlines(inner.parts, from)} </> : block(inner, from, shift),
          )}
        </li>
      ));
      return one.ordered ? <ol>{items}</ol> : <ul>{items}</ul>;
    }
    case 'table':
      return (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
        <div class="scroll-x" tabIndex={0}>
          <table>
            <thead>
              <tr>
                {one.head.map((cell) => (
                  <th scope="col">{inlines(cell, from)}</th>
                ))}
              </tr>
            </thead>
            <tbody>
              {one.rows.map((row) => (
                <tr>
                  {row.map((cell) => (
                    <td>{inlines(cell, from)}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      );
    case 'rule':
      return <hr />;
  }
}

/** @param shift how many levels a page's headings go down, so that the sheet keeps its one top heading */
export function PageText({ source, name, shift = 2 }: { source: string; name: string; shift?: number }) {
  return <div class="page-text">{readMarkdown(source).map((one) => block(one, name, shift))}</div>;
}
