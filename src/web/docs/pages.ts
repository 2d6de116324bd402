/** The product's own pages, bundled as text, so that they open without any network. */

const loaders = import.meta.glob<string>('../../../docs/**/*.md', { query: '?raw', import: 'default' });

const pages = new Map(
  Object.entries(loaders).map(([path, load]) => [path.replace(/^.*?\/docs\//, '').replace(/\.md$/, ''), load] as const),
);

export const pageNames = (): string[] => [...pages.keys()].sort();
export const hasPage = (name: string): boolean => pages.has(name);

/** Text of a page, or null where there is none. */
export async function loadPage(name: string): Promise<string | null> {
  const load = pages.get(name);
  return load === undefined ? null : load();
}

/** Where a link written in `from` leads: another page, or null when it leads out of the pages. */
export function resolvePage(from: string, href: string): { page: string; section: string } | null {
  if (/^[a-z]+:/i.test(href)) return null;
  const [path, section = ''] = href.split('#');
  if (path === '') return { page: from, section };
  if (!path.endsWith('.md')) return null;
  const parts = from.split('/').slice(0, -1);
  for (const part of path.replace(/\.md$/, '').split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '.') parts.push(part);
  }
  return { page: parts.join('/'), section };
}
