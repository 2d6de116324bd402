import { describe, expect, it } from 'vitest';
import type { Curve } from '../../measure/finding.ts';
import type { SideDocument } from '../document.ts';
import { told } from '../told.fixture.ts';
import { fitCoil } from './coilFit.ts';
import { withAddedCapacitance } from './withAddedCapacitance.ts';

/** dB of a coil of Ω and H into Ω and F, and of a mass on a spring at the top. */
function responseDb(hz: number, { ohm = 700, henry = 0.5, load = 47_000, farad = 200e-12 } = {}): number {
  const w = 2 * Math.PI * hz;
  return -10 * Math.log10((1 + ohm / load - w * w * henry * farad) ** 2 + (w * (henry / load + ohm * farad)) ** 2);
}
const TIP = { hz: 17_000, q: 1.5 };
const tipDb = (hz: number): number => {
  const x = hz / TIP.hz;
  return -10 * Math.log10((1 - x * x) ** 2 + (x / TIP.q) ** 2);
};
/** sixths of an octave about 1 kHz in twelfths, and two points in each */
const STEPS = Array.from({ length: 42 }, (_, i) => 2 * i - 24);
const points = (to = 20_000) =>
  STEPS.flatMap((at) => [0.999, 1.001].map((by) => 1000 * 2 ** (at / 12) * by)).filter((hz) => hz <= to);

const curve = (channel: 'left' | 'right', of: (hz: number) => number, x = points()): Curve => ({
  quantity: 'frequency-response',
  channel,
  x,
  y: x.map((hz) => of(hz) - of(1000)),
  xUnit: 'Hz',
  yUnit: 'dB',
});
const document = (curves: Curve[]) => ({ findings: [], curves, problems: [] }) as unknown as SideDocument;
const both = (of: (hz: number) => number, x?: number[]) => [curve('left', of, x), curve('right', of, x)];
const first = document(both((hz) => responseDb(hz) + tipDb(hz)));
const second = document(both((hz) => responseDb(hz, { farad: 300e-12 }) + tipDb(hz)));
const withheld = (of: SideDocument) =>
  of.problems.map(({ quantity, values }) => {
    const why = values?.why as Parameters<typeof told>[0];
    return `${quantity}: ${told(why, 1)}`;
  });

describe('coil and load from a capacitance that was added', () => {
  const added = { addedF: 100e-12, coilOhm: 700 };
  const answer = withAddedCapacitance(first, second, added);
  const find = (quantity: string, channel: 'left' | 'right' = 'left') =>
    answer.findings.find((one) => one.quantity === quantity && one.channel === channel)!;

  it('each figure of each channel, whole but for its doubt', () => {
    const A = 1 + 700 / 47_000;
    const LC = 0.5 * 200e-12;
    const B = 0.5 / 47_000 + 700 * 200e-12;
    const table: [string, number, string, string, number][] = [
      ['coil-inductance-heard', 500, 'mH', 'capacitance-by-change', 0],
      ['load-capacitance-heard', 200, 'pF', 'capacitance-in-all', 0],
      ['electrical-resonance', Math.sqrt(A / LC) / (2 * Math.PI), 'Hz', 'capacitance-by-change', -1],
      ['electrical-resonance-q', Math.sqrt(A * LC) / B, '', 'capacitance-by-change', 3],
      ['tip-resonance', TIP.hz, 'Hz', 'tip-by-rest', -1],
      ['tip-resonance-q', TIP.q, '', 'tip-by-rest', 3],
    ];
    expect(answer.findings.map(({ quantity, channel }) => `${quantity} ${channel}`)).toEqual(
      ['left', 'right'].flatMap((channel) => table.map(([quantity]) => `${quantity} ${channel}`)),
    );
    for (const channel of ['left', 'right'] as const) {
      for (const [quantity, value, unit, , places] of table) {
        const one = find(quantity, channel);
        expect(one.value, quantity).toBeCloseTo(value, places);
        expect(one).toMatchObject({ unit, bands: [], verdict: 'info' });
        expect(one.notes).toHaveLength(1);
        expect(one.budget!.every((line) => line.unit === unit)).toBe(true);
        expect(one.uncertainty).toBeCloseTo(Math.hypot(...one.budget!.map(({ size }) => size)), 9);
        expect(one.budget!.find(({ of }) => of?.code === 'signal')?.size).toBeCloseTo(one.repeatability!, 9);
      }
    }
    expect(find('tip-resonance').notes![0].code).toBe('tip-by-rest');
    expect(answer.problems).toEqual([]);
  });

  it('the doubt is that of the same fit with what is known put otherwise', () => {
    const steps = STEPS.map((at) => 1000 * 2 ** (at / 12)).filter((hz) => hz <= 20_000 && hz >= 1500);
    const change = steps.map((hz) => ({
      hz,
      db: responseDb(hz, { farad: 300e-12 }) - responseDb(hz),
      spread: Math.SQRT2 * 0.04,
    }));
    const known = { addedF: 100e-12, loadOhm: 47_000, coilOhm: 700 };
    const at = fitCoil(change, known)!;
    const sizes = (coilSize: number) =>
      Object.fromEntries(
        (
          [
            ['added-capacitance', { ...known, addedF: 105e-12 }],
            ['load-resistance', { ...known, loadOhm: 47_940 }],
            ['coil-resistance', { ...known, coilOhm: 700 + coilSize }],
          ] as const
        ).map(([code, by]) => [code, 1e3 * Math.abs(fitCoil(change, by)!.inductance - at.inductance)]),
      );
    const budgetOf = (of: SideDocument) =>
      Object.fromEntries(of.findings[0].budget!.map((line) => [line.of!.code, line.size]));
    for (const [of, coilSize] of [
      [answer, 70],
      [withAddedCapacitance(first, second, { addedF: 100e-12 }), 400],
    ] as const) {
      const { signal, ...rest } = budgetOf(of);
      for (const [code, size] of Object.entries(sizes(coilSize))) expect(rest[code] / size, code).toBeCloseTo(1, 2);
      expect(Object.keys(rest)).toHaveLength(3);
      expect(signal / (2e3 * at.inductanceSpread)).toBeCloseTo(1, 1);
    }
    // of the resonance by half of what inductance and capacitance leave
    const relative = Math.hypot(at.inductanceSpread / at.inductance, at.capacitanceSpread / at.capacitance);
    const f0 = find('electrical-resonance');
    expect(f0.repeatability! / (relative * (f0.value as number))).toBeCloseTo(1, 1);
    const q = find('electrical-resonance-q');
    expect(q.repeatability! / (relative * (q.value as number))).toBeCloseTo(1, 1);
    expect(told(find('coil-inductance-heard').notes![0], 1)).toBe('coil-by-capacitance pf=100 leftDb=0');
  });

  it('what coil and load do, and what is left, drawn from 1.5 kHz up', () => {
    expect(answer.curves.slice(2).map(({ quantity, channel }) => `${quantity} ${channel}`)).toEqual([
      'response-of-coil left',
      'response-of-tip left',
      'response-of-coil right',
      'response-of-tip right',
    ]);
    const [coil, tip] = answer.curves.slice(2);
    for (const one of [coil, tip]) expect(one).toMatchObject({ xUnit: 'Hz', yUnit: 'dB' });
    const steps = STEPS.map((at) => 1000 * 2 ** (at / 12)).filter((hz) => hz <= 20_000 && hz >= 1500);
    expect(coil.x).toEqual(steps.map((hz) => expect.closeTo(hz, 1)));
    coil.x.forEach((hz, i) => {
      expect(coil.y[i]).toBeCloseTo(responseDb(hz) - responseDb(1000), 2);
      expect(tip.y[i]).toBeCloseTo(tipDb(hz) - tipDb(1000), 2);
      expect(tip.x[i]).toBe(hz);
    });
  });

  it('what the document held stays first', () => {
    const own = { ...first, findings: [{ quantity: 'hum' }], problems: [{ code: 'x' }] } as unknown as SideDocument;
    const of = withAddedCapacitance(own, second, added);
    expect(of.findings[0]).toBe(own.findings[0]);
    expect(of.curves.slice(0, 2)).toEqual(own.curves);
    expect(of.problems).toEqual(own.problems);
  });
});

describe('why coil and load cannot be told', () => {
  const ask = (a: SideDocument, b: SideDocument) => withheld(withAddedCapacitance(a, b, { addedF: 100e-12 }));

  it('a channel without a response in either recording, by its name', () => {
    const other = document([{ ...second.curves[1], quantity: 'phase' }, second.curves[0]]);
    const why = ['coil-inductance-heard: capacitance-no-response channel=right'];
    expect(ask(document([first.curves[0]]), second)).toEqual(why);
    expect(ask(first, other)).toEqual(why);
    expect(ask(document([]), second)).toHaveLength(2);
  });

  it('sweeps that do not both reach 10 kHz', () => {
    const short = (to: number) => document(both((hz) => responseDb(hz, { farad: 300e-12 }) + tipDb(hz), points(to)));
    const why = (channel: string) => `coil-inductance-heard: capacitance-short-sweep channel=${channel} topHz=10000`;
    expect(ask(first, short(9700))).toEqual([why('left'), why('right')]);
    expect(ask(first, short(10_200))).toEqual([]);
    expect(ask(document(both(responseDb, [100, 200])), second)).toEqual([why('left'), why('right')]);
  });

  it('a change of less than half a decibel, and one that no coil makes', () => {
    expect(ask(first, first)[0]).toBe('coil-inductance-heard: capacitance-changes-nothing channel=left db=0');
    const bent = (size: number) =>
      document(both((hz) => responseDb(hz) + size * Math.sin(4 * Math.log2(hz)) + tipDb(hz)));
    expect(ask(first, bent(0.2))[0]).toContain('capacitance-changes-nothing channel=left db=0.4');
    expect(ask(first, bent(3))).toEqual([
      'coil-inductance-heard: capacitance-no-fit channel=left',
      'coil-inductance-heard: capacitance-no-fit channel=right',
    ]);
  });

  it('a rest without a resonance near the top tells coil and load alone', () => {
    const plain = withAddedCapacitance(
      document(both((hz) => responseDb(hz))),
      document(both((hz) => responseDb(hz, { farad: 300e-12 }))),
      {
        addedF: 100e-12,
      },
    );
    expect(plain.findings.map(({ quantity }) => quantity)).not.toContain('tip-resonance');
    expect(plain.findings).toHaveLength(8);
  });
});
