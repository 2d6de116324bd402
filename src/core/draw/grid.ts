/** The grid at a point of the groove: what the cartridge is set against, and read against. */
import { say, statement } from '../words/statement.ts';
import { brokenLines, LEAST } from './lettering.ts';
import { arc, type Line, line, type Shape, text } from './shape.ts';

/** From line to line of the words, mm. */
const LINE = 1.2 * LEAST;

/** Half lengths of the two lines that cross at the point, mm. */
const ALONG = 27;
export const ACROSS = 11;

export interface GridOptions {
  /** where the point is, on the paper, mm */
  readonly x: number;
  readonly y: number;
  /** outward direction (spindle to point) on the paper, rad clockwise from the right */
  readonly outward: number;
  /** first line of the label: which point it is */
  readonly name: string;
  /** groove radius that it stands for, mm */
  readonly radius: number;
  /** half width across, mm, where two grids lie close together */
  readonly across?: number;
  /** which way the words run from the grid */
  readonly words?: 'outward' | 'inward';
}

/** The two lines that cross at the point, for checks of the scale. */
export interface Crossing {
  readonly along: Line;
  readonly across: Line;
}

export function gridAt(options: GridOptions): { readonly shapes: readonly Shape[]; readonly crossing: Crossing } {
  const { x, y, outward, name, radius, across: halfAcross = ACROSS } = options;
  // u outward (towards the rim), t with the groove: a quarter turn clockwise from it, the front of the headshell
  const u = [Math.cos(outward), Math.sin(outward)] as const;
  const t = [-Math.sin(outward), Math.cos(outward)] as const;
  const at = (along: number, across: number): readonly [number, number] => [
    x + along * t[0] + across * u[0],
    y + along * t[1] + across * u[1],
  ];
  const between = (a: readonly [number, number], b: readonly [number, number], style = {}): Line => {
    const [x1, y1] = at(...a);
    const [x2, y2] = at(...b);
    return line(x1, y1, x2, y2, style);
  };
  const along = between([-ALONG, 0], [ALONG, 0]);
  const across = between([0, -halfAcross], [0, halfAcross]);
  const shapes: Shape[] = [along, across];
  for (const side of [-9, -6, -3, 3, 6, 9]) {
    if (Math.abs(side) <= halfAcross) shapes.push(between([-ALONG + 5, side], [ALONG - 8, side], { role: 'fine' }));
  }
  for (let k = 1; k <= 5; k++) {
    const half = k === 5 ? 1.2 : 0.6;
    for (const s of [-1, 1]) {
      shapes.push(between([s * k, -half], [s * k, half]), between([-half, s * k], [half, s * k]));
    }
  }
  // turn scale: degrees about the point, at the headshell's front
  const front = outward + Math.PI / 2;
  const R = ALONG - 4;
  shapes.push(arc(x, y, R, front - Math.PI / 36, front + Math.PI / 36));
  for (let deg = -5; deg <= 5; deg++) {
    const a = front + (deg * Math.PI) / 180;
    const long = deg % 5 === 0 ? 2.2 : 1.2;
    shapes.push(
      line(x + R * Math.cos(a), y + R * Math.sin(a), x + (R + long) * Math.cos(a), y + (R + long) * Math.sin(a)),
    );
  }
  const label = (a: number, c: number, words: string, size: number, anchor: 'start' | 'middle' | 'end', turned = 0) => {
    const [lx, ly] = at(a, c);
    shapes.push(text(lx, ly, words, { size, anchor, angle: outward + turned }));
  };
  // grids close together: shorter words, each one's keep to its own side
  const tight = halfAcross < ACROSS;
  label(ALONG + 2.6, 0, tight ? 'front' : say(statement('grid-front')), LEAST, 'middle');
  label(R + 2.2, -3.6, '+5°', LEAST, 'end');
  if (!tight) label(R + 2.2, 3.6, '–5°', LEAST, 'start');
  if (!tight) {
    label(R + 4.6, -3.6, 'clockwise', LEAST, 'end');
    label(R + 4.6, 3.6, 'anticlockwise', LEAST, 'start');
  }
  // behind the long lines, where neither the arc nor another grid comes
  label(-ALONG + 3, 1.2, tight ? 'rim' : 'rim side', LEAST, 'start');
  label(-ALONG + 3, -1.2, tight ? 'spindle' : 'spindle side', LEAST, 'end');
  const [head, ...rest] = [
    say(statement('grid-name', { point: name, radiusMm: radius })),
    ...brokenLines(say(statement('grid-use')), LEAST, 50),
  ];
  const top = -ALONG - 1.5 - LINE * rest.length;
  const inward = options.words === 'inward';
  const [edge, anchor] = inward
    ? ([tight ? 0 : halfAcross, 'end'] as const)
    : ([tight ? 0 : -halfAcross, 'start'] as const);
  label(top - 0.4, edge, head, LEAST, anchor);
  rest.forEach((words, i) => void label(top + LINE * (i + 1), edge, words, LEAST, anchor));
  return { shapes, crossing: { along, across } };
}
