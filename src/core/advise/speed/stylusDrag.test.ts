import { describe, expect, it } from 'vitest';
import type { Finding } from '../../measure/finding.ts';
import type { Band } from '../../record/band.ts';
import { chainOf } from '../budget/bench.ts';
import { dragCurves, dragFigure } from './stylusDrag.ts';

const speed = (value: number | string, uncertainty: number | null = 0.2): Finding => ({
  quantity: 'speed-error',
  value,
  unit: '%',
  uncertainty,
  bands: [1, 2],
  notes: [],
});
const up = (percent: number, uncertainty = 0.03) => ({ strobeUp: { percent, uncertainty } });

describe('how much the deck slows with the tip down', () => {
  it('by the tone: its doubt of the record comes with it', () => {
    const [drag, ...more] = dragFigure(speed(-0.05), chainOf(up(0.1)));
    expect(more).toEqual([]);
    expect(drag).toEqual({
      quantity: 'stylus-drag',
      value: expect.closeTo(0.15, 9),
      unit: '%',
      uncertainty: expect.closeTo(Math.hypot(0.03, 0.2), 9),
      repeatability: expect.closeTo(Math.hypot(0.03, 0.2), 9),
      budget: [
        expect.objectContaining({ of: { code: 'speed-by-tone', values: {} }, size: 0.2, unit: '%' }),
        expect.objectContaining({ of: { code: 'strobe-reading', values: {} }, size: 0.03, unit: '%' }),
      ],
      bands: [1, 2],
      notes: [{ code: 'drag-by-tone', values: {} }],
    });
    expect(dragFigure(speed(0.1, null), chainOf(up(0.1)))[0].uncertainty).toBeCloseTo(0.03, 9);
  });

  it('both by strobe: the tone has no part in it', () => {
    const [drag] = dragFigure(speed(5), chainOf({ ...up(0.1), strobe: { percent: -0.2, uncertainty: 0.04 } }));
    expect(drag).toMatchObject({ value: expect.closeTo(0.3, 9), uncertainty: expect.closeTo(0.05, 9), bands: [] });
    expect(drag.budget?.map(({ of, size }) => [of.code, size])).toEqual([
      ['strobe-reading', 0.04],
      ['strobe-reading', 0.03],
    ]);
    expect(drag.notes.map(({ code }) => code)).toEqual(['drag-by-strobe', 'drag-do']);
  });

  it('a drive is called weak from 0.1 % on, by more than all doubt, and never for running faster', () => {
    const codes = (down: number) =>
      dragFigure(speed(0), chainOf({ ...up(0), strobe: { percent: -down, uncertainty: 0.04 } }))[0].notes.map(
        ({ code }) => code,
      );
    expect(codes(0.151)).toEqual(['drag-by-strobe', 'drag-do']);
    expect(codes(0.149)).toEqual(['drag-by-strobe']);
    expect(codes(-0.3)).toEqual(['drag-by-strobe']);
  });

  it('is none without a reading with the tip up, or without a speed', () => {
    expect(dragFigure(speed(0), chainOf({ strobe: { percent: 0 } }))).toEqual([]);
    expect(dragFigure(undefined, chainOf(up(0)))).toEqual([]);
    expect(dragFigure(speed('unknown'), chainOf(up(0)))).toEqual([]);
  });
});

describe('its picture', () => {
  const bands = [
    { startS: 30, endS: 60 },
    { startS: 5, endS: 90 },
    { startS: 70, endS: 80 },
  ] as Band[];

  it('both speeds, from the first band’s start to the last one’s end', () => {
    const chain = chainOf(up(0.1));
    const [drag] = dragFigure(speed(-0.05), chain);
    const line = (name: string, percent: number) => ({
      quantity: 'stylus-drag',
      name,
      x: [5, 90],
      y: [expect.closeTo(percent, 9), expect.closeTo(percent, 9)],
      xUnit: 's',
      yUnit: '%',
    });
    expect(dragCurves(drag, chain, bands)).toEqual([line('tip up', 0.1), line('tip down', -0.05)]);
  });

  it('is none where there is nothing to draw', () => {
    const chain = chainOf(up(0.1));
    const [drag] = dragFigure(speed(0), chain);
    expect(dragCurves(undefined, chain, bands)).toEqual([]);
    expect(dragCurves({ ...drag, value: 'x' }, chain, bands)).toEqual([]);
    expect(dragCurves(drag, chainOf(), bands)).toEqual([]);
    expect(dragCurves(drag, chain, [])).toEqual([]);
  });
});
