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
  'set-speed',
] as const;

export type MoveName = (typeof moveNames)[number];

/**
 * Unit of how much was moved, where that can be said: slide and arm height and the arm's base in mm (forward, up, away from
 * the spindle positive), twist and a turn of the shell in degrees (clockwise positive), a shim by its thickness, force by
 * new less old.
 */
export const moveUnits: Readonly<Partial<Record<MoveName, 'mm' | 'deg' | 'mN'>>> = {
  slide: 'mm',
  twist: 'deg',
  'turn-shell': 'deg',
  shim: 'mm',
  'set-force': 'mN',
  'set-arm-height': 'mm',
  'set-pivot-distance': 'mm',
};
