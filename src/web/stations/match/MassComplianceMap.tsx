/** The map: lines of equal resonance over compliance and moving mass, the wanted band, and this pair as a region on it. */
import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { ASSUMED, WANTED_RESONANCE } from '../../../core/advise/matchLimits.ts';
import { massComplianceMap, type PairResonance, pairOf } from '../../../core/advise/matchResonance.ts';
import { makeScale, tickText } from '../../../core/draw/chart/scale.ts';
import { showNumber } from '../../../core/words/number.ts';
import { useWidth } from '../../parts/LineChart.tsx';

const HEIGHT = 400;
const [LEFT, RIGHT, TOP, BOTTOM] = [46, 12, 16, 42];
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

export function MassComplianceMap({ input }: { input: MatchInput }) {
  const { ref, width } = useWidth(520);
  const pair = pairOf(input);
  const regions: readonly Region[] = !pair.found
    ? []
    : pair.apart
      ? [regionOf('vertical', pair.vertical), regionOf('lateral', pair.lateral)]
      : [regionOf('both ways', pair.vertical)];
  const span = {
    complianceFrom: Math.min(USUAL.complianceFrom, ...regions.map((one) => one.c[0] * 0.9)),
    complianceTo: Math.max(USUAL.complianceTo, ...regions.map((one) => one.c[1] * 1.1)),
    massFrom: Math.min(USUAL.massFrom, ...regions.map((one) => one.m[0] * 0.9)),
    massTo: Math.max(USUAL.massTo, ...regions.map((one) => one.m[1] * 1.1)),
  };
  const sx = makeScale([span.complianceFrom, span.complianceTo], [LEFT, width - RIGHT], true);
  const sy = makeScale([span.massFrom, span.massTo], [HEIGHT - BOTTOM, TOP], true);
  const { contours } = massComplianceMap(input, FAR);
  const points = contours.map(({ hz, compliance, massG }) => ({
    hz,
    at: compliance.map((c, i) => [sx(c), sy(massG[i])] as const),
  }));
  const line = (at: readonly (readonly [number, number])[]): string => at.map(([x, y]) => `${x},${y}`).join(' ');
  const lowest = points.find((one) => one.hz === WANTED_RESONANCE.from)?.at ?? [];
  const highest = points.find((one) => one.hz === WANTED_RESONANCE.to)?.at ?? [];
  // a name runs away from the other region, and never out of the picture
  const leftward = (c: number): boolean =>
    sx(c) > width - NAME_WIDTH || (sx(c) > LEFT + NAME_WIDTH && regions.some((other) => other.middle[0] > c * 1.02));
  const told = regions.map(
    ({ name, middle: [c, m], hz }) =>
      `${name}: ${showNumber(m, 1)} g on ${showNumber(c, 1)} µm/mN, ${showNumber(hz, 1)} Hz`,
  );
  return (
    <div class="chart map" ref={ref}>
      <svg
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label={`Moving mass over compliance with lines at 7, 8, 10 and 12 Hz. This pair, ${told.join('; ') || 'not known yet'}.`}
      >
        <clipPath id="map-field">
          <rect x={LEFT} y={TOP} width={width - LEFT - RIGHT} height={HEIGHT - TOP - BOTTOM} />
        </clipPath>
        {complianceTicks
          .filter((c) => span.complianceFrom <= c && c <= span.complianceTo)
          .map((c) => (
            <g key={c}>
              <line class="grid" x1={sx(c)} x2={sx(c)} y1={TOP} y2={HEIGHT - BOTTOM} />
              <text x={sx(c)} y={HEIGHT - BOTTOM + 17} text-anchor="middle">
                {tickText(c)}
              </text>
            </g>
          ))}
        {massTicks
          .filter((m) => span.massFrom <= m && m <= span.massTo)
          .map((m) => (
            <g key={m}>
              <line class="grid" x1={LEFT} x2={width - RIGHT} y1={sy(m)} y2={sy(m)} />
              <text x={LEFT - 7} y={sy(m) + 4} text-anchor="end">
                {tickText(m)}
              </text>
            </g>
          ))}
        <g clip-path="url(#map-field)">
          <polygon class="wanted" points={`${line(lowest)} ${line([...highest].reverse())}`} />
          {points.map(({ hz, at }) => (
            <polyline key={hz} class={hz === 10 ? 'contour middle' : 'contour'} points={line(at)} />
          ))}
          {regions.map((region) => (
            <rect
              key={region.name}
              class={`region ${region.name === 'lateral' ? 'lateral' : ''}`}
              x={sx(region.c[0])}
              y={sy(region.m[1])}
              width={sx(region.c[1]) - sx(region.c[0])}
              height={sy(region.m[0]) - sy(region.m[1])}
            />
          ))}
        </g>
        {points.map(({ hz, at }) => {
          const place = labelPlace(at, width);
          return place === null ? null : (
            <text key={hz} class="contour-name" x={place[0]} y={place[1]}>
              {hz} Hz
            </text>
          );
        })}
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
        <text x={LEFT} y={TOP - 4}>
          moving mass, g
        </text>
        <text x={width - RIGHT} y={HEIGHT - 5} text-anchor="end">
          compliance at 10 Hz, µm/mN
        </text>
      </svg>
      <p class="soft small">
        {regions.length === 0
          ? 'The pair appears here once its masses and its compliance are known.'
          : 'The region is what masses and compliance leave open (k = 2). Below the band: too light or too stiff, the resonance nears music; above it: it nears warps and footfall.'}
      </p>
    </div>
  );
}

/** Where a line is named: on its way across, near the top edge or the left one. */
function labelPlace(at: readonly (readonly [number, number])[], width: number): readonly [number, number] | null {
  const inside = at.filter(
    ([x, y]) => LEFT + 6 <= x && x <= width - RIGHT - 44 && TOP + 14 <= y && y <= HEIGHT - BOTTOM - 6,
  );
  const [first] = inside;
  return first === undefined ? null : [first[0] + 5, first[1] + 3];
}
