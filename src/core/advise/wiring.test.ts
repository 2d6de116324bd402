import { describe, expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import type { Heard } from './wiring/circuits.ts';
import { correctWiring, type Lead, leads, type Pin, pins } from './wiring/leads.ts';
import { checkWiring, pinDrawing, usualMiswirings } from './wiring.ts';

/** Every way of putting four leads on four pins. */
function everyWay(): Record<Lead, Pin>[] {
  const ways: Record<Lead, Pin>[] = [];
  for (const white of pins)
    for (const blue of pins)
      for (const red of pins)
        for (const green of pins)
          if (new Set([white, blue, red, green]).size === 4) ways.push({ white, blue, red, green });
  return ways;
}

/**
 * The circuit solved node by node, knowing nothing of the checker: each coil a source behind 1 kΩ/10⁶, each input a
 * resistor; returns tied to ground, or only leaning on it through a very large resistance.
 */
function solve(wiring: Record<Lead, Pin>, tied: boolean, coil: 'left' | 'right'): { left: number; right: number } {
  const nodes = [...leads];
  const size = nodes.length;
  const conductance = Array.from({ length: size }, () => new Array<number>(size + 1).fill(0));
  const add = (a: number, b: number | null, g: number, current = 0) => {
    conductance[a][a] += g;
    if (b !== null) {
      conductance[b][b] += g;
      conductance[a][b] -= g;
      conductance[b][a] -= g;
      conductance[b][size] -= current;
    }
    conductance[a][size] += current;
  };
  const at = (pin: Pin) => nodes.findIndex((lead) => wiring[lead] === pin);
  const source = 1e3;
  add(at('left+'), at('left-'), source, coil === 'left' ? source : 0);
  add(at('right+'), at('right-'), source, coil === 'right' ? source : 0);
  add(0, 1, 1e-3);
  add(2, 3, 1e-3);
  // returns on ground, or a whisper of leakage so that the sum has one answer
  add(1, null, tied ? 1e9 : 1e-10);
  add(3, null, tied ? 1e9 : 1e-10);
  for (let i = 0; i < size; i++) {
    let pivot = i;
    for (let j = i; j < size; j++) if (Math.abs(conductance[j][i]) > Math.abs(conductance[pivot][i])) pivot = j;
    [conductance[i], conductance[pivot]] = [conductance[pivot], conductance[i]];
    for (let j = 0; j < size; j++) {
      if (j === i) continue;
      const factor = conductance[j][i] / conductance[i][i];
      for (let k = i; k <= size; k++) conductance[j][k] -= factor * conductance[i][k];
    }
  }
  const volts = conductance.map((row, i) => row[size] / row[i]);
  return { left: volts[0] - volts[1], right: volts[2] - volts[3] };
}

const heard = (value: Heard): { left: number; right: number } => {
  if (value === 'open') throw new Error('no circuit');
  return value;
};

describe('four leads on four pins', () => {
  test('the colours as they belong are correct and hear each channel alone', () => {
    const check = checkWiring(correctWiring);
    expect(check).toMatchObject({ correct: true, faults: [], moves: [] });
    expect(check.commonReturn).toEqual({ left: { left: 1, right: 0 }, right: { left: 0, right: 1 } });
    expect(check.separateReturns).toEqual(check.commonReturn);
  });

  test('all 24 ways: what each input hears is what the circuit gives, and only one way is correct', () => {
    const ways = everyWay();
    expect(ways).toHaveLength(24);
    for (const wiring of ways) {
      const check = checkWiring(wiring);
      for (const [tied, through] of [
        [true, check.commonReturn],
        [false, check.separateReturns],
      ] as const) {
        for (const coil of ['left', 'right'] as const) {
          const truth = solve(wiring, tied, coil);
          const where = `${JSON.stringify(wiring)} ${tied ? 'common' : 'separate'} ${coil}`;
          expect(Math.abs(heard(through.left)[coil] - truth.left), where).toBeLessThan(1e-3);
          expect(Math.abs(heard(through.right)[coil] - truth.right), where).toBeLessThan(1e-3);
        }
      }
      expect(check.correct).toBe(JSON.stringify(wiring) === JSON.stringify(correctWiring));
      expect(check.faults.length > 0).toBe(!check.correct);
    }
  });

  test('polarity and order that a fault promises are those of the circuit', () => {
    for (const wiring of everyWay()) {
      const { faults, commonReturn } = checkWiring(wiring);
      const names = faults.map((f) => f.name);
      if (names.includes('coil-between-inputs')) continue;
      const left = heard(commonReturn.left);
      const right = heard(commonReturn.right);
      const swapped = left.left === 0;
      const antiphase = (left.left + left.right) * (right.left + right.right) < 0;
      expect(names.includes('channels-swapped')).toBe(swapped);
      expect(names.includes('one-reversed')).toBe(antiphase);
      const promised = faults.flatMap((f) => f.shows).filter((s) => s.quantity === 'polarity');
      if (names.includes('one-reversed')) expect(promised.map((s) => say(s.reads))).toContain('antiphase');
    }
  });

  test('the four usual ones carry their own name alone, each with what it sounds and measures like', () => {
    expect(usualMiswirings).toHaveLength(4);
    for (const { name, wiring } of usualMiswirings) {
      const { faults, moves } = checkWiring(wiring);
      expect(faults.map((f) => f.name)).toEqual([name]);
      expect(say(faults[0].sounds).length).toBeGreaterThan(20);
      expect(say(faults[0].measures).length).toBeGreaterThan(20);
      expect(faults[0].shows.length).toBeGreaterThan(0);
      expect(moves.length).toBeGreaterThan(0);
    }
  });

  test('the moves make it right', () => {
    for (const wiring of everyWay()) {
      const mended: Record<Lead, Pin> = { ...wiring };
      for (const { lead, from, to } of checkWiring(wiring).moves) {
        expect(from).toBe(wiring[lead]);
        mended[lead] = to;
      }
      expect(checkWiring(mended).correct).toBe(true);
    }
  });

  test('a lead off and two on one pin are told first', () => {
    const off = checkWiring({ ...correctWiring, green: null });
    expect(off.faults.map((f) => f.name)).toEqual(['lead-off']);
    expect(off.commonReturn.right).toBe('open');
    expect(off.commonReturn.left).toEqual({ left: 1, right: 0 });
    const doubled = checkWiring({ ...correctWiring, green: 'left-' });
    expect(doubled.faults.map((f) => f.name)).toEqual(['two-on-one-pin']);
    expect(doubled.faults[0].leads).toEqual(['blue', 'green']);
    expect(() => checkWiring({ ...correctWiring, green: 'middle' as Pin })).toThrow(/green lead is on 'middle'/);
  });

  test('the drawing has every pin once, under its own lead', () => {
    expect(pinDrawing.places.map((place) => place.pin).sort()).toEqual([...pins].sort());
    for (const { pin, lead } of pinDrawing.places) expect(correctWiring[lead]).toBe(pin);
  });
});
