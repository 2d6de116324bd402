/** Running filters over blocks: they keep their state, so the size of the blocks does not matter. */
import type { Realised, Section } from './realise.ts';

export type Run = (samples: Float64Array, count: number) => void;

/** Second-order section in place, transposed direct form. */
export function runSection({ a, b }: Section): Run {
  const [b0, b1, b2] = b;
  const [a1, a2] = a;
  let s1 = 0;
  let s2 = 0;
  return (samples, count) => {
    let p = s1;
    let q = s2;
    for (let i = 0; i < count; i++) {
      const x = samples[i];
      const y = b0 * x + p;
      p = b1 * x - a1 * y + q;
      q = b2 * x - a2 * y;
      samples[i] = y;
    }
    s1 = p;
    s2 = q;
  };
}

/** First-order sections multiplied two by two, so that half as many passes give the same response. */
export function paired(sections: readonly Section[]): Section[] {
  const pairs: Section[] = [];
  for (let i = 0; i < sections.length; i++) {
    const one = sections[i];
    const two = sections[i + 1];
    const plain = (section: Section | undefined) => section !== undefined && section.b[2] === 0 && section.a[1] === 0;
    if (!(plain(one) && plain(two))) {
      pairs.push(one);
      continue;
    }
    i++;
    pairs.push({
      b: [one.b[0] * two.b[0], one.b[0] * two.b[1] + one.b[1] * two.b[0], one.b[1] * two.b[1]],
      a: [one.a[0] + two.a[0], one.a[0] * two.a[0]],
    });
  }
  return pairs;
}

/** FIR in place. */
export function runFir(taps: Float64Array, longest: number): Run {
  const n = taps.length;
  const reversed = Float64Array.from(taps).reverse();
  const line = new Float64Array(n - 1 + longest);
  return (samples, count) => {
    for (let i = 0; i < count; i++) line[n - 1 + i] = samples[i];
    for (let i = 0; i < count; i++) {
      let p = 0;
      let q = 0;
      let r = 0;
      let s = 0;
      let k = 0;
      for (; k + 3 < n; k += 4) {
        p += reversed[k] * line[i + k];
        q += reversed[k + 1] * line[i + k + 1];
        r += reversed[k + 2] * line[i + k + 2];
        s += reversed[k + 3] * line[i + k + 3];
      }
      for (; k < n; k++) p += reversed[k] * line[i + k];
      samples[i] = p + q + (r + s);
    }
    line.copyWithin(0, count, count + n - 1);
  };
}

/** A delay of whole frames in place. */
export function runDelay(frames: number, longest: number): Run {
  const line = new Float64Array(frames + longest);
  return (samples, count) => {
    line.set(samples.subarray(0, count), frames);
    samples.set(line.subarray(0, count));
    line.copyWithin(0, count, count + frames);
  };
}

export function runRealised(filter: Realised, longest: number): Run {
  const parts = [runFir(filter.fir, longest), ...paired(filter.sections).map(runSection)];
  return (samples, count) => {
    for (const part of parts) part(samples, count);
  };
}

/** High pass s²/(s² + s ω₀/Q + ω₀²) by the bilinear transform, its pole frequency kept; for frequencies far below the rate. */
export function highPassSection(sampleRateHz: number, hz: number, q: number): Section {
  const k = Math.tan((Math.PI * hz) / sampleRateHz);
  const norm = 1 / (1 + k / q + k * k);
  return { b: [norm, -2 * norm, norm], a: [2 * (k * k - 1) * norm, (1 - k / q + k * k) * norm] };
}

/** First-order low pass by the bilinear transform. */
export function lowPassFirstOrder(sampleRateHz: number, hz: number): Section {
  const k = Math.tan((Math.PI * hz) / sampleRateHz);
  return { b: [k / (1 + k), k / (1 + k), 0], a: [(k - 1) / (1 + k), 0] };
}

/** First-order high pass by the bilinear transform. */
export function highPassFirstOrder(sampleRateHz: number, hz: number): Section {
  const k = Math.tan((Math.PI * hz) / sampleRateHz);
  return { b: [1 / (1 + k), -1 / (1 + k), 0], a: [(k - 1) / (1 + k), 0] };
}
