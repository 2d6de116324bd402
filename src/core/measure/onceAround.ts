/**
 * Once per turn: of each speed tone as heard; of the hole off centre, which is the record's; of the platter alone.
 * The physics and the fit are in hole.ts.
 */
import { type Problem, withheld } from '../capture/problem.ts';
import { coverageFactor } from '../signal/robust.ts';
import { radToDeg, wrapped } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { withBudget } from './budget.ts';
import type { Finding } from './finding.ts';
import type { TurnAtStart } from './halfTurn.ts';
import { ofOtherArms, type SideHole, turnPhasor, turnsAtStart } from './hole.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';

/** k = 2, deg: a direction less sure than this is none */
const LEAST_BEARING_DEG = 60;

export function onceAroundFigures(
  side: SideReadings,
  speedBands: readonly ToneBand[],
  rotationHz: number | null,
  hole: SideHole | null,
): { findings: Finding[]; problems: Problem[] } {
  const withhold = (quantity: string, why: Statement): Problem => withheld(quantity, why);
  if (rotationHz === null) {
    const why = statement('no-speed-tone');
    return { findings: [], problems: [withhold('once-per-turn', why), withhold('eccentricity', why)] };
  }
  const rpm: Statement[] = side.rpmStated
    ? []
    : [statement('rpm-assumed', { rpm: side.rpm === 100 / 3 ? '33⅓' : String(side.rpm) })];
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  const starts = turnsAtStart(hole);
  for (const tone of speedBands) {
    const phasor = turnPhasor(tone, rotationHz);
    if (phasor === null) continue;
    const spread = Math.sqrt(phasor.variance);
    const own = 100 * coverageFactor(phasor.degreesOfFreedom) * spread;
    findings.push({
      quantity: 'once-per-turn',
      // noise adds to the size of a phasor on average what its square says
      value: 100 * Math.sqrt(Math.max(phasor.re ** 2 + phasor.im ** 2 - spread ** 2, 0)),
      unit: '%',
      uncertainty: own,
      repeatability: own,
      bands: [tone.band.index],
      ...atStartOf(starts.find(({ band }) => band === tone.band.index)),
      notes: [statement('turns-read', { turns: phasor.turns }), ...rpm],
    });
  }
  if (findings.length === 0) problems.push(withhold('once-per-turn', statement('no-two-turns')));
  if (hole === null || !hole.radiiKnown) {
    problems.push(withhold('eccentricity', statement('no-radius')));
    return { findings, problems };
  }
  if (hole.broken !== null) problems.push(withhold('eccentricity', statement('rotation-broken', { ...hole.broken })));
  else findings.push(...holeFigures(hole, rpm));
  return { findings, problems };
}

function atStartOf(turn: TurnAtStart | undefined): Pick<Finding, 'atStart'> {
  if (turn === undefined) return {};
  const { band: _band, ...atStart } = turn;
  return { atStart };
}

function holeFigures(hole: SideHole, rpm: readonly Statement[]): Finding[] {
  const { fit, phasors, k, armKnown, parted, assumed } = hole;
  const bands = phasors.map((p) => p.tone.band.index);
  const radii = phasors.map((p) => p.radiusMm);
  const rest = (of: { spread: number; signal: number }): number =>
    2 * Math.sqrt(Math.max(0, of.spread ** 2 - of.signal ** 2));
  const arm = armKnown ? statement('arm-given') : statement('arm-assumed');
  const findings: Finding[] = [
    withBudget(
      {
        quantity: 'eccentricity',
        value: fit.hole.size,
        unit: 'mm',
        bands,
        notes: [
          parted
            ? statement('hole-parted', { bands: bands.length, outer: Math.max(...radii), inner: Math.min(...radii) })
            : statement('hole-not-parted'),
          arm,
          statement('seated-again', { mm: assumed.seating.size }),
          ...rpm,
        ],
      },
      k * fit.hole.signal,
      [
        // radii that lie near to each other, or one alone, leave the platter to its prior
        { of: parted ? assumed.radius.of : assumed.platter.of, size: rest(fit.hole) },
        { of: statement('arm-not-given'), size: ofOtherArms(hole, (f) => f.hole.size) },
        { of: assumed.warp.of, size: assumed.warp.size * fit.ofWarp.hole },
      ],
    ),
  ];
  const first = phasors.reduce((a, p) => (p.tone.band.startS < a.tone.band.startS ? p : a));
  const bearingSpread = 2 * radToDeg(fit.bearingSpread);
  if (parted) {
    // clockwise from above, the way that the record turns
    const turned = 2 * Math.PI * hole.rotationHz * first.tone.band.startS - fit.bearing;
    const direction = withBudget(
      {
        quantity: 'eccentricity-direction',
        value: radToDeg(wrapped(turned)),
        unit: 'deg',
        bands,
        notes: [statement(hole.tangential ? 'hole-direction-tangential' : 'hole-direction'), arm],
      },
      bearingSpread,
      [
        { of: assumed.toneStart.of, size: 360 * hole.rotationHz * assumed.toneStart.size },
        { of: statement('arm-not-given'), size: armKnown ? 0 : 8 },
        {
          of: assumed.warp.of,
          size: radToDeg(Math.atan((assumed.warp.size * fit.ofWarp.hole) / Math.max(fit.hole.size, 1e-6))),
        },
      ],
    );
    if ((direction.uncertainty as number) < LEAST_BEARING_DEG) findings.push(direction);
  }
  if (parted) {
    findings.push(
      withBudget(
        {
          quantity: 'once-per-turn-platter',
          value: 100 * fit.platter.size,
          unit: '%',
          bands,
          notes: [statement('platter-part'), arm],
        },
        100 * k * fit.platter.signal,
        [
          { of: assumed.radius.of, size: 100 * rest(fit.platter) },
          { of: statement('arm-not-given'), size: 100 * ofOtherArms(hole, (f) => f.platter.size) },
          { of: assumed.warp.of, size: 100 * assumed.warp.size * fit.ofWarp.platter },
        ],
      ),
    );
  }
  return findings;
}
