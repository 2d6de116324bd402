/**
 * The second generator of captures: groove, tip, generator and chain, written from the physics alone and sharing nothing with the
 * practice deck or with what measures. At twice the capture's rate, everything linear by one transform of the whole take.
 */
import { grooveTime } from './bearing.ts';
import { type CutBand, type Faults, trackingErrorDeg } from './fault.ts';
import { type Complex, throughMatrix } from './fourier.ts';
import { tipReader, type Wall } from './tip.ts';

export interface Take {
  readonly sampleRateHz: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** s, of each band as played */
  readonly bands: readonly { readonly startS: number; readonly endS: number }[];
}

const GAP_S = 0.6;
const FADE_S = 0.02;
/** full scale at this velocity along one wall, cm/s */
const FULL_SCALE_CM_S = 40;
const TAU = 2 * Math.PI;
const rad = (deg: number): number => (deg * Math.PI) / 180;

export function capture(bands: readonly CutBand[], faults: Faults): Take {
  const rate = 2 * faults.sampleRateHz;
  const total = bands.reduce((sum, b) => sum + b.durationS + GAP_S, GAP_S + 0.4);
  let size = 1;
  while (size < total * rate) size *= 2;
  const a = new Float64Array(size);
  const b = new Float64Array(size);
  const places: { startS: number; endS: number }[] = [];
  let startS = GAP_S;
  for (const band of bands) {
    playBand(band, faults, startS, rate, a, b);
    places.push({ startS, endS: startS + band.durationS });
    startS += band.durationS + GAP_S;
  }
  const { left, right } = generatorAndChain(a, b, rate, faults);
  const frames = Math.floor(total * faults.sampleRateHz);
  const noise = gaussian(faults.seed);
  const rms = (5 / FULL_SCALE_CM_S) * 10 ** (faults.noiseDb / 20);
  const out = { left: left.slice(0, frames), right: right.slice(0, frames) };
  for (let n = 0; n < frames; n++) {
    out.left[n] += rms * noise();
    out.right[n] += rms * noise();
  }
  return { sampleRateHz: faults.sampleRateHz, ...out, bands: places };
}

/** Displacements of the tip along the walls' axes, cm, written from the band's start on. */
function playBand(band: CutBand, faults: Faults, startS: number, rate: number, a: Float64Array, b: Float64Array): void {
  const { cut, arm } = faults;
  const speed = (TAU * (faults.rpm / 60) * band.radiusMm) / 10;
  // the axis of motion turned clockwise by the cut's tilt: L' = L cos φ − R sin φ for a groove that is tilted itself
  const [wl, wr] = {
    left: [1, 0],
    right: [0, 1],
    lateral: [Math.SQRT1_2, Math.SQRT1_2],
    vertical: [Math.SQRT1_2, -Math.SQRT1_2],
  }[band.motion];
  const uneven = wl !== 0 && wr !== 0 ? 10 ** (cut.balanceDb / 20) : 1;
  const leakL = wl === 0 ? cut.leak : { re: 0, im: 0 };
  const leakR = wr === 0 ? cut.leak : { re: 0, im: 0 };
  const hl = wl + leakL.re;
  const hr = wr * uneven + leakR.re;
  const c = Math.cos(rad(cut.tiltDeg));
  const s = Math.sin(rad(cut.tiltDeg));
  const omega = band.hz.map((hz) => TAU * hz);
  const reach = omega.map((w, i) => band.cmS[i] / w);
  const wall =
    (share: number, quadrature: number): Wall =>
    (p, out) => {
      out[0] = out[1] = out[2] = 0;
      for (let i = 0; i < omega.length; i++) {
        const w = omega[i];
        const A = reach[i];
        const angle = w * p;
        const cos = Math.cos(angle);
        const sin = Math.sin(angle);
        // displacement A sin: velocity A ω cos; a quarter of a turn ahead is A cos
        out[0] += A * (share * sin + quadrature * cos);
        out[1] += A * w * (share * cos - quadrature * sin);
        out[2] -= A * w * w * (share * sin + quadrature * cos);
        if (cut.secondHarmonic !== 0) {
          const h = ((cut.secondHarmonic * band.cmS[i]) / 5) * share * (A / 2);
          out[0] += h * Math.sin(2 * angle);
          out[1] += h * 2 * w * Math.cos(2 * angle);
          out[2] -= h * 4 * w * w * Math.sin(2 * angle);
        }
      }
    };
  const inner = wall(hl * c - hr * s, leakL.im * c - leakR.im * s);
  const outer = wall(hr * c + hl * s, leakR.im * c + leakL.im * s);
  const tan = (deg: number): number => Math.tan(rad(deg));
  const read = tipReader(inner, outer, {
    speed,
    zenith: -tan(cut.zenithDeg),
    cutAngle: tan(cut.angleDeg),
    across: tan(trackingErrorDeg(faults, band.radiusMm)) - tan(faults.playAngleDeg) * Math.sin(rad(faults.bodyTiltDeg)),
    play: tan(faults.playAngleDeg),
    tip: faults.tipUm * 1e-4,
    late: faults.outerLateUm * 1e-4,
  });
  const along = grooveTime({ ...faults, arm }, band.radiusMm);
  const from = Math.ceil(startS * rate);
  const to = Math.floor((startS + band.durationS) * rate);
  const origin = along(startS);
  const pair = new Float64Array(2);
  for (let n = from; n < to; n++) {
    const t = n / rate;
    read(along(t) - origin, pair);
    const edge = Math.min(t - startS, startS + band.durationS - t);
    const loud = edge >= FADE_S ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * edge) / FADE_S);
    a[n] = loud * pair[0];
    b[n] = loud * pair[1];
  }
}

const times = (p: Complex, q: Complex): Complex => ({ re: p.re * q.re - p.im * q.im, im: p.re * q.im + p.im * q.re });

/** Displacements along the walls → the capture, at half the rate. */
function generatorAndChain(
  a: Float64Array,
  b: Float64Array,
  rate: number,
  faults: Faults,
): { left: Float64Array; right: Float64Array } {
  const cos = Math.cos(rad(faults.tiltDeg));
  const sin = Math.sin(rad(faults.tiltDeg));
  const none = { re: 0, im: 0 };
  // tilt, and from displacement to velocity
  const turned = throughMatrix(a, b, rate, (hz) => {
    const w = TAU * hz;
    return [
      { re: 0, im: w * cos },
      { re: 0, im: w * sin },
      { re: 0, im: -w * sin },
      { re: 0, im: w * cos },
    ];
  });
  // second harmonic h at 5 cm/s: u + (2h/5) u² for velocity; for displacement the same at 1 kHz, from d/dt of d²
  const bent = (u: Float64Array, d: Float64Array, dOther: Float64Array, sign: number, channel: 'left' | 'right') => {
    const byVelocity = (2 * faults.bendsWithVelocity[channel]) / 5;
    const byDisplacement = ((2 * faults.bendsWithDisplacement[channel]) / 5) * TAU * 1000;
    for (let n = 0; n < u.length; n++) {
      const x = cos * d[n] + sign * sin * dOther[n];
      u[n] *= 1 + byVelocity * u[n] + byDisplacement * x;
    }
  };
  bent(turned.left, a, b, 1, 'left');
  bent(turned.right, b, a, -1, 'right');
  const scale = faults.sign / FULL_SCALE_CM_S;
  const at1k = riaa(1000);
  const flat = 1 / Math.hypot(at1k.re, at1k.im);
  return throughMatrix(
    turned.left,
    turned.right,
    rate,
    (hz) => {
      if (hz < 1) return [none, none, none, none];
      const h = faults.riaa ? times(riaa(hz), { re: flat * scale, im: 0 }) : { re: scale, im: 0 };
      const g = times(h, faults.rightGain);
      return [h, times(h, faults.rightIntoLeft), times(g, faults.leftIntoRight), g];
    },
    2,
  );
}

/** Playback equalisation, complex: (1 + s·318 µs) / ((1 + s·3180 µs)(1 + s·75 µs)). */
export function riaa(hz: number): Complex {
  const w = TAU * hz;
  const top = { re: 1, im: w * 318e-6 };
  const under = times({ re: 1, im: w * 3180e-6 }, { re: 1, im: w * 75e-6 });
  const size = under.re ** 2 + under.im ** 2;
  return times(top, { re: under.re / size, im: -under.im / size });
}

/** Normal deviates: Lehmer's generator, then Box and Muller. */
function gaussian(seed: number): () => number {
  let state = (Math.abs(Math.trunc(seed)) % 2_147_483_646) + 1;
  const uniform = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  let spare: number | null = null;
  return () => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    const size = Math.sqrt(-2 * Math.log(uniform()));
    const angle = TAU * uniform();
    spare = size * Math.sin(angle);
    return size * Math.cos(angle);
  };
}
