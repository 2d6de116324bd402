/** The map: lines of equal resonance over compliance and moving mass, the wanted band, and this pair as a region on it. */

import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { ASSUMED, wantedResonance } from '../../../core/advise/matchLimits.ts';
import { massComplianceMap, type PairResonance, pairOf } from '../../../core/advise/matchResonance.ts';
import { pathOf } from '../../../core/draw/chart/line.ts';
import { type ChartScale, makeScale } from '../../../core/draw/chart/scale.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { FieldClip, type Frame, PlotAxes } from '../../parts/chart/PlotAxes.tsx';
import { useWidth } from '../../parts/chart/useWidth.ts';

const MARGINS = { height: 400, left: 46, right: 12, top: 16, bottom: 42 };
/** What the map shows at least, µm/mN and g. */
const USUAL = { complianceFrom: 4, complianceTo: 50, massFrom: 5, massTo: 60 };
const complianceTicks = [0.5, 1, 2, 3, 5, 7, 10, 15, 20, 30, 50, 70, 100, 200];
const massTicks = [1, 2, 3, 5, 7, 10, 15, 20, 30, 40, 60, 100, 200, 400];
/** px that "vertical, 10.7 Hz" takes */
const NAME_WIDTH = 140;
/** Where lines begin and end, far beyond the edges that cut them off. */
const FAR = { complianceFrom: 0.11, complianceTo: 490, massFrom: 0.2, massTo: 990 };

interface Region {
  readonly name: 'vertical' | 'lateral' | 'both ways';
  readonly c: readonly [number, number];
  readonly m: readonly [number, number];
  readonly middle: readonly [number, number];
  readonly hz: number;
}

/** k = 2 in mass; in compliance the spread of its conversion, or ±20 % where it is quoted at 10 Hz. */
function regionOf(name: Region['name'], pair: PairResonance): Region {
  const { value, low, high } = pair.compliance;
  const own = 2 * ASSUMED.compliance * value;
  const mass = Math.min(2 * ASSUMED.massG, pair.massG / 2);
  return {
    name,
    c: [Math.min(low, value - own), Math.max(high, value + own)],
    m: [pair.massG - mass, pair.massG + mass],
    middle: [value, pair.massG],
    hz: pair.resonance.value,
  };
}

type Point = readonly [x: number, y: number];

interface Field {
  readonly frame: Frame;
  readonly sx: ChartScale;
  readonly sy: ChartScale;
}

/** What the map shows: the usual span, or wider where a region needs it. */
function fieldOf(regions: readonly Region[], width: number): Field {
  const frame = { ...MARGINS, width };
  const c = [
    Math.min(USUAL.complianceFrom, ...regions.map((one) => one.c[0] * 0.9)),
    Math.max(USUAL.complianceTo, ...regions.map((one) => one.c[1] * 1.1)),
  ] as const;
  const m = [
    Math.min(USUAL.massFrom, ...regions.map((one) => one.m[0] * 0.9)),
    Math.max(USUAL.massTo, ...regions.map((one) => one.m[1] * 1.1)),
  ] as const;
  return {
    frame,
    sx: makeScale(c, [frame.left, width - frame.right], true),
    sy: makeScale(m, [frame.height - frame.bottom, frame.top], true),
  };
}

const within = (ticks: readonly number[], { domain: [from, to] }: ChartScale): number[] =>
  ticks.filter((tick) => from <= tick && tick <= to);

export function MassComplianceMap({ input }: { input: MatchInput }) {
  const { ref, width } = useWidth(520);
  const pair = pairOf(input);
  const regions: readonly Region[] = !pair.found
    ? []
    : pair.apart
      ? [regionOf('vertical', pair.vertical), regionOf('lateral', pair.lateral)]
      : [regionOf('both ways', pair.vertical)];
  const field = fieldOf(regions, width);
  const { frame, sx, sy } = field;
  const contours = massComplianceMap(input, FAR).contours.map(({ hz, compliance, massG }) => ({
    hz,
    at: compliance.map((c, i): Point => [sx(c), sy(massG[i])]),
  }));
  const told = regions.map(
    ({ name, middle: [c, m], hz }) =>
      `${name}: ${showNumber(m, 1)} g on ${showNumber(c, 1)} µm/mN, ${showNumber(hz, 1)} Hz`,
  );
  return (
    <div class="chart map" ref={ref}>
      <svg
        viewBox={`0 0 ${width} ${frame.height}`}
        role="img"
        aria-label={say(statement('pair-drawn', { pair: told.join('; ') || 'not known yet' }))}
      >
        <FieldClip id="map-field" frame={frame} />
        <PlotAxes
          frame={frame}
          sx={sx}
          sy={sy}
          xTicks={within(complianceTicks, sx)}
          yTicks={within(massTicks, sy)}
          xTitle="compliance at 10 Hz, µm/mN"
          yTitle="moving mass, g"
          upright
        />
        <g clip-path="url(#map-field)">
          <Contours contours={contours} />
          {regions.map(({ name, c, m }) => (
            <rect
              key={name}
              class={`region ${name === 'lateral' ? 'lateral' : ''}`}
              x={sx(c[0])}
              y={sy(m[1])}
              width={sx(c[1]) - sx(c[0])}
              height={sy(m[0]) - sy(m[1])}
            />
          ))}
        </g>
        {contours.map(({ hz, at }) => {
          const place = labelPlace(at, frame);
          return place === null ? null : (
            <text key={hz} class="contour-name" x={place[0]} y={place[1]}>
              {hz} Hz
            </text>
          );
        })}
        <PairNames regions={regions} field={field} />
      </svg>
      <p class="soft small">{regions.length === 0 ? say(statement('pair-appears')) : say(statement('pair-region'))}</p>
    </div>
  );
}

interface Contour {
  readonly hz: number;
  readonly at: readonly Point[];
}

/** The lines of equal resonance, and the wanted band between two of them. */
function Contours({ contours }: { readonly contours: readonly Contour[] }) {
  const lowest = contours.find((one) => one.hz === wantedResonance().from)?.at ?? [];
  const highest = contours.find((one) => one.hz === wantedResonance().to)?.at ?? [];
  return (
    <>
      <path class="wanted" d={pathOf([...lowest, ...[...highest].reverse()])} />
      {contours.map(({ hz, at }) => (
        <path key={hz} class={hz === 10 ? 'contour middle' : 'contour'} d={pathOf(at)} />
      ))}
    </>
  );
}

/** Where the pair lies, by name. */
function PairNames({ regions, field: { frame, sx, sy } }: { readonly regions: readonly Region[]; field: Field }) {
  // a name runs away from the other region, and never out of the picture
  const leftward = (c: number): boolean =>
    sx(c) > frame.width - NAME_WIDTH ||
    (sx(c) > frame.left + NAME_WIDTH && regions.some((other) => other.middle[0] > c * 1.02));
  return (
    <>
      {regions.map(({ name, middle: [c, m], m: [least, most], hz }) => (
        <g key={name} class="pair">
          <circle class={name === 'lateral' ? 'here lateral' : 'here'} cx={sx(c)} cy={sy(m)} r={5} />
          <text
            x={sx(c)}
            y={name === 'lateral' ? sy(least) + 18 : sy(most) - 7}
            text-anchor={leftward(c) ? 'end' : 'start'}
          >
            {name === 'both ways' ? 'this pair' : name}, {showNumber(hz, 1)} Hz
          </text>
        </g>
      ))}
    </>
  );
}

/** Where a line is named: on its way across, near the top edge or the left one. */
function labelPlace(at: readonly Point[], { width, height, left, right, top, bottom }: Frame): Point | null {
  const first = at.find(
    ([x, y]) => left + 6 <= x && x <= width - right - 44 && top + 14 <= y && y <= height - bottom - 6,
  );
  return first === undefined ? null : [first[0] + 5, first[1] + 3];
}
