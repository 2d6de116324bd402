/**
 * Who may import whom, as data. Keys are folders below src; values are the folders they may import besides themselves.
 * Anything not listed is a wall.
 */
export const arrows: Readonly<Record<string, readonly string[]>> = {
  'core/units': [],
  // sentences of statements: imported by whatever makes or tells one, imports nothing
  'core/words': ['core/units'],
  'core/signal': ['core/units'],
  // what does not exist says why as a statement
  'core/geometry': ['core/units', 'core/words'],
  'core/mechanics': ['core/units', 'core/words'],
  'core/electrics': ['core/units', 'core/words'],
  'core/capture': ['core/units', 'core/words', 'core/signal'],
  'core/record': ['core/units', 'core/words', 'core/signal', 'core/capture'],
  'core/measure': ['core/units', 'core/words', 'core/signal', 'core/capture', 'core/record'],
  'core/advise': [
    'core/units',
    'core/words',
    'core/signal',
    'core/capture',
    'core/record',
    'core/measure',
    'core/geometry',
    'core/mechanics',
    'core/electrics',
  ],
  // one listener over everything that hears and judges: `job` keeps what it gives
  'core/side': [
    'core/units',
    'core/words',
    'core/signal',
    'core/capture',
    'core/record',
    'core/measure',
    'core/advise',
  ],
  // a live input around the one listener: passes, and what its samples tell of the input
  'core/live': [
    'core/units',
    'core/words',
    'core/signal',
    'core/capture',
    'core/record',
    'core/measure',
    'core/advise',
    'core/side',
  ],
  'core/deck': ['core/units', 'core/geometry', 'core/mechanics', 'core/electrics'],
  'core/draw': ['core/units', 'core/words', 'core/geometry', 'core/mechanics', 'core/electrics'],
  'core/job': [
    'core/units',
    'core/words',
    'core/capture',
    'core/record',
    'core/measure',
    'core/advise',
    'core/side',
    'core/geometry',
    'core/mechanics',
    'core/electrics',
  ],
  report: ['core/*'],
  store: ['core/*'],
  // many recordings, measured by many workers; what measures one is given by whoever starts it
  batch: ['core/*', 'store'],
  server: ['core/*', 'store', 'report'],
  cli: ['core/*', 'store', 'batch', 'server', 'report'],
  web: ['core/*'],
};

/** Packages that a folder may import; core has only pure ones. */
export const packages: Readonly<Record<string, readonly string[]>> = {
  'core/capture': ['@wasm-audio-decoders/flac', 'hash-wasm', 'zod'],
  'core/record': ['zod'],
  'core/job': ['zod', 'fflate'],
  'core/advise': ['zod'],
  report: ['preact', 'preact-render-to-string'],
  store: ['better-sqlite3', 'kysely', 'pg', 'node:'],
  batch: ['node:'],
  server: ['hono', '@hono/node-server', 'zod', 'uqr', 'node:'],
  cli: ['node:', 'zod'],
  web: ['preact', '@preact/signals', '@fontsource-variable/atkinson-hyperlegible-next', 'fflate', 'zod'],
};
