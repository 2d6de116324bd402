import { expect, it } from 'vitest';
import { armTransfer, sweptTransfer } from './sweptArm.ts';

/** The arm's equation y″ + y′ ω₀/Q + y ω₀² = x″ with x = e^(jφ), z = x − y: z″ + z′ω₀/Q + z ω₀² = x′ω₀/Q + x ω₀², by Runge and Kutta; what comes out through a first-order high pass, where one is there. */
function stepped(f0: number, q: number, fromHz: number, hzPerS: number, atS: number, tau = Number.POSITIVE_INFINITY) {
  const w0 = 2 * Math.PI * f0;
  const phase = (t: number): number => 2 * Math.PI * (fromHz * t + (hzPerS * t * t) / 2);
  const omega = (t: number): number => 2 * Math.PI * (fromHz + hzPerS * t);
  const slope = (t: number, [a, b, va, vb, la, lb]: number[]): number[] => {
    const [c, s, w] = [Math.cos(phase(t)), Math.sin(phase(t)), omega(t)];
    const push = [(-w * s * w0) / q + w0 * w0 * c, (w * c * w0) / q + w0 * w0 * s];
    return [
      va,
      vb,
      push[0] - (va * w0) / q - w0 * w0 * a,
      push[1] - (vb * w0) / q - w0 * w0 * b,
      (c - a - la) / tau,
      (s - b - lb) / tau,
    ];
  };
  const dt = 2e-4;
  let z = [0, 0, 0, 0, 0, 0];
  const steps = Math.round(atS / dt);
  for (let n = 0; n < steps; n++) {
    const t = n * dt;
    const add = (k: number[], by: number): number[] => z.map((v, i) => v + by * k[i]);
    const k1 = slope(t, z);
    const k2 = slope(t + dt / 2, add(k1, dt / 2));
    const k3 = slope(t + dt / 2, add(k2, dt / 2));
    const k4 = slope(t + dt, add(k3, dt));
    z = z.map((v, i) => v + (dt * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i])) / 6);
  }
  const t = steps * dt;
  const [c, s] = [Math.cos(phase(t)), Math.sin(phase(t))];
  const [yr, yi] = [c - z[0] - z[4], s - z[1] - z[5]];
  return { hz: fromHz + hzPerS * t, re: yr * c + yi * s, im: yi * c - yr * s };
}

// 2 Hz/s over a resonance that is 1.2 Hz wide: what comes late is as large as what is there
it.each([
  [6.7, 5.5, 2, 2],
  [10, 0.9, 3, 2],
  [12, 6, 30, -1.5],
  [8, 0.45, 3, 2],
])('f₀ %d Hz, Q %d, from %d Hz at %d Hz/s', (f0, q, fromHz, hzPerS) => {
  for (const ahead of [-1, 0.3, 1, 2.5]) {
    const at = (f0 + Math.sign(hzPerS) * ahead - fromHz) / hzPerS;
    const { hz, re, im } = stepped(f0, q, fromHz, hzPerS, at);
    const told = sweptTransfer({ hz, hzPerS, windowS: 0 }, f0, q);
    expect(Math.hypot(told.re - re, told.im - im)).toBeLessThan(5e-3);
  }
});

it('a slow sweep is a steady tone', () => {
  const told = sweptTransfer({ hz: 9, hzPerS: 1e-4, windowS: 1 }, 10, 3);
  const steady = armTransfer(9, 10, 3);
  expect(told.re).toBeCloseTo(steady.re, 3);
  expect(told.im).toBeCloseTo(steady.im, 3);
});

it.each([2, -2])('through a 7950 µs high pass the arm seems damped otherwise, swept at %d Hz/s', (hzPerS) => {
  const [f0, q, tau] = [8, 4.5, 7950e-6];
  const passed = (hz: number): number => Math.hypot(1, 1 / (2 * Math.PI * hz * tau));
  for (const beside of [-0.8, 0, 0.8]) {
    const fromHz = f0 - 3 * hzPerS;
    const { hz, re, im } = stepped(f0, q, fromHz, hzPerS, 3 + beside / hzPerS, tau);
    const x = 2 * Math.PI * hz * tau;
    // it comes later by the filter's own delay
    const heardHz = hz - (hzPerS * tau) / (1 + x * x);
    const rise = hzPerS / (hz * (1 + x * x));
    const level = (of: number): number => {
      const told = sweptTransfer({ hz: heardHz, hzPerS, windowS: 0, rise: of }, f0, q);
      return Math.hypot(told.re, told.im) / passed(heardHz) / Math.hypot(re, im) - 1;
    };
    expect(Math.abs(level(rise))).toBeLessThan(0.004);
    if (beside === 0) expect(Math.abs(level(0))).toBeGreaterThan(0.012);
  }
});
