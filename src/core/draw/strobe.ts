/**
 * Strobe disc: rings of bars that seem to stand still under a lamp on the mains.
 *
 * A lamp flashes twice in each period of the mains. With N bars and F flashes a second a ring stands still when it moves on
 * by one bar from flash to flash:
 *
 *   rpm = 60 F / N
 *
 * N is whole, so most rings stand still a little beside the speed; what each stands for is printed on it.
 * @checked test/standards/geometry.test.ts against checks/geometry
 */
import { within } from '../units/bounds.ts';
import { say, statement } from '../words/statement.ts';
import { LEAST, lettersOnArc } from './lettering.ts';
import {
  barAcross,
  barDown,
  correctionWords,
  MARGIN,
  type PaperName,
  papers,
  speedWords,
  spindleHole,
  wordBlock,
} from './paper.ts';
import { circle, type Drawing, polygon, type Shape, text } from './shape.ts';

/** Speeds by the short name on the deck, rpm. 78.26 is the 60 Hz ring of the 78 class; 77.92 its 50 Hz ring. */
export const speedNames: Readonly<Record<string, number>> = {
  '16': 50 / 3,
  '33': 100 / 3,
  '45': 45,
  '78': 78.26,
  '80': 80,
};

export interface StrobeRing {
  readonly nominalRpm: number;
  readonly bars: number;
  /** the speed at which it stands still */
  readonly standsForRpm: number;
  /** standsFor less nominal, percent of nominal */
  readonly errorPercent: number;
  /** bars a minute that drift by at exactly the nominal speed, with the rotation positive */
  readonly driftBarsPerMinute: number;
}

/**
 * The ring for a speed.
 *
 * @param mainsHz 40–70
 * @param rpm 10–120
 * @throws RangeError naming the value and the bounds
 */
export function strobeRing(mainsHz: number, rpm: number): StrobeRing {
  within('mains', mainsHz, 40, 70, 'Hz');
  within('speed', rpm, 10, 120, 'rpm');
  const flashesPerMinute = 60 * 2 * mainsHz;
  const bars = Math.round(flashesPerMinute / rpm);
  const standsForRpm = flashesPerMinute / bars;
  return {
    nominalRpm: rpm,
    bars,
    standsForRpm,
    errorPercent: 100 * (standsForRpm / rpm - 1),
    driftBarsPerMinute: rpm * bars - flashesPerMinute,
  };
}

const shortSpeed = (ring: StrobeRing): string => speedWords(ring.nominalRpm);

/** The speed that a ring stands for: in full where its bars are a true match, else to 0.001 rpm. */
const exactSpeed = (ring: StrobeRing): string =>
  Math.abs(ring.driftBarsPerMinute) < 1e-6 ? shortSpeed(ring) : ring.standsForRpm.toFixed(3);

/** What a ring stands for, in words. */
export function ringWords(ring: StrobeRing): string {
  const speed = shortSpeed(ring);
  const { bars, driftBarsPerMinute: drift } = ring;
  if (Math.abs(drift) < 1e-6) return say(statement('ring-exact', { speed, bars }));
  return say(
    statement('ring-creeps', {
      speed,
      bars,
      still: ring.standsForRpm,
      percent: ring.errorPercent,
      way: drift > 0 ? 'forward' : 'backward',
      drift: Math.abs(drift),
    }),
  );
}

/** Outer edge of the outermost ring, height of a ring and the gap to the next, mm. */
const OUTER = 90;
const HEIGHT = 9;
const GAP = 4.5;

/**
 * The disc on a sheet.
 *
 * @param speeds rpm, one to five, outermost first
 * @throws RangeError naming the value and the bounds
 */
export function strobeDisc(
  mainsHz: number,
  speeds: readonly number[],
  paperName: PaperName,
  measured: readonly [number, number] | null = null,
): { readonly drawing: Drawing; readonly rings: readonly StrobeRing[] } {
  if (!(1 <= speeds.length && speeds.length <= 5)) {
    throw new RangeError(`${speeds.length} speeds were given; a disc holds 1 to 5`);
  }
  const rings = speeds.map((rpm) => strobeRing(mainsHz, rpm));
  const paper = papers[paperName];
  const [cx, cy] = [paper.width / 2 - 3, MARGIN + 4 + OUTER + 4];
  const shapes: Shape[] = [
    circle(cx, cy, OUTER + 3),
    text(cx, cy - OUTER - 0.6, say(statement('strobe-cut-out')), { size: LEAST, anchor: 'middle' }),
    ...spindleHole(cx, cy),
    text(cx, cy - 9, say(statement('strobe-lamp-hz', { mains: mainsHz })), { size: 3, anchor: 'middle' }),
  ];
  rings.forEach((ring, k) => {
    const outer = OUTER - k * (HEIGHT + GAP);
    const inner = outer - HEIGHT;
    const pitch = (2 * Math.PI) / ring.bars;
    for (let i = 0; i < ring.bars; i++) {
      // a bar stands straight up, so that the ring can be checked against the sheet
      const middle = -Math.PI / 2 + i * pitch;
      const [a, b] = [middle - pitch / 4, middle + pitch / 4];
      shapes.push(
        polygon(
          [
            [cx + inner * Math.cos(a), cy + inner * Math.sin(a)],
            [cx + outer * Math.cos(a), cy + outer * Math.sin(a)],
            [cx + outer * Math.cos(b), cy + outer * Math.sin(b)],
            [cx + inner * Math.cos(b), cy + inner * Math.sin(b)],
          ],
          true,
        ),
      );
    }
    const words = say(
      statement('ring-label', { speed: shortSpeed(ring), bars: ring.bars, still: exactSpeed(ring), mains: mainsHz }),
    );
    shapes.push(...lettersOnArc({ x: cx, y: cy, r: inner - 3 }, -Math.PI / 2, words, LEAST));
  });
  const left = MARGIN + 4;
  const words = wordBlock(
    left,
    cy + OUTER + 12,
    paper.width - 2 * MARGIN - 24,
    [
      say(statement('strobe-heading', { mains: mainsHz, flashes: 2 * mainsHz })),
      ...rings.map(ringWords),
      say(statement('strobe-lamp')),
      say(statement('strobe-use')),
      correctionWords(measured),
    ],
    LEAST,
  );
  shapes.push(
    ...words,
    ...barAcross(left + 8, paper.height - MARGIN - 6),
    ...barDown(paper.width - MARGIN - 6, paper.height - MARGIN - 104),
  );
  return {
    drawing: {
      title: say(statement('strobe-title', { mains: mainsHz })),
      width: paper.width,
      height: paper.height,
      shapes,
    },
    rings,
  };
}
