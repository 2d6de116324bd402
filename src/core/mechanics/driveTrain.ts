/**
 * How often the parts of a drive turn, from the platter's own turning and what is written on the bench about them.
 *
 *   surface speed  v = π D f_platter  (belt or idler wheel running on the diameter D)
 *   motor  v/(π d_pulley)      idler wheel  v/(π d_idler)      belt  v / its length
 *
 * A belt's own thickness and slip make the driven diameters some 1 % uncertain, so each rate carries a share.
 */

export interface DriveFacts {
  /** mm, the diameter of the platter that belt or idler wheel runs on */
  readonly platterMm?: number;
  /** mm, diameter of the motor's pulley */
  readonly pulleyMm?: number;
  /** mm, around the belt */
  readonly beltMm?: number;
  /** mm, diameter of the idler wheel */
  readonly idlerMm?: number;
  /** turns a minute of the motor at the exact speed, where it is stated */
  readonly motorRpm?: number;
}

export type DrivePart = 'platter' | 'motor' | 'belt' | 'idler';

export interface TurningPart {
  readonly part: DrivePart;
  /** turns a second */
  readonly hz: number;
  /** share that it may be off by */
  readonly within: number;
}

/** of rates that rest on diameters: slip, and the belt's thickness */
const BY_DIAMETER = 0.02;
/** of a motor's stated speed: load and slip of an induction motor */
const STATED = 0.01;

/**
 * @param platterHz turns a second as heard, above 0
 * @param nominalHz at the exact speed
 */
export function turningParts(facts: DriveFacts, platterHz: number, nominalHz: number): TurningPart[] {
  if (!(platterHz > 0 && platterHz < 10)) throw new RangeError(`platterHz ${platterHz} must be above 0 and below 10`);
  const { platterMm, pulleyMm, beltMm, idlerMm, motorRpm } = facts;
  const stated = motorRpm === undefined ? null : (motorRpm / 60) * (platterHz / nominalHz);
  const driven = platterMm === undefined ? null : Math.PI * platterMm * platterHz;
  const byMotor = stated === null || pulleyMm === undefined ? null : Math.PI * pulleyMm * stated;
  const surface = driven ?? byMotor;
  const parts: TurningPart[] = [{ part: 'platter', hz: platterHz, within: 0 }];
  if (stated !== null) parts.push({ part: 'motor', hz: stated, within: STATED });
  else if (surface !== null && pulleyMm !== undefined)
    parts.push({ part: 'motor', hz: surface / (Math.PI * pulleyMm), within: BY_DIAMETER });
  if (surface !== null && idlerMm !== undefined)
    parts.push({ part: 'idler', hz: surface / (Math.PI * idlerMm), within: BY_DIAMETER });
  if (surface !== null && beltMm !== undefined) parts.push({ part: 'belt', hz: surface / beltMm, within: BY_DIAMETER });
  return parts;
}

export interface NamedTurn {
  readonly part: DrivePart | 'mains';
  /** how many times a turn; of the mains 1 or 2 */
  readonly times: number;
}

/** platter: harmonics that its own bearing and a warped disc make; others: seldom more than a few */
const MOST_TIMES: Readonly<Record<DrivePart, number>> = { platter: 6, motor: 4, belt: 4, idler: 4 };
const MAINS_HZ = [50, 60, 100, 120] as const;
const MAINS_WITHIN = 0.003;

/**
 * What turns at this frequency: fewest times a turn first, at most two names. Empty where nothing known does.
 * @param resolutionHz how well the frequency itself is known
 */
export function nameTurn(hz: number, resolutionHz: number, parts: readonly TurningPart[]): NamedTurn[] {
  const names: { name: NamedTurn; miss: number }[] = [];
  for (const { part, hz: turn, within } of parts) {
    for (let times = 1; times <= MOST_TIMES[part]; times++) {
      const miss = Math.abs(hz - times * turn) / (within * times * turn + resolutionHz);
      if (miss <= 1) names.push({ name: { part, times }, miss });
    }
  }
  for (const mains of MAINS_HZ) {
    const miss = Math.abs(hz - mains) / (MAINS_WITHIN * mains + resolutionHz);
    if (miss <= 1) names.push({ name: { part: 'mains', times: mains >= 100 ? 2 : 1 }, miss });
  }
  return names
    .sort((a, b) => a.name.times - b.name.times || a.miss - b.miss)
    .slice(0, 2)
    .map(({ name }) => name);
}
