/** Fit: which screw from the box, and what the hardware weighs. */
import {
  LEAST_THREADS,
  M2_5_PITCH,
  type ScrewStack,
  screwLengths,
  threadsEngaged,
  USUAL_THREADS,
} from '../mechanics/screwLength.ts';
import { within } from '../units/bounds.ts';
import { type Statement, statement } from '../words/statement.ts';

/** Lengths that M2.5 screws are sold in, mm, under the head (common practice). */
const STOCK_LENGTHS_MM = [4, 5, 6, 8, 10, 12, 14, 16, 18, 20] as const;

export type ScrewChoice =
  | {
      readonly found: true;
      readonly lengthMm: number;
      readonly threads: number;
      /** all stock lengths that hold and fit */
      readonly suits: readonly number[];
      readonly shortestMm: number;
      readonly longestMm: number;
      readonly says: Statement;
    }
  | { readonly found: false; readonly why: Statement };

/**
 * The screw to take: the shortest in stock that engages 4 threads, else the longest that fits (3 threads and more), never one that
 * bottoms in a tapped body or stands far out of a nut.
 *
 * @throws RangeError naming the argument, its value and its bounds
 */
export function screwChoice(stack: ScrewStack, stock: readonly number[] = STOCK_LENGTHS_MM): ScrewChoice {
  const lengths = screwLengths(stack);
  if (!lengths.found) return lengths;
  const { shortest, longest, fourThreads } = lengths;
  const suits = stock.filter((mm) => shortest - 1e-9 <= mm && mm <= longest + 1e-9).sort((a, b) => a - b);
  const lengthMm = suits.find((mm) => mm >= fourThreads - 1e-9) ?? suits[suits.length - 1];
  if (lengthMm === undefined) {
    const code = stack.into.kind === 'nut' ? 'no-screw-for-nut' : 'no-screw-for-thread';
    return { found: false, why: statement(code, { shortest, longest }) };
  }
  const threads = threadsEngaged(stack, lengthMm);
  const thread = stack.pitch === M2_5_PITCH ? 'M2.5' : `A thread of ${stack.pitch} mm pitch`;
  return {
    found: true,
    lengthMm,
    threads,
    suits,
    shortestMm: shortest,
    longestMm: longest,
    says: statement('screw-engages', {
      thread,
      length: lengthMm,
      threads,
      least: LEAST_THREADS,
      usual: USUAL_THREADS,
      shortest,
      longest,
    }),
  };
}

/** Density, g/mm³ (handbook values from memory, not seen in a source). */
const density = { steel: 7.85e-3, brass: 8.5e-3, titanium: 4.5e-3, aluminium: 2.7e-3, nylon: 1.15e-3 } as const;
export type HardwareMaterial = keyof typeof density;

/**
 * What a set of hardware weighs when there is no scale that shows tenths of a gram: volumes of an M2.5 screw (shank at its
 * pitch diameter 2.2 mm, cheese head 4.5 × 1.6 mm), nut (5 mm across flats) and washer (6 mm, hole 2.7 mm), from memory.
 *
 * @returns g, with its k = 2 uncertainty of 20 %
 */
export function hardwareMass(set: {
  readonly material: HardwareMaterial;
  readonly screws: number;
  readonly screwLengthMm: number;
  readonly nuts: number;
  readonly nutThicknessMm: number;
  readonly washers: number;
  readonly washerThicknessMm: number;
  /** weighed or as stated, g */
  readonly spacerG: number;
}): { readonly massG: number; readonly uncertaintyG: number } {
  within('screws', set.screws, 0, 20);
  within('screw length', set.screwLengthMm, 0, 60, 'mm');
  within('nuts', set.nuts, 0, 20);
  within('nut thickness', set.nutThicknessMm, 0, 20, 'mm');
  within('washers', set.washers, 0, 40);
  within('washer thickness', set.washerThicknessMm, 0, 10, 'mm');
  within('spacer', set.spacerG, 0, 50, 'g');
  const disc = (diameter: number) => (Math.PI * diameter * diameter) / 4;
  const screw = disc(2.2) * set.screwLengthMm + disc(4.5) * 1.6;
  const nut = ((Math.sqrt(3) / 2) * 25 - disc(2.2)) * set.nutThicknessMm;
  const washer = (disc(6) - disc(2.7)) * set.washerThicknessMm;
  const cut = density[set.material] * (set.screws * screw + set.nuts * nut + set.washers * washer);
  return { massG: cut + set.spacerG, uncertaintyG: 0.2 * cut };
}
