import { describe, expect, it } from 'vitest';
import type { ChainKnown } from './chainLevel.ts';
import type { ResponseSource } from './responseSources.ts';
import { separationCurves } from './separationCurves.ts';
import type { SweepPoint } from './sweepEstimator.ts';

const FLAT: ChainKnown = { flat: true, preamp: null, record: null };
const HZ = [200, 400, 800, 1000, 1600];
/** Driven with a power, the other channel following by a complex leak, right over left or left over right. */
function source(
  driven: 'left' | 'right',
  leak: (hz: number) => { re: number; im: number },
  {
    power = 1e-2,
    noise = 0,
    spectra = 3,
    hz = HZ,
    ...more
  }: Partial<ResponseSource> & {
    power?: number;
    noise?: number;
    spectra?: number;
    hz?: number[];
  } = {},
): ResponseSource {
  const points = hz.map((f): SweepPoint => {
    const { re, im } = leak(f);
    const other = power * (re * re + im * im);
    const [left, right] = driven === 'left' ? [power, other] : [other, power];
    // right · conj(left)
    const cross = driven === 'left' ? im : -im;
    return { hz: f, left, right, re: power * re, im: power * cross, spreadDb: 0.1, noise, spectra };
  });
  return {
    band: driven === 'left' ? 1 : 2,
    kind: 'sweep',
    driven,
    antiphase: false,
    law: 'constant-velocity',
    lawStated: true,
    cutDb: 0,
    seconds: 9,
    points,
    ...more,
  };
}
const polar = (size: number, deg: number) => ({
  re: size * Math.cos((deg * Math.PI) / 180),
  im: size * Math.sin((deg * Math.PI) / 180),
});
const curves = (...sources: ResponseSource[]) => separationCurves(sources, FLAT);
const near = (values: number[], digits = 6) => values.map((v) => expect.closeTo(v, digits));

it('is how far the leak lies under the driven channel, and its phase against it', () => {
  for (const [driven, band] of [
    ['left', 1],
    ['right', 2],
  ] as const) {
    const of = { channel: driven, band, x: HZ, xUnit: 'Hz' };
    expect(curves(source(driven, (hz) => polar(10 ** (-hz / 800 - 1), 40)))).toEqual([
      { ...of, quantity: 'separation', y: near(HZ.map((hz) => 20 * (hz / 800 + 1))), yUnit: 'dB' },
      { ...of, quantity: 'separation-phase', y: near(HZ.map(() => 40)), yUnit: 'deg' },
    ]);
  }
  expect(curves({ ...source('left', () => polar(0.1, 0)), driven: 'both' })).toEqual([]);
});

it('both ways the channels’ gains are removed, as each wall’s own sweep tells them', () => {
  const rises = (hz: number) => 10 ** (Math.log2(hz / 1000) / 10);
  const left = source('left', () => polar(0.1, 0), { power: 4e-2, cutDb: 1 });
  const right = source('right', () => polar(0.1, 0), { power: 1e-2, cutDb: 3 });
  const bent = {
    ...right,
    points: right.points.map((p) => ({ ...p, right: p.right * rises(p.hz), re: p.re * rises(p.hz) })),
  };
  const [l, , r] = curves(left, bent);
  // left is louder by 10 lg 4, cut 2 dB softer; right rises by 1 dB an octave
  const gain = (hz: number) => 10 * Math.log10(4) + 2 - Math.log2(hz / 1000);
  expect(l).toMatchObject({ channel: 'left', quantity: 'separation' });
  expect(l.y).toEqual(near(HZ.map((hz) => 20 - gain(hz))));
  expect(r).toMatchObject({ channel: 'right', quantity: 'separation' });
  expect(r.y).toEqual(near(HZ.map((hz) => 20 + gain(hz))));
});

it('beyond the other sweep’s ends its level alone counts', () => {
  const right = source('right', () => polar(0.1, 0), { power: 4e-2, hz: [1000, 1100] });
  const [l] = curves(
    source('left', () => polar(0.1, 0)),
    right,
  );
  expect(l.y).toEqual(near(HZ.map(() => 20 + 10 * Math.log10(4))));
});

it('a separation ends at 80 dB', () => {
  expect(curves(source('left', () => polar(1e-5, 0)))[0].y).toEqual(HZ.map(() => 80));
});

describe('noise', () => {
  const at = (noise: number, spectra: number) => curves(source('left', () => polar(0.01, 0), { noise, spectra }))[0];

  it('is taken off the leak’s power, and hides it where it is more than a third', () => {
    // of 3 spectra a third of what one holds: N/P/3
    expect(at(3e-8 * 10, 3).y).toEqual(near(HZ.map(() => -10 * Math.log10(1e-4 - 1e-5))));
    expect(at(0.99e-6, 3).x).toEqual(HZ);
    expect(at(1.01e-6, 3).x).toEqual([]);
  });

  it('less of it is left where more spectra tell, and neighbours within a twelfth of an octave join', () => {
    expect(at(1.01e-6, 4).x).toEqual(HZ);
    const close = [1000, 1000 * 2 ** (0.99 / 12)];
    const joinedUp = curves(source('left', (hz) => polar(hz === 1000 ? 0.02 : 0.04, 0), { hz: close }))[0];
    expect(joinedUp.y).toEqual(near(close.map(() => -20 * Math.log10(0.03))));
    const apart = [1000, 1000 * 2 ** (1.01 / 12)];
    const alone = curves(source('left', (hz) => polar(hz === 1000 ? 0.02 : 0.04, 0), { hz: apart }))[0];
    expect(alone.y).toEqual(near([-20 * Math.log10(0.02), -20 * Math.log10(0.04)]));
  });

  it('a point counts by its spectra', () => {
    const hz = [1000, 1010];
    const of = source('left', (f) => polar(f === 1000 ? 0.02 : 0.04, 0), { hz });
    const weighed = { ...of, points: of.points.map((p, i) => ({ ...p, spectra: i === 0 ? 3 : 1 })) };
    expect(curves(weighed)[0].y).toEqual(near(hz.map(() => -20 * Math.log10(0.025))));
  });

  it('a driven channel without power has no point', () => {
    const of = source('left', () => polar(0.1, 0));
    const dead = { ...of, points: of.points.map((p, i) => ({ ...p, left: i === 1 ? 0 : p.left })) };
    expect(curves(dead)[0].x).toEqual([200, 800, 1000, 1600]);
    expect(curves({ ...of, points: [] })).toEqual([
      { channel: 'left', band: 1, x: [], xUnit: 'Hz', quantity: 'separation', y: [], yUnit: 'dB' },
      { channel: 'left', band: 1, x: [], xUnit: 'Hz', quantity: 'separation-phase', y: [], yUnit: 'deg' },
    ]);
  });
});

it('a phase runs on without jumps, and lies about where most of it does', () => {
  const phase = (...deg: number[]) => curves(source('left', (hz) => polar(0.1, deg[HZ.indexOf(hz)])))[1].y;
  expect(phase(150, 170, -170, -150, -130)).toEqual(near([150, 170, 190, 210, 230].map((v) => v - 360)));
  expect(phase(-150, -170, 170, 150, 170)).toEqual(near([-150, -170, -190, -210, -190].map((v) => v + 360)));
  expect(phase(170, 175, 179, -179, -175)).toEqual(near([170, 175, 179, 181, 185]));
  expect(phase(0, 120, -120, 0, 120)).toEqual(near([0, 120, 240, 360, 480].map((v) => v - 360)));
});
