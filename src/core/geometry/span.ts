/**
 * Which grooves: the recorded span of a disc, mm, by the edition that states it.
 *
 * Marks: "seen" = the figure stands in a stored source (second hand where said), "from memory" = not seen in a source.
 * @checked test/standards/geometry.test.ts, checks/geometry/README.md
 */
import { within } from '../units/bounds.ts';

export interface GrooveSpan {
  /** radius of the innermost groove, mm */
  readonly inner: number;
  /** radius of the outermost groove, mm */
  readonly outer: number;
  readonly name: string;
  readonly source: string;
  /** speed that such discs usually run at; the caller decides whether to use it */
  readonly usualRpm: number;
}

interface Edge {
  readonly radius: number;
  readonly source: string;
}

const LONG_PLAY = 100 / 3;

/** Outer recorded radius of a 12-inch disc by edition. */
const outerEdges: Readonly<Record<string, Edge>> = {
  'iec-1958': { radius: 146.05, source: 'IEC 98:1958 and RIAA 1963, diameter 11½ in = 292.1 mm (seen second-hand)' },
  'iec-1964': {
    radius: 146.3,
    source: 'IEC 98:1964, BS 1928:1965, DIN 45547:1981, IEC 98:1987, diameter 292.6 mm (seen second-hand)',
  },
};

/** Inner recorded radius of a 12-inch disc by edition. IEC 98:1964 and 1987 print none. */
const innerEdges: Readonly<Record<string, Edge>> = {
  'riaa-1963': { radius: 60.325, source: 'RIAA 1963, diameter 4¾ in = 120.65 mm (seen second-hand)' },
  'iec-1958': { radius: 60, source: 'IEC 98:1958, diameter 120 mm (seen second-hand)' },
  'din-1981': { radius: 57.5, source: 'DIN 45547:1981, diameter 115 mm (seen second-hand)' },
};

const twelve = (name: string, inner: string, outer: string): GrooveSpan => ({
  inner: innerEdges[inner].radius,
  outer: outerEdges[outer].radius,
  name,
  source: `inner ${innerEdges[inner].source}; outer ${outerEdges[outer].source}`,
  usualRpm: LONG_PLAY,
});

/** Spans by name. `12in` is the span that most printed null points were made for. */
export const namedSpans: readonly GrooveSpan[] = [
  twelve('12in', 'riaa-1963', 'iec-1958'),
  twelve('12in-riaa-1963', 'riaa-1963', 'iec-1958'),
  twelve('12in-iec-1958', 'iec-1958', 'iec-1958'),
  twelve('12in-iec-1964', 'riaa-1963', 'iec-1964'),
  twelve('12in-din-1981', 'din-1981', 'iec-1964'),
  {
    inner: 57.6,
    outer: 120.9,
    name: '10in',
    source:
      'inner JIS S 8502-1973, diameter over 115.2 mm; outer IEC 98:1987, diameter 241.8 mm (both seen second-hand)',
    usualRpm: LONG_PLAY,
  },
  {
    inner: 53,
    outer: 84.15,
    name: '7in',
    source: 'inner JIS S 8502-1973, diameter over 106 mm; outer IEC 98:1987, diameter 168.3 mm (both seen second-hand)',
    usualRpm: 45,
  },
  {
    inner: 47.625,
    outer: 146.05,
    name: '78-12in',
    source: 'diameters 3¾ in and 11½ in, from memory, not seen in a source: measure the discs you play',
    usualRpm: 78.26,
  },
  {
    inner: 47.625,
    outer: 120.65,
    name: '78-10in',
    source: 'diameters 3¾ in and 9½ in, from memory, not seen in a source: measure the discs you play',
    usualRpm: 78.26,
  },
];

/**
 * A span of one's own.
 *
 * @param inner mm, 20–200
 * @param outer mm, 20–200, at least 1 mm more than inner
 * @throws RangeError naming the value and the bound
 */
export function ownSpan(inner: number, outer: number): GrooveSpan {
  within('inner groove radius', inner, 20, 200, 'mm');
  within('outer groove radius', outer, 20, 200, 'mm');
  if (!(outer - inner >= 1)) {
    throw new RangeError(
      `the groove span from ${inner} to ${outer} mm is ${+(outer - inner).toFixed(3)} mm wide; it must be at least 1 mm, inner radius first`,
    );
  }
  return { inner, outer, name: 'own', source: 'given by the person', usualRpm: LONG_PLAY };
}

/**
 * A span from text: a name (`12in`, `7in`, …), or INNER,OUTER where each is a radius in mm or an edition
 * (`din-1981,iec-1958`).
 *
 * @throws RangeError with what was found and what was expected
 */
export function grooveSpan(text: string): GrooveSpan {
  const known = namedSpans.find((span) => span.name === text.trim());
  if (known !== undefined) return known;
  const parts = text.split(',').map((part) => part.trim());
  if (parts.length !== 2) {
    throw new RangeError(
      `groove span '${text}': expected INNER,OUTER in mm or one of ${namedSpans.map((span) => span.name).join(', ')}`,
    );
  }
  const edge = (part: string, edges: Readonly<Record<string, Edge>>, which: string): Edge => {
    if (Object.hasOwn(edges, part)) return edges[part];
    const radius = part === '' ? Number.NaN : Number(part);
    if (Number.isNaN(radius)) {
      throw new RangeError(
        `${which} groove radius '${part}': expected a number in mm or an edition (${Object.keys(edges).join(', ')})`,
      );
    }
    return { radius, source: 'given by the person' };
  };
  const inner = edge(parts[0], innerEdges, 'inner');
  const outer = edge(parts[1], outerEdges, 'outer');
  const span = ownSpan(inner.radius, outer.radius);
  return { ...span, source: `inner ${inner.source}; outer ${outer.source}` };
}
