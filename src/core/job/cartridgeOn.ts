/** The cartridge on the arm now: the last that was fitted, else the one that came with the deck; '' where nobody said. */
import type { Job } from './api.ts';
import { typedOf } from './stations/index.ts';

export const cartridgeOn = (job: Job): string =>
  job.fittings.filter(({ kind }) => kind === 'cartridge').at(-1)?.name ?? typedOf(job).stations.intake.cartridge ?? '';
