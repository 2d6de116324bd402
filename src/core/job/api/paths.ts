import type { Audience } from '../audience.ts';
import type { StationName } from '../station.ts';

/** The paths, so that neither side writes them by hand. Ids are checked above and need no escaping. */
export const apiPaths = {
  health: '/api/health',
  enter: '/api/enter',
  last: '/api/last',
  jobs: '/api/jobs',
  decks: '/api/decks',
  history: (deck: string) => `/api/decks/${deck}/history`,
  styli: '/api/styli',
  due: '/api/due',
  parts: '/api/parts',
  shop: '/api/shop',
  learned: (key: string) => `/api/learned/${key}`,
  job: (job: string) => `/api/jobs/${job}`,
  station: (job: string, station: StationName) => `/api/jobs/${job}/stations/${station}`,
  jobAside: (job: string) => `/api/jobs/${job}/set-aside`,
  /** server-sent events */
  changes: (job: string) => `/api/changes?job=${job}`,
  moves: (job: string) => `/api/jobs/${job}/moves`,
  undoMove: (job: string) => `/api/jobs/${job}/moves/undo`,
  photographs: (job: string) => `/api/jobs/${job}/photographs`,
  photograph: (job: string, photograph: string) => `/api/jobs/${job}/photographs/${photograph}`,
  captures: (job: string) => `/api/jobs/${job}/captures`,
  capture: (job: string, capture: string) => `/api/jobs/${job}/captures/${capture}`,
  fittings: (job: string) => `/api/jobs/${job}/fittings`,
  fitting: (job: string, fitting: string) => `/api/jobs/${job}/fittings/${fitting}`,
  outcome: (job: string, advice: string) => `/api/jobs/${job}/advice/${advice}/outcome`,
  report: (job: string, audience: Audience) => `/api/jobs/${job}/report?for=${audience}`,
  letterhead: '/api/letterhead',
  bundle: (job: string, owner: boolean) => `/api/jobs/${job}/bundle${owner ? '' : '?owner=left-out'}`,
  import: '/api/import',
  part: (kind: string, part: string) => `/api/parts/${kind}/${part}`,
  secondScreen: '/api/second-screen',
  secondCode: '/api/second-screen/code',
  secondFigure: '/api/second-screen/figure',
} as const;
