/** Sides of every kind for the band finder, drawn from a seed; and what of a side was found. */
import type { Band, BandMotion } from '../../src/core/record/band.ts';
import { type CutBand, QUIET_FAULTS, type SideFaults, type SideSpec, seeded, type TrueBand } from './cutSide.ts';

export interface SideKind {
  readonly rates: readonly number[];
  readonly bands: number;
  readonly leastS: number;
  readonly mostS: number;
}

export function randomSide(seed: number, kind: SideKind): SideSpec {
  const draw = seeded(seed * 7919 + 13);
  const between = (low: number, high: number): number => low + (high - low) * draw();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)];
  const chance = (p: number): boolean => draw() < p;
  const nyquistHz = (rate: number): number => Math.min(20_000, 0.45 * rate);
  const sampleRateHz = pick(kind.rates);
  const surfaceDb = between(-70, -50);
  const spots = [
    20, 25, 31.5, 40, 50, 60, 63, 80, 100, 125, 160, 200, 250, 300, 315, 400, 500, 630, 800, 1000, 1000, 1000,
  ];
  const more = [
    1250, 1600, 2000, 2500, 3000, 3150, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 15000, 16000, 18000, 20000,
  ];

  const cut = (): CutBand => {
    const signal = pick([
      'tone',
      'tone',
      'tone',
      'tone',
      'tone',
      'two-tone',
      'sweep',
      'noise',
      'silent-groove',
    ] as const);
    const motion: BandMotion = pick(['left', 'right', 'lateral', 'vertical'] as const);
    const base = {
      signal,
      motion,
      durationS: between(kind.leastS, kind.mostS),
      levelDb: Math.max(between(-40, -1), surfaceDb + 12),
      gapS: chance(0.15) ? 0 : chance(0.4) ? between(0.3, 0.6) : between(0.6, 2.5),
      fadeS: chance(0.6) ? between(0.001, 0.02) : between(0.02, 0.2),
    };
    const high = nyquistHz(sampleRateHz);
    if (signal === 'tone') {
      const f = Math.min(high, chance(0.3) ? 20 * 1000 ** draw() : pick([...spots, ...more]));
      return { ...base, frequencyHz: f };
    }
    if (signal === 'two-tone') {
      const frequenciesHz = pick([
        [60, 7000],
        [400, 4000],
        [250, 8000],
        [50, 8000],
        [10000, 11000],
      ] as const);
      return {
        ...base,
        frequenciesHz,
        upperUnderDb: between(0, 25),
        levelDb: Math.max(base.levelDb, surfaceDb + 30, -25),
      };
    }
    if (signal === 'sweep') {
      const [fromHz, toHz] = pick([
        [20, high],
        [high, 20],
        [50, 5000],
        [1000, high],
        [1000, 30],
        [500, 15000],
      ] as const);
      const durationS = base.durationS + 3;
      return {
        ...base,
        fromHz,
        toHz,
        law: chance(0.75) ? 'log' : 'linear',
        durationS,
        levelDb: Math.max(base.levelDb, surfaceDb + 25, -30),
      };
    }
    if (signal === 'noise') {
      return {
        ...base,
        colour: pick(['pink', 'white'] as const),
        levelDb: Math.min(-12, Math.max(base.levelDb, surfaceDb + 20)),
      };
    }
    return { ...base, motion: 'none', durationS: base.durationS + 3 };
  };
  const bands: CutBand[] = [];
  while (bands.length < kind.bands) {
    const next = cut();
    const last = bands[bands.length - 1];
    // Neighbours without a pause must differ in motion, frequency or level; with one they may be alike.
    if (last !== undefined && last.gapS === 0 && !differ(last, next)) continue;
    if (last?.signal === 'silent-groove' && next.signal === 'silent-groove') continue;
    bands.push(next);
  }
  if (chance(0.3) && bands[0].signal !== 'silent-groove') {
    bands.splice(0, 1, { ...bands[0], gapS: between(0.3, 0.5) }, bands[0]);
  }
  const cutsStart = chance(0.25);
  // Strong leaks are leaks of the same sign both ways; opposite ones are a tilt of their own.
  const leak = pick([0.02, 0.05, 0.16]);
  const leakSign = chance(0.7) ? 1 : -1;
  const faults: SideFaults = {
    ...QUIET_FAULTS,
    gainDifferenceDb: between(-4, 4),
    leakLeftToRight: leak * leakSign * between(0.6, 1.1),
    leakRightToLeft: leak * (leak > 0.1 ? leakSign : between(-1, 1)) * between(0.6, 1.1),
    tiltDeg: between(-5, 5),
    swapped: chance(0.15),
    rightInverted: chance(0.15),
    speedPercent: chance(0.8) ? between(-6, 6) : pick([35, -25.9]),
    wowPercent: between(0, 1),
    wowHz: pick([0.556, 0.75, 1.3]),
    flutterPercent: between(0, 0.1),
    surfaceDb,
    surfaceColour: pick(['white', 'pink', 'red'] as const),
    rumbleDb: between(-75, -40),
    resonanceDb: between(-60, -28),
    resonanceHz: between(7, 13),
    humDb: between(-80, -28),
    mainsHz: pick([50, 60, 49.95, 60.05]),
    humSlopeDb: between(4, 14),
    clicksPerS: chance(0.3) ? between(1, 8) : between(0, 1),
    thump: chance(0.7),
    leadInNoiseDb: between(0, 8),
    secondHarmonic: between(0, 0.05),
  };
  // Two lines of like strength within a few hertz beat, and no one can tell them apart.
  const speed = 1 + faults.speedPercent / 100;
  const nearMains = bands.filter((band) =>
    [band.frequencyHz, ...(band.frequenciesHz ?? [])].some(
      (f) =>
        f !== undefined &&
        Math.abs(f * speed - faults.mainsHz * Math.max(1, Math.round((f * speed) / faults.mainsHz))) < 9,
    ),
  );
  const humDb = Math.min(faults.humDb, ...nearMains.map((band) => band.levelDb - 15));
  const highestHz = Math.min(21_000, 0.47 * sampleRateHz) / speed;
  return {
    seed,
    sampleRateHz,
    bands: bands.map((band) => ({
      ...band,
      ...(band.frequencyHz === undefined ? {} : { frequencyHz: Math.min(band.frequencyHz, highestHz) }),
      ...(band.fromHz === undefined ? {} : { fromHz: Math.min(band.fromHz, highestHz) }),
      ...(band.toHz === undefined ? {} : { toHz: Math.min(band.toHz, highestHz) }),
    })),
    faults: { ...faults, humDb },
    beforeS: chance(0.5) ? between(0.5, 4) : 0,
    leadInS: between(0.5, 4),
    leadOutS: between(0.5, 4),
    afterS: chance(0.5) ? between(0.5, 3) : 0,
    cutStartS: cutsStart ? between(3, 8) : 0,
    cutEndS: chance(0.25) ? between(3, 8) : 0,
    digitalSilence: chance(0.2),
  };
}

function differ(a: CutBand, b: CutBand): boolean {
  if (a.signal !== b.signal) return true;
  if (a.motion !== b.motion || Math.abs(a.levelDb - b.levelDb) > 3.2) return true;
  const f = (x: CutBand): number => x.frequencyHz ?? 0;
  return a.signal === 'tone' && Math.abs(Math.log(f(a) / f(b))) > 0.05;
}

/** What a finder that is told nothing can hear of a band, through this side's wiring. */
export function heardThrough(motion: BandMotion, { swapped, rightInverted }: SideFaults): BandMotion {
  if (swapped && motion === 'left') return 'right';
  if (swapped && motion === 'right') return 'left';
  if (rightInverted && motion === 'lateral') return 'vertical';
  if (rightInverted && motion === 'vertical') return 'lateral';
  return motion;
}

export interface Verdict {
  readonly truth: TrueBand;
  readonly found: Band | null;
  /** why a band that lies there is not right, or that none does */
  readonly fault: string | null;
}

export interface Judged {
  readonly verdicts: readonly Verdict[];
  /** found where nothing was cut; silent groove does not count where the groove was silent */
  readonly falseBands: readonly Band[];
}

export function judge(truth: readonly TrueBand[], bands: readonly Band[], faults: SideFaults): Judged {
  const used = new Set<Band>();
  const verdicts = truth.map((t): Verdict => {
    const duration = t.endS - t.startS;
    const overlap = (b: Band): number => Math.min(b.endS, t.endS) - Math.max(b.startS, t.startS);
    const near = bands.filter((b) => overlap(b) > 0.25 * duration).sort((a, b) => overlap(b) - overlap(a));
    const found = near[0];
    if (found === undefined) return { truth: t, found: null, fault: 'nothing' };
    for (const b of near) if (b.signal === found.signal) used.add(b);
    const fault =
      faultOf(t, found, faults) ?? (near.filter((b) => b.signal === found.signal).length > 1 ? 'pieces' : null);
    return { truth: t, found, fault };
  });
  const falseBands = bands.filter((b) => !used.has(b) && b.signal !== 'silent-groove');
  return { verdicts, falseBands };
}

function faultOf(t: TrueBand, b: Band, faults: SideFaults): string | null {
  const { cut } = t;
  if (b.signal !== cut.signal) return `signal ${b.signal}`;
  const motion = heardThrough(cut.motion, faults);
  if (b.motion !== motion) return `motion ${b.motion} for ${motion}`;
  const speed = 1 + faults.speedPercent / 100;
  const off = (f: number | null | undefined, g: number | undefined): boolean =>
    typeof f !== 'number' || g === undefined || Math.abs(f / (g * speed) - 1) > 0.012 + 0.5 / g;
  if (cut.signal === 'tone' && off(b.frequencyHz, cut.frequencyHz)) return `frequency ${b.frequencyHz}`;
  if (
    cut.signal === 'two-tone' &&
    (off(b.frequenciesHz?.[0], cut.frequenciesHz?.[0]) || off(b.frequenciesHz?.[1], cut.frequenciesHz?.[1]))
  ) {
    return `frequencies ${b.frequenciesHz}`;
  }
  // Silent groove merges with the pauses beside it; a sweep's ends may lie in the noise.
  const early = cut.signal === 'silent-groove' ? 20 : 0.02;
  const late = cut.signal === 'sweep' ? 0.2 + 0.1 * (t.endS - t.startS) : 0.25;
  const start = b.startS - t.startS;
  const end = t.endS - b.endS;
  if (!(start > -early && start < late)) return `start ${start.toFixed(3)}`;
  if (!(end > -early && end < late)) return `end ${(-end).toFixed(3)}`;
  return null;
}
