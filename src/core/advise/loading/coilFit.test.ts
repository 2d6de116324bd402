/** Coil and load told from a circuit simulator's own responses with 100 and 200 pF between them. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { fitCoil, fitTip, type LevelAt, withoutCoil } from './coilFit.ts';

const folder = resolve(import.meta.dirname, '../../../../checks/ngspice');
const { frequenciesHz } = JSON.parse(readFileSync(resolve(folder, 'networks.json'), 'utf8')) as {
  frequenciesHz: number[];
};
/** dB at each frequency, as ngspice printed it. */
const simulated = (name: string): number[] =>
  [...readFileSync(resolve(folder, `${name}.out`), 'utf8').matchAll(/^vdb\(out\) = (\S+)/gm)].map(([, v]) => Number(v));

const within = (hz: number): boolean => hz >= 1000 && hz <= 20_000;

it.each([
  ['coil-500mh-150pf', 'coil-500mh-250pf', 100e-12, 0.5, 150e-12],
  ['coil-500mh-250pf', 'coil-500mh-450pf', 200e-12, 0.5, 250e-12],
])('%s against %s', (first, second, addedF, henry, farad) => {
  const [a, b] = [simulated(first), simulated(second)];
  expect(a).toHaveLength(frequenciesHz.length);
  const known = { addedF, loadOhm: 47_000, coilOhm: 1000 };
  const change = frequenciesHz.flatMap((hz, i): LevelAt[] =>
    within(hz) ? [{ hz, db: b[i] - a[i], spread: 0.03 }] : [],
  );
  const coil = fitCoil(change, known)!;
  expect(coil.inductance / henry).toBeCloseTo(1, 4);
  expect(coil.capacitance / farad).toBeCloseTo(1, 4);
  // what is left of a response that was this coil's times a mass on a spring at 17 kHz
  const tip = (hz: number): number => -10 * Math.log10((1 - (hz / 17e3) ** 2) ** 2 + (hz / 17e3 / 1.7) ** 2);
  const at1k = frequenciesHz.indexOf(1000);
  const whole = frequenciesHz.flatMap((hz, i): LevelAt[] =>
    within(hz) ? [{ hz, db: a[i] - a[at1k] + tip(hz), spread: 0.2 }] : [],
  );
  const rest = fitTip(withoutCoil(whole, coil, known))!;
  expect(rest.hz).toBeCloseTo(17e3, -1);
  expect(rest.q).toBeCloseTo(1.7, 2);
});

it('stated spreads hold the truth in most of 60 noisy draws', () => {
  const [a, b] = [simulated('coil-500mh-150pf'), simulated('coil-500mh-250pf')];
  let seed = 7;
  const uniform = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed + 0.5) / 2 ** 32;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  let inside = 0;
  for (let n = 0; n < 60; n++) {
    const change = frequenciesHz.flatMap((hz, i): LevelAt[] =>
      within(hz) ? [{ hz, db: b[i] - a[i] + 0.1 * normal(), spread: 0.1 }] : [],
    );
    const coil = fitCoil(change, { addedF: 100e-12, loadOhm: 47_000, coilOhm: 1000 })!;
    if (Math.abs(coil.inductance - 0.5) < 2 * coil.inductanceSpread) inside += 1;
  }
  expect(inside).toBeGreaterThanOrEqual(54);
});
