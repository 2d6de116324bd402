import { describe, expect, it } from 'vitest';
import { absolutePolarityOf, type HeardRadius, type PinchTone, radiusOfTones, radiusOfTwoTone } from './pinch.ts';
import type { SolvedTwoTone } from './twoTones.ts';

function draws(seed: number) {
  let state = seed;
  const uniform = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const between = (a: number, b: number): number => a + (b - a) * uniform();
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return { between, normal };
}

const ROOT8 = 2 * Math.SQRT2;

/** Im q of a tone by the physics: tip, bend of either kind turned by the chain's phase, noise. */
function toneOf(hz: number, radiusMm: number, v: number, tipUm: number, bend: number, other: number): PinchTone {
  const omega = 2 * Math.PI * hz;
  const speed = (2 * Math.PI * (100 / 3 / 60) * radiusMm) / 10;
  const q = (tipUm * 1e-4 * v * omega) / (ROOT8 * speed * speed) + ((bend * v) / 5) * (1000 / hz) + other;
  return { q, spread: 1e-5, velocity: v, omega, speed };
}

describe('the radius from tones', () => {
  it('comes back, with a generator that bends, and turns over with the chain', () => {
    const tones = [
      toneOf(1000, 140, 5, 15, 0.01, 0),
      toneOf(1000, 65, 5, 15, 0.01, 0),
      toneOf(3000, 100, 5, 15, 0.01, 0),
    ];
    expect(radiusOfTones(tones)?.um).toBeCloseTo(15, 6);
    expect(radiusOfTones(tones.map((t) => ({ ...t, q: -t.q })))?.um).toBeCloseTo(-15, 6);
  });

  it('is no figure where neither groove speed nor frequency differs enough', () => {
    expect(radiusOfTones([toneOf(1000, 140, 5, 15, 0.01, 0), toneOf(1000, 100, 5, 15, 0.01, 0)])).toBeNull();
    expect(radiusOfTones([toneOf(1000, 140, 5, 15, 0.01, 0)])).toBeNull();
  });
});

describe('the radius from a two-tone band', () => {
  const [velocity, speed, rhoVariance] = [6.4, 22.7, 1e-16];
  const heard = (rhoOf: number): SolvedTwoTone =>
    ({
      band: { index: 4 },
      cut: { ratio: 4 },
      speed,
      velocity,
      heard: { frequenciesHz: [400, 4000] },
      solution: { rho: rhoOf / (ROOT8 * speed * speed * 1e4), rhoVariance, k: 0 },
    }) as unknown as SolvedTwoTone;

  it('is that of a ball that was rolled along the very groove', () => {
    // read by s² alone a tip of 8 µm comes out 1.17 % small here: envelope of the ball, solved on a grid outside the repository
    expect(radiusOfTwoTone(heard(8 * (1 - 0.0117))).um).toBeCloseTo(8, 1);
    expect(Math.abs(radiusOfTwoTone(heard(8 * (1 - 0.0117))).um / 8 - 1)).toBeLessThan(0.005);
  });

  it('repeats as the signal does: what the model leaves out is the same in the next pass', () => {
    const { own, spread } = radiusOfTwoTone(heard(8));
    const noise = Math.sqrt(rhoVariance) * ROOT8 * speed * speed * 1e4;
    expect(own).toBeGreaterThan(0.99 * noise);
    expect(own).toBeLessThan(1.05 * noise);
    expect(spread).toBeGreaterThan(0.024 * 8);
  });
});

it('absolute polarity is never wrong in 10,000 draws, and decided in most', () => {
  let wrong = 0;
  let decided = 0;
  for (let seed = 1; seed <= 10_000; seed++) {
    const { between, normal } = draws(seed * 97 + 5);
    between(0, 1);
    const sign = between(0, 1) < 0.5 ? -1 : 1;
    const tip = between(6, 20);
    const bend = between(-0.01, 0.01);
    const inPhase = between(-0.01, 0.01);
    // chain and leaks turn what is in phase by up to 0.02 rad a tone
    const bands: readonly (readonly [number, number, number])[] = [
      [1000, between(130, 145), between(3, 8)],
      [1000, between(62, 85), between(3, 8)],
      [between(300, 3000), between(70, 140), between(3, 8)],
    ];
    const tones = bands.map(([hz, r, v]): PinchTone => {
      const turned = 0.02 * Math.abs((inPhase * v) / 5);
      const spread = Math.hypot(turned, between(2e-5, 1e-3));
      const t = toneOf(hz, r, v, tip, bend, spread * normal());
      return { ...t, q: sign * t.q, spread };
    });
    const radii: HeardRadius[] = [];
    const ofTones = radiusOfTones(tones.slice(0, between(0, 1) < 0.5 ? 2 : 3));
    if (ofTones !== null) radii.push({ ...ofTones, way: 'tones', bands: [0, 1, 2] });
    if (between(0, 1) < 0.5) {
      const spread = Math.hypot(0.5, between(0.02, 3));
      radii.push({ um: sign * tip + spread * normal(), own: spread, spread, way: 'two-tone', bands: [3] });
    }
    const found = absolutePolarityOf(radii);
    if (!found.found) continue;
    decided += 1;
    if (found.sign !== sign) wrong += 1;
  }
  console.log(`absolute polarity: ${decided} of 10,000 decided, ${wrong} wrong`);
  expect(wrong).toBe(0);
  expect(decided).toBeGreaterThan(8000);
});

it('is withheld where nothing stands out, or two sure ways disagree', () => {
  expect(absolutePolarityOf([{ um: 4, own: 1.5, spread: 1.5, way: 'tones', bands: [] }])).toEqual({
    found: false,
    why: 'pinch-weak',
  });
  expect(absolutePolarityOf([{ um: 1.9, own: 0.1, spread: 0.1, way: 'tones', bands: [] }])).toEqual({
    found: false,
    why: 'pinch-weak',
  });
  expect(
    absolutePolarityOf([
      { um: 14, own: 1, spread: 1, way: 'tones', bands: [] },
      { um: -14, own: 1, spread: 1, way: 'two-tone', bands: [] },
    ]),
  ).toEqual({ found: false, why: 'pinch-disagrees' });
});
