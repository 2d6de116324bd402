import type { StationName } from '../../../core/job/station.ts';

/** Where a finding of the recorded side stands. */
export const heardAt = (quantity: string): StationName =>
  ['hum', 'second-harmonic', 'tracking-error'].includes(quantity) ? 'run' : 'tilt';
