/** What may be moved on a deck. The names travel in the API and in the store; what each makes stale is in `stale.ts`. */
export const moveNames = [
  'change-cartridge',
  'change-stylus',
  'change-arm',
  'change-hardware',
  'change-counterweight',
  'slide',
  'twist',
  'turn-shell',
  'shim',
  'set-force',
  'set-arm-height',
  'set-skating',
  'set-pivot-distance',
  'level-deck',
  'rewire',
  'set-load',
  'set-earth',
  'set-speed',
] as const;

export type MoveName = (typeof moveNames)[number];
