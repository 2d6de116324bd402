/**
 * A simple seeded source of test sides for the band finder: bands cut one after another, played through faulty channels,
 * under hum, rumble, surface noise, clicks and a needle drop. It knows nothing of the virtual deck and nothing of the
 * finder; the truth comes with it.
 */
import type { BandMotion, BandSignal } from '../../src/core/record/band.ts';

export interface CutBand {
  readonly signal: BandSignal;
  readonly motion: BandMotion;
  readonly durationS: number;
  /** dBFS peak in a driven channel at 1 kHz; noise: rms */
  readonly levelDb: number;
  readonly frequencyHz?: number;
  readonly frequenciesHz?: readonly [number, number];
  /** level of the upper tone under the lower, dB, as captured */
  readonly upperUnderDb?: number;
  readonly fromHz?: number;
  readonly toHz?: number;
  readonly law?: 'log' | 'linear';
  readonly colour?: 'white' | 'pink';
  /** unmodulated groove after the band, s; 0 for none */
  readonly gapS: number;
  readonly fadeS: number;
}

export interface SideFaults {
  readonly gainDifferenceDb: number;
  /** amplitude that leaks left into right and right into left, signed */
  readonly leakLeftToRight: number;
  readonly leakRightToLeft: number;
  readonly tiltDeg: number;
  readonly swapped: boolean;
  readonly rightInverted: boolean;
  /** record runs fast by, % */
  readonly speedPercent: number;
  readonly wowPercent: number;
  readonly wowHz: number;
  readonly flutterPercent: number;
  /** rms per channel, dBFS */
  readonly surfaceDb: number;
  readonly surfaceColour: 'white' | 'pink' | 'red';
  readonly rumbleDb: number;
  /** noise at the arm's resonance, rms dBFS */
  readonly resonanceDb: number;
  readonly resonanceHz: number;
  /** dBFS peak of the fundamental */
  readonly humDb: number;
  readonly mainsHz: number;
  /** how fast the harmonics fall, dB per octave */
  readonly humSlopeDb: number;
  readonly clicksPerS: number;
  readonly thump: boolean;
  readonly leadInNoiseDb: number;
  /** second harmonic of tones, amplitude */
  readonly secondHarmonic: number;
}

export interface SideSpec {
  readonly seed: number;
  readonly sampleRateHz: number;
  readonly bands: readonly CutBand[];
  readonly faults: SideFaults;
  /** needle up, s */
  readonly beforeS: number;
  readonly leadInS: number;
  readonly leadOutS: number;
  readonly afterS: number;
  /** s taken off the finished capture's ends */
  readonly cutStartS: number;
  readonly cutEndS: number;
  /** needle up is exact zeros, as in an edited capture */
  readonly digitalSilence: boolean;
}

export interface TrueBand {
  readonly cut: CutBand;
  /** s in the capture, clipped to it */
  readonly startS: number;
  readonly endS: number;
}

export interface Side {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly truth: readonly TrueBand[];
}

export const QUIET_FAULTS: SideFaults = {
  gainDifferenceDb: 0,
  leakLeftToRight: 0.03,
  leakRightToLeft: 0.03,
  tiltDeg: 0,
  swapped: false,
  rightInverted: false,
  speedPercent: 0,
  wowPercent: 0.05,
  wowHz: 0.556,
  flutterPercent: 0.02,
  surfaceDb: -60,
  surfaceColour: 'pink',
  rumbleDb: -55,
  resonanceDb: -45,
  resonanceHz: 10,
  humDb: -70,
  mainsHz: 50,
  humSlopeDb: 9,
  clicksPerS: 0.3,
  thump: true,
  leadInNoiseDb: 3,
  secondHarmonic: 0.01,
};

/** Uniform in [0, 1), 32-bit state (mulberry32). */
export function seeded(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Unit-rms noise, near Gaussian. */
function noiseSource(
  colour: 'white' | 'pink' | 'red' | 'rumble',
  draw: () => number,
  sampleRateHz: number,
): () => number {
  const white = (): number => (draw() + draw() + draw() - 1.5) * 2;
  if (colour === 'white') return white;
  if (colour === 'red') {
    const a = Math.exp((-2 * Math.PI * 60) / sampleRateHz);
    let y = 0;
    const scale = Math.sqrt(1 - a * a);
    return () => {
      y = a * y + white() * scale;
      return y;
    };
  }
  if (colour === 'rumble') {
    // two equal poles at 25 Hz
    const a = Math.exp((-2 * Math.PI * 25) / sampleRateHz);
    const scale = Math.sqrt((1 - a * a) ** 3 / (1 + a * a));
    let y = 0;
    let z = 0;
    return () => {
      y = a * y + white();
      z = a * z + y;
      return z * scale;
    };
  }
  // Four one-pole filters a decade apart sum to −3 dB per octave within about 1 dB from 20 Hz to 20 kHz.
  const poles = [20, 200, 2000, 20000].map((f) =>
    Math.exp((-2 * Math.PI * Math.min(f, 0.4 * sampleRateHz)) / sampleRateHz),
  );
  const scales = poles.map((p, i) => (1 - p) * 10 ** (-i * 0.5));
  const power = poles.flatMap((p, i) => poles.map((q, j) => (scales[i] * scales[j]) / (1 - p * q)));
  const norm = 1 / Math.sqrt(power.reduce((sum, v) => sum + v, 0));
  const y = poles.map(() => 0);
  return () => {
    let sum = 0;
    const w = white();
    for (let i = 0; i < y.length; i++) {
      y[i] = poles[i] * y[i] + scales[i] * w;
      sum += y[i];
    }
    return sum * norm;
  };
}

/** Unit-rms noise about one frequency, quality q. */
function resonator(hz: number, q: number, draw: () => number, sampleRateHz: number): () => number {
  const r = Math.exp((-Math.PI * hz) / q / sampleRateHz);
  const a1 = 2 * r * Math.cos((2 * Math.PI * hz) / sampleRateHz);
  const a2 = -r * r;
  const power = (1 - a2) / ((1 + a2) * ((1 - a2) ** 2 - a1 * a1));
  const scale = 1 / Math.sqrt(power);
  let y1 = 0;
  let y2 = 0;
  return () => {
    const y = a1 * y1 + a2 * y2 + (draw() + draw() + draw() - 1.5) * 2;
    y2 = y1;
    y1 = y;
    return y * scale;
  };
}

const AXES: Record<string, readonly [number, number]> = {
  left: [1, 0],
  right: [0, 1],
  lateral: [1, 1],
  vertical: [1, -1],
};
const amplitude = (db: number): number => 10 ** (db / 20);

export function cutSide(spec: SideSpec): Side {
  const { faults, sampleRateHz: fs } = spec;
  const draw = seeded(spec.seed);
  const groove = spec.bands.reduce((s, b) => s + b.durationS + b.gapS, spec.leadInS + spec.leadOutS);
  const total = Math.round((spec.beforeS + groove + spec.afterS) * fs);
  const left = new Float64Array(total);
  const right = new Float64Array(total);
  const truth: TrueBand[] = [];
  const speed = 1 + faults.speedPercent / 100;
  const wowPhase = 2 * Math.PI * draw();
  const c = Math.cos((faults.tiltDeg * Math.PI) / 180);
  const s = Math.sin((faults.tiltDeg * Math.PI) / 180);

  let atS = spec.beforeS + spec.leadInS;
  for (const band of spec.bands) {
    const from = Math.round(atS * fs);
    const to = Math.round((atS + band.durationS) * fs);
    truth.push({ cut: band, startS: from / fs, endS: to / fs });
    atS += band.durationS + band.gapS;
    if (band.signal === 'silent-groove') continue;
    const [al, ar] = AXES[band.motion];
    const a = amplitude(band.levelDb);
    const upper = a * amplitude(-(band.upperUnderDb ?? 12));
    const noise = noiseSource(band.colour ?? 'pink', draw, fs);
    const [f1, f2] = band.frequenciesHz ?? [band.frequencyHz ?? 1000, 0];
    const fromHz = band.fromHz ?? 20;
    const toHz = band.toHz ?? 20000;
    let phase = 2 * Math.PI * draw();
    let phase2 = 2 * Math.PI * draw();
    const fade = Math.max(1, Math.round(band.fadeS * fs));
    for (let i = from; i < to; i++) {
      const t = i / fs;
      const v =
        speed *
        (1 +
          (faults.wowPercent / 100) * Math.sin(2 * Math.PI * faults.wowHz * t + wowPhase) +
          (faults.flutterPercent / 100) * Math.sin(2 * Math.PI * 9.3 * t));
      let x: number;
      if (band.signal === 'noise') x = a * noise();
      else if (band.signal === 'sweep') {
        const u = (i - from) / (to - from);
        const f = band.law === 'linear' ? fromHz + (toHz - fromHz) * u : fromHz * (toHz / fromHz) ** u;
        phase += (2 * Math.PI * f * v) / fs;
        x = a * Math.sin(phase);
      } else {
        phase += (2 * Math.PI * f1 * v) / fs;
        x = a * (Math.sin(phase) + (f1 < 0.2 * fs ? faults.secondHarmonic * Math.sin(2 * phase) : 0));
        if (f2 > 0) {
          phase2 += (2 * Math.PI * f2 * v) / fs;
          x += upper * Math.sin(phase2);
        }
      }
      const edge = Math.min(i - from, to - 1 - i);
      if (edge < fade) x *= edge / fade;
      left[i] = al * x;
      right[i] = ar * x;
    }
  }

  const gl = amplitude(faults.gainDifferenceDb / 2);
  const gr = amplitude(-faults.gainDifferenceDb / 2) * (faults.rightInverted ? -1 : 1);
  const down = Math.round(spec.beforeS * fs);
  const up = Math.round((spec.beforeS + groove) * fs);
  const leadInEnd = Math.round((spec.beforeS + Math.min(spec.leadInS, 1.5)) * fs);
  const surfaceL = noiseSource(faults.surfaceColour, draw, fs);
  const surfaceR = noiseSource(faults.surfaceColour, draw, fs);
  const rumble = noiseSource('rumble', draw, fs);
  const rumble2 = noiseSource('rumble', draw, fs);
  const white = noiseSource('white', draw, fs);
  const surface = amplitude(faults.surfaceDb);
  const resonance = resonator(faults.resonanceHz, 4, draw, fs);
  const resonanceA = amplitude(faults.resonanceDb);
  const rumbleA = amplitude(faults.rumbleDb);
  const electronics = amplitude(Math.min(-84, faults.surfaceDb - 22));
  const harmonics = Array.from({ length: 12 }, (_, k) =>
    amplitude(faults.humDb - faults.humSlopeDb * Math.log2(k + 1)),
  );
  const humPhases = harmonics.map(() => 2 * Math.PI * draw());
  let click = 0;
  let clickSign = 1;
  for (let i = 0; i < total; i++) {
    const t = i / fs;
    let l = left[i] * c + right[i] * s;
    let r = right[i] * c - left[i] * s;
    [l, r] = [l + faults.leakRightToLeft * r, r + faults.leakLeftToRight * l];
    const inGroove = i >= down && i < up;
    if (inGroove) {
      const louder = i < leadInEnd ? amplitude(faults.leadInNoiseDb) : 1;
      const common = rumbleA * rumble() + resonanceA * resonance();
      l += surface * louder * surfaceL() + common;
      r += surface * louder * surfaceR() + common * 0.6 + 0.4 * rumbleA * rumble2();
      if (faults.thump) {
        for (const at of [spec.beforeS, spec.beforeS + groove - 0.15]) {
          const u = t - at;
          if (u >= 0 && u < 0.8) {
            const knock =
              0.5 * Math.exp(-u / 0.08) * Math.sin(2 * Math.PI * 18 * u) + 0.2 * Math.exp(-u / 0.01) * white();
            l += knock;
            r -= 0.7 * knock;
          }
        }
      }
      if (draw() < faults.clicksPerS / fs) {
        click = 0.05 + 0.4 * draw() ** 3;
        clickSign = draw() < 0.5 ? -1 : 1;
      }
      if (click > 1e-4) {
        l += click * clickSign;
        r -= 0.6 * click * clickSign;
        click *= Math.exp(-1 / (fs * 0.0002));
        clickSign = -clickSign * (draw() < 0.3 ? 1 : -1);
      }
    }
    let hum = 0;
    for (let k = 0; k < harmonics.length; k++) {
      if (harmonics[k] > 1e-6)
        hum += harmonics[k] * Math.sin(2 * Math.PI * faults.mainsHz * (k + 1) * t + humPhases[k]);
    }
    l = gl * (l + 1.1 * hum) + electronics * white();
    r = gr * (r + 0.8 * hum) + electronics * white();
    if (spec.digitalSilence && !inGroove) {
      l = 0;
      r = 0;
    }
    left[i] = Math.max(-1, Math.min(1, l));
    right[i] = Math.max(-1, Math.min(1, r));
  }
  const first = Math.round(spec.cutStartS * fs);
  const last = total - Math.round(spec.cutEndS * fs);
  const clipped = truth
    .map((b) => ({
      cut: b.cut,
      startS: Math.max(0, b.startS - first / fs),
      endS: Math.min((last - first) / fs, b.endS - first / fs),
    }))
    .filter((b) => b.endS > b.startS);
  const l = left.slice(first, last);
  const r = right.slice(first, last);
  return faults.swapped ? { left: r, right: l, truth: clipped } : { left: l, right: r, truth: clipped };
}
