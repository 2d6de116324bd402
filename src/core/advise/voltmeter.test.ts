import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degToRad, radToDeg, ratioToDb } from '../units/units.ts';
import { say } from '../words/statement.ts';
import { meterDocument } from './meterDocument.ts';
import { ReadingsError, readingsFromCsv } from './readingsCsv.ts';
import { type ReadingAtTilt, tiltFromReadings, tiltFromTwoReadings } from './voltmeter.ts';

/** Readings of a cartridge with leaks a and b (complex, scale at zero) at the given tilts. */
function readings(a: [number, number], b: [number, number], tilts: number[], scale = 1): ReadingAtTilt[] {
  return tilts.map((tiltDeg) => {
    const t = scale * degToRad(tiltDeg);
    return {
      tiltDeg,
      leftToRightDb: -ratioToDb(Math.hypot(a[0] - t, a[1])),
      rightToLeftDb: -ratioToDb(Math.hypot(b[0] + t, b[1])),
    };
  });
}

describe('tilt from one pair of readings', () => {
  it('28 dB left into right and 24 dB right into left become 25.8 dB both ways (common practice)', () => {
    const answer = tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24 });
    expect(answer.predictedLeftToRightDb).toBeCloseTo(25.8, 1);
    expect(answer.predictedRightToLeftDb).toBe(answer.predictedLeftToRightDb);
    // common practice too: 25 and 26 dB were read after such a move; their mean is the prediction to 0.3 dB
    expect(Math.abs(answer.predictedLeftToRightDb - (25 + 26) / 2)).toBeLessThan(0.35);
    expect(answer.angleDeg).toBeCloseTo(0.667, 3);
    const [move] = meterDocument(answer).advice;
    expect(move.direction).toBe('anticlockwise-from-front');
    expect(move.why).toContain('of shim between headshell and cartridge');
  });

  it('turns the other way when the readings change places, and nowhere when they are equal', () => {
    expect(tiltFromTwoReadings({ leftToRightDb: 24, rightToLeftDb: 28 }).angleDeg).toBeCloseTo(-0.667, 3);
    expect(tiltFromTwoReadings({ leftToRightDb: 26, rightToLeftDb: 26 }).angleDeg).toBe(0);
  });

  it('advises to leave a tilt that is not worth a turn, with the assumption still stated', () => {
    const [move] = meterDocument(tiltFromTwoReadings({ leftToRightDb: 26, rightToLeftDb: 26 })).advice;
    expect(move).toMatchObject({ action: 'leave-tilt', amount: null, direction: null });
    expect(move.why).toContain('equal readings alone prove nothing');
    expect(move.why).not.toContain('shim');
  });

  it('states its assumption', () => {
    expect(say(tiltFromTwoReadings({ leftToRightDb: 26, rightToLeftDb: 26 }).assumption)).toContain(
      'equal readings alone prove nothing',
    );
  });

  it('refuses a reading out of bounds, naming it', () => {
    expect(() => tiltFromTwoReadings({ leftToRightDb: -28, rightToLeftDb: 24 })).toThrow(/left into right is -28/);
    expect(() => tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: Number.NaN })).toThrow(
      /right into left is NaN/,
    );
  });
});

describe('tilt from readings at several tilts', () => {
  it('finds the setting where the total leak is least, without any assumption on phase (seed 21)', () => {
    const part = fc.double({ min: -0.04, max: 0.04, noNaN: true });
    fc.assert(
      fc.property(part, part, part, part, fc.double({ min: 0.9, max: 1.1, noNaN: true }), (a, ai, b, bi, scale) => {
        const rows = readings([a, 0.02 + Math.abs(ai)], [b, 0.02 + Math.abs(bi)], [-3, -1, 1, 3], scale);
        const answer = tiltFromReadings(rows);
        expect(answer.found).toBe(true);
        if (!answer.found) return;
        const best = (a - b) / 2 / scale;
        expect(degToRad(answer.bestTiltDeg ?? Number.NaN)).toBeCloseTo(best, 6);
        expect(answer.scale).toBeCloseTo(scale, 6);
        // of the tip, whatever the person's degrees are
        expect(answer.angleDeg).toBeCloseTo(radToDeg((b - a) / 2), 4);
      }),
      { seed: 21 },
    );
  });

  it('sees the tilt that equal readings hide', () => {
    const t = Math.tan(degToRad(2));
    const answer = tiltFromReadings(readings([-t, 0.005], [t, 0.005], [-1, 0, 1]));
    expect(answer.found && answer.angleDeg).toBeCloseTo(2, 2);
  });

  it('covers the truth in 90 to 99 % of noisy sets (200 seeds)', () => {
    let inside = 0;
    let bias = 0;
    for (let seed = 1; seed <= 200; seed++) {
      let state = seed;
      const uniform = () => {
        state = (state * 1664525 + 1013904223) % 4294967296;
        return (state + 0.5) / 4294967296;
      };
      const gauss = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
      for (let i = 0; i < 8; i++) uniform();
      const best = 0.8 * gauss();
      const a: [number, number] = [0.02 + degToRad(best), 0.012];
      const b: [number, number] = [0.02 - degToRad(best), 0.015];
      const rows = readings(a, b, [-2, -1, 0, 1, 2]).map((row) => ({
        ...row,
        leftToRightDb: row.leftToRightDb + 0.15 * gauss(),
        rightToLeftDb: row.rightToLeftDb + 0.15 * gauss(),
      }));
      const answer = tiltFromReadings(rows, 0.3);
      if (!answer.found) continue;
      const error = (answer.bestTiltDeg ?? Number.NaN) - best;
      bias += error / 200;
      if (Math.abs(error) <= answer.uncertaintyDeg) inside++;
    }
    console.log(`tilt from five noisy readings: bias ${bias.toFixed(4)}°, truth inside k = 2 in ${inside / 2} %`);
    expect(inside).toBeGreaterThanOrEqual(180);
    expect(inside).toBeLessThanOrEqual(198);
    expect(Math.abs(bias)).toBeLessThan(0.01);
  });

  it('where the zero of the scale is right it says so, and the way there from the last reading', () => {
    const answer = tiltFromReadings(readings([0.02, 0.01], [0.02, -0.01], [-2, 0, 2]));
    if (!answer.found) throw new Error(answer.why.code);
    const [move] = meterDocument(answer).advice;
    expect(move.action).toBe('leave-tilt');
    expect(move.why).toContain('From the last reading, at +2.00°, that is 2.00° of your scale anticlockwise.');
  });

  it('says why where the readings fix nothing', () => {
    expect(tiltFromReadings(readings([0.02, 0], [0.02, 0], [1, 1, 1]))).toMatchObject({ found: false });
    const flat = [-1, 0, 1].map((tiltDeg) => ({ tiltDeg, leftToRightDb: 25, rightToLeftDb: 25 }));
    expect(tiltFromReadings(flat)).toMatchObject({ found: false });
  });
});

describe('the table of readings', () => {
  it('reads commas, semicolons with decimal commas, any order of columns', () => {
    const expected = [{ tiltDeg: -1.5, leftToRightDb: 28, rightToLeftDb: 24.5 }];
    expect(readingsFromCsv('tilt_deg,left_to_right_db,right_to_left_db\r\n-1.5,28,24.5\n')).toEqual(expected);
    expect(readingsFromCsv('\uFEFFright_to_left_db;tilt_deg;left_to_right_db\n24,5;-1,5;28\n')).toEqual(expected);
  });

  it('reads what spreadsheets make of it: quotation marks, units, a true minus, empty rows, headings in words', () => {
    const expected = [{ tiltDeg: -1.5, leftToRightDb: 28, rightToLeftDb: 24.5 }];
    for (const csv of [
      '"tilt_deg","left_to_right_db","right_to_left_db"\n"-1,5","28,0","24,5"\n',
      'Tilt (deg);Left to right dB;Right to left dB;\n−1,5°;28 dB;24,5 dB;\n;;;\n',
      'tilt_deg\tleft_to_right_db\tright_to_left_db\r\r-1,5\t28\t24,5',
    ]) {
      expect(readingsFromCsv(csv), csv).toEqual(expected);
    }
  });

  it('refuses decimal commas between commas, which would shift the columns and still be numbers', () => {
    expect(() => readingsFromCsv('tilt_deg,left_to_right_db,right_to_left_db\n0,5,28,2,24,1')).toThrow(
      'line 2: 6 values where the header names 3 columns',
    );
  });

  it('300,000 rows are refused in one sentence, 10,000 are read', () => {
    const rows = (count: number) =>
      `tilt_deg,left_to_right_db,right_to_left_db\n${Array.from({ length: count }, (_, i) => `${((i % 401) - 200) / 100},26,26\n`).join('')}`;
    expect(() => readingsFromCsv(rows(300_000))).toThrow('300000 rows; at most 10000 readings were expected');
    expect(tiltFromReadings(readingsFromCsv(rows(10_000)))).toMatchObject({ found: false });
  });

  it('names the line and the column of what cannot be read', () => {
    const header = 'tilt_deg\tleft_to_right_db\tright_to_left_db\n';
    expect(() => readingsFromCsv(`${header}\t28\t24`)).toThrow('line 2: nothing in column tilt_deg');
    expect(() => readingsFromCsv('tilt_deg,left_to_right_db,right_to_left_db\n0,28,x')).toThrow(
      "line 2: 'x' in column right_to_left_db; a number was expected",
    );
    expect(() => readingsFromCsv('tilt,left\n0,1')).toThrow(ReadingsError);
    expect(() => readingsFromCsv('')).toThrow(ReadingsError);
  });
});

it('what a reading’s ± makes of the tilt, k = 2 as the reading’s own', () => {
  // t = (|c_RL| − |c_LR|)/2: each leak is known to ±0.3 dB, 3.5 % of itself
  const { readingDeg } = tiltFromTwoReadings({ leftToRightDb: 26, rightToLeftDb: 26, readingUncertaintyDb: 0.3 });
  const leak = 10 ** (-26 / 20);
  const each = leak * (10 ** (0.3 / 20) - 1);
  expect(degToRad(readingDeg)).toBeCloseTo(Math.hypot(each, each) / 2, 4);
  expect(readingDeg).toBeCloseTo(0.0703, 3);
});
