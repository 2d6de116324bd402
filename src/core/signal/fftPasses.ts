/**
 * The passes of a self-sorting transform: each reads (xr, xi) and writes (yr, yi), `stride` transforms of `n` points lying
 * interleaved. `turns` holds the turning factors of the whole size, as fft.ts lays them out.
 */
const HALF_ROOT = Math.SQRT1_2;

/**
 * One pass of radix 8, in place of three of radix 2: fewer trips through memory.
 *
 * @param n length of the transforms that this pass begins with @param stride how many of them lie interleaved
 */
export function radix8(
  n: number,
  stride: number,
  turns: Float64Array,
  xr: Float64Array,
  xi: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  const eighth = n >> 3;
  const step = stride * eighth;
  for (let p = 0; p < eighth; p++) {
    const t = 14 * p * stride;
    const c1 = turns[t];
    const s1 = turns[t + 1];
    const c2 = turns[t + 2];
    const s2 = turns[t + 3];
    const c3 = turns[t + 4];
    const s3 = turns[t + 5];
    const c4 = turns[t + 6];
    const s4 = turns[t + 7];
    const c5 = turns[t + 8];
    const s5 = turns[t + 9];
    const c6 = turns[t + 10];
    const s6 = turns[t + 11];
    const c7 = turns[t + 12];
    const s7 = turns[t + 13];
    const end = stride * (p + 1);
    for (let i = stride * p, o = 8 * stride * p; i < end; i++, o++) {
      const i1 = i + step;
      const i2 = i1 + step;
      const i3 = i2 + step;
      const i4 = i3 + step;
      const i5 = i4 + step;
      const i6 = i5 + step;
      const i7 = i6 + step;
      // sums of opposite inputs: the even outputs
      const b0r = xr[i] + xr[i4];
      const b0i = xi[i] + xi[i4];
      const b1r = xr[i1] + xr[i5];
      const b1i = xi[i1] + xi[i5];
      const b2r = xr[i2] + xr[i6];
      const b2i = xi[i2] + xi[i6];
      const b3r = xr[i3] + xr[i7];
      const b3i = xi[i3] + xi[i7];
      const e0r = b0r + b2r;
      const e0i = b0i + b2i;
      const e1r = b1r + b3r;
      const e1i = b1i + b3i;
      const e2r = b0r - b2r;
      const e2i = b0i - b2i;
      // −i·(b1 − b3)
      const e3r = b1i - b3i;
      const e3i = b3r - b1r;
      yr[o] = e0r + e1r;
      yi[o] = e0i + e1i;
      const o2 = o + 2 * stride;
      const y2r = e2r + e3r;
      const y2i = e2i + e3i;
      yr[o2] = y2r * c2 - y2i * s2;
      yi[o2] = y2r * s2 + y2i * c2;
      const o4 = o2 + 2 * stride;
      const y4r = e0r - e1r;
      const y4i = e0i - e1i;
      yr[o4] = y4r * c4 - y4i * s4;
      yi[o4] = y4r * s4 + y4i * c4;
      const o6 = o4 + 2 * stride;
      const y6r = e2r - e3r;
      const y6i = e2i - e3i;
      yr[o6] = y6r * c6 - y6i * s6;
      yi[o6] = y6r * s6 + y6i * c6;
      // differences, turned by 0, 45, 90 and 135 degrees: the odd outputs
      const d0r = xr[i] - xr[i4];
      const d0i = xi[i] - xi[i4];
      const d2r = xi[i2] - xi[i6];
      const d2i = xr[i6] - xr[i2];
      const g1r = xr[i1] - xr[i5];
      const g1i = xi[i1] - xi[i5];
      const g3r = xr[i3] - xr[i7];
      const g3i = xi[i3] - xi[i7];
      const d1r = (g1r + g1i) * HALF_ROOT;
      const d1i = (g1i - g1r) * HALF_ROOT;
      const d3r = (g3i - g3r) * HALF_ROOT;
      const d3i = (-g3r - g3i) * HALF_ROOT;
      const f0r = d0r + d2r;
      const f0i = d0i + d2i;
      const f1r = d1r + d3r;
      const f1i = d1i + d3i;
      const f2r = d0r - d2r;
      const f2i = d0i - d2i;
      const f3r = d1i - d3i;
      const f3i = d3r - d1r;
      const o1 = o + stride;
      const y1r = f0r + f1r;
      const y1i = f0i + f1i;
      yr[o1] = y1r * c1 - y1i * s1;
      yi[o1] = y1r * s1 + y1i * c1;
      const o3 = o1 + 2 * stride;
      const y3r = f2r + f3r;
      const y3i = f2i + f3i;
      yr[o3] = y3r * c3 - y3i * s3;
      yi[o3] = y3r * s3 + y3i * c3;
      const o5 = o3 + 2 * stride;
      const y5r = f0r - f1r;
      const y5i = f0i - f1i;
      yr[o5] = y5r * c5 - y5i * s5;
      yi[o5] = y5r * s5 + y5i * c5;
      const o7 = o5 + 2 * stride;
      const y7r = f2r - f3r;
      const y7i = f2i - f3i;
      yr[o7] = y7r * c7 - y7i * s7;
      yi[o7] = y7r * s7 + y7i * c7;
    }
  }
}

/** The last pass where two factors of 2 are left; its turning factors are all 1. */
export function lastRadix4(s: number, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  for (let i = 0; i < s; i++) {
    const i1 = i + s;
    const i2 = i1 + s;
    const i3 = i2 + s;
    const acr = xr[i] + xr[i2];
    const aci = xi[i] + xi[i2];
    const amr = xr[i] - xr[i2];
    const ami = xi[i] - xi[i2];
    const bdr = xr[i1] + xr[i3];
    const bdi = xi[i1] + xi[i3];
    const jr = xi[i1] - xi[i3];
    const ji = xr[i3] - xr[i1];
    yr[i] = acr + bdr;
    yi[i] = aci + bdi;
    yr[i1] = amr + jr;
    yi[i1] = ami + ji;
    yr[i2] = acr - bdr;
    yi[i2] = aci - bdi;
    yr[i3] = amr - jr;
    yi[i3] = ami - ji;
  }
}

/** The last pass where one factor of 2 is left. */
export function radix2(s: number, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  for (let i = 0; i < s; i++) {
    const p = i + s;
    yr[i] = xr[i] + xr[p];
    yi[i] = xi[i] + xi[p];
    yr[p] = xr[i] - xr[p];
    yi[p] = xi[i] - xi[p];
  }
}

/** The first pass, stride 1: the same butterfly as `radix4` without its inner loop. */
export function firstRadix4(
  n: number,
  turns: Float64Array,
  xr: Float64Array,
  xi: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  const quarter = n >> 2;
  for (let p = 0, o = 0, t = 0; p < quarter; p++, o += 4, t += 6) {
    const p1 = p + quarter;
    const p2 = p1 + quarter;
    const p3 = p2 + quarter;
    const acr = xr[p] + xr[p2];
    const aci = xi[p] + xi[p2];
    const amr = xr[p] - xr[p2];
    const ami = xi[p] - xi[p2];
    const bdr = xr[p1] + xr[p3];
    const bdi = xi[p1] + xi[p3];
    // −i·(b − d)
    const jr = xi[p1] - xi[p3];
    const ji = xr[p3] - xr[p1];
    yr[o] = acr + bdr;
    yi[o] = aci + bdi;
    yr[o + 1] = (amr + jr) * turns[t] - (ami + ji) * turns[t + 1];
    yi[o + 1] = (amr + jr) * turns[t + 1] + (ami + ji) * turns[t];
    yr[o + 2] = (acr - bdr) * turns[t + 2] - (aci - bdi) * turns[t + 3];
    yi[o + 2] = (acr - bdr) * turns[t + 3] + (aci - bdi) * turns[t + 2];
    yr[o + 3] = (amr - jr) * turns[t + 4] - (ami - ji) * turns[t + 5];
    yi[o + 3] = (amr - jr) * turns[t + 5] + (ami - ji) * turns[t + 4];
  }
}

export function radix4(
  n: number,
  stride: number,
  turns: Float64Array,
  xr: Float64Array,
  xi: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  const quarter = n >> 2;
  const step = stride * quarter;
  for (let p = 0; p < quarter; p++) {
    const t = 6 * p * stride;
    const c1 = turns[t];
    const s1 = turns[t + 1];
    const c2 = turns[t + 2];
    const s2 = turns[t + 3];
    const c3 = turns[t + 4];
    const s3 = turns[t + 5];
    const end = stride * (p + 1);
    for (let i = stride * p, o = 4 * stride * p; i < end; i++, o++) {
      const i1 = i + step;
      const i2 = i1 + step;
      const i3 = i2 + step;
      const acr = xr[i] + xr[i2];
      const aci = xi[i] + xi[i2];
      const amr = xr[i] - xr[i2];
      const ami = xi[i] - xi[i2];
      const bdr = xr[i1] + xr[i3];
      const bdi = xi[i1] + xi[i3];
      const jr = xi[i1] - xi[i3];
      const ji = xr[i3] - xr[i1];
      yr[o] = acr + bdr;
      yi[o] = aci + bdi;
      const r1 = amr + jr;
      const m1 = ami + ji;
      const o1 = o + stride;
      yr[o1] = r1 * c1 - m1 * s1;
      yi[o1] = r1 * s1 + m1 * c1;
      const r2 = acr - bdr;
      const m2 = aci - bdi;
      const o2 = o1 + stride;
      yr[o2] = r2 * c2 - m2 * s2;
      yi[o2] = r2 * s2 + m2 * c2;
      const r3 = amr - jr;
      const m3 = ami - ji;
      const o3 = o2 + stride;
      yr[o3] = r3 * c3 - m3 * s3;
      yi[o3] = r3 * s3 + m3 * c3;
    }
  }
}
