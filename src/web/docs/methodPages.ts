/**
 * The page under docs/methods/ that tells how a quantity is found: the one that names it, in backticks, most often. A
 * page written for a new quantity is thus found without a table that would have to be kept.
 */
import { loadPage, pageNames } from './pages.ts';

/** How often each quantity's name stands in a page, by page. */
export function namesIn(source: string): Map<string, number> {
  const counts = new Map<string, number>();
  for (const [, name] of source.matchAll(/`([a-z0-9]+(?:-[a-z0-9]+)*)`/g))
    counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}

/** The page that names it most often; the first of them where several do. */
export function mostNaming(quantity: string, pages: ReadonlyMap<string, ReadonlyMap<string, number>>): string | null {
  let best: string | null = null;
  for (const [page, counts] of pages) {
    if ((counts.get(quantity) ?? 0) > (best === null ? 0 : (pages.get(best)?.get(quantity) ?? 0))) best = page;
  }
  return best;
}

let index: Promise<Map<string, Map<string, number>>> | null = null;

async function readIndex(): Promise<Map<string, Map<string, number>>> {
  const names = pageNames().filter((name) => name.startsWith('methods/'));
  const sources = await Promise.all(names.map((name) => loadPage(name)));
  return new Map(names.map((name, i) => [name, namesIn(sources[i] ?? '')]));
}

/** Page of a quantity, or null where none names it. */
export async function methodPage(quantity: string): Promise<string | null> {
  index ??= readIndex();
  try {
    return mostNaming(quantity, await index);
  } catch {
    // the server is away: asked again next time
    index = null;
    return null;
  }
}
