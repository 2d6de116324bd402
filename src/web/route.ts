/** Where the page stands, in the address bar: /jobs/ID/STATION, /docs/PAGE, /jobs, /parts, /records, /chains. Back and forward work. */
import { signal } from '@preact/signals';
import { isStationName, type StationName } from '../core/job/station.ts';

export type Route =
  | { readonly kind: 'start' }
  | { readonly kind: 'jobs' }
  | { readonly kind: 'parts' }
  | { readonly kind: 'records' }
  | { readonly kind: 'chains'; readonly chain: string | null }
  | { readonly kind: 'station'; readonly job: string; readonly station: StationName }
  | { readonly kind: 'docs'; readonly page: string; readonly section: string }
  | { readonly kind: 'nowhere' };

function readRoute(path: string, hash = ''): Route {
  const parts = path.split('/').filter((part) => part !== '');
  if (parts.length === 0) return { kind: 'start' };
  if (parts[0] === 'jobs' && parts.length === 1) return { kind: 'jobs' };
  if (parts[0] === 'parts' && parts.length === 1) return { kind: 'parts' };
  if (parts[0] === 'records' && parts.length === 1) return { kind: 'records' };
  if (parts[0] === 'chains' && parts.length <= 2 && /^[A-Za-z0-9_-]{0,64}$/.test(parts[1] ?? ''))
    return { kind: 'chains', chain: parts[1] ?? null };
  if (parts[0] === 'jobs' && parts.length <= 3 && /^[A-Za-z0-9_-]{1,64}$/.test(parts[1])) {
    const station = parts[2] ?? 'intake';
    if (isStationName(station)) return { kind: 'station', job: parts[1], station };
  }
  if (parts[0] === 'docs') {
    return { kind: 'docs', page: parts.slice(1).join('/') || 'index', section: hash.replace(/^#/, '') };
  }
  return { kind: 'nowhere' };
}

function pathOf(route: Route): string {
  switch (route.kind) {
    case 'station':
      return `/jobs/${route.job}/${route.station}`;
    case 'docs':
      return `/docs/${route.page}${route.section === '' ? '' : `#${route.section}`}`;
    case 'jobs':
      return '/jobs';
    case 'parts':
      return '/parts';
    case 'records':
      return '/records';
    case 'chains':
      return route.chain === null ? '/chains' : `/chains/${route.chain}`;
    default:
      return '/';
  }
}

export const stationPath = (job: string, station: StationName): string => pathOf({ kind: 'station', job, station });
export const chainPath = (chain: string): string => pathOf({ kind: 'chains', chain });
export const docsPath = (page: string, section = ''): string => pathOf({ kind: 'docs', page, section });

export const route = signal<Route>(readRoute(location.pathname, location.hash));

let moved = false;
/** The person has gone somewhere since the page was loaded; the focus then follows to the new heading. */
export const hasMoved = (): boolean => moved;

export function go(path: string, replace = false): void {
  const url = new URL(path, location.href);
  if (!replace) moved = true;
  if (url.pathname + url.hash !== location.pathname + location.hash) {
    history[replace ? 'replaceState' : 'pushState'](null, '', url);
  }
  route.value = readRoute(url.pathname, url.hash);
}

addEventListener('popstate', () => {
  moved = true;
  route.value = readRoute(location.pathname, location.hash);
});

/** Opens an element that is folded, and whatever is folded around it. */
export function revealed(element: Element): void {
  for (let at = element.closest('details'); at != null; at = at.parentElement?.closest('details') ?? null)
    at.open = true;
}

/** Links inside the page change the route without loading anything. */
document.addEventListener('click', (event) => {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
  const link = (event.target as Element | null)?.closest?.('a');
  if (!link?.href || link.target !== '' || link.hasAttribute('download')) return;
  const url = new URL(link.href);
  if (url.origin !== location.origin || readRoute(url.pathname).kind === 'nowhere') return;
  if (url.pathname === location.pathname && url.hash !== '') {
    const target = document.getElementById(url.hash.slice(1));
    if (target !== null) revealed(target);
    return;
  }
  event.preventDefault();
  go(url.pathname + url.hash);
});
