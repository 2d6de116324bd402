import { describe, expect, it } from 'vitest';
import { predictAfterTurn } from '../measure/tilt.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { recordError } from './budget/recordError.ts';
import { SET_BY_EYE, turnWorth, verdictOfWorth } from './turnWorth.ts';

const quiet = { re: 1e-9, im: 1e-9 };
const doubtOf = (cut?: Parameters<typeof recordError>[0]) => ({
  ...recordError(cut).leakDoubt,
  noise: { leftIntoRight: quiet, rightIntoLeft: quiet },
});
const uncertified = doubtOf();
const mapped = ({ tilt, common, quadrature }: ReturnType<typeof doubtOf>, by: number) => ({
  tilt: by * tilt,
  common: by * common,
  quadrature: by * quadrature,
});
const certified = doubtOf({ tiltDeg: 0, tiltUncertaintyDeg: 0.2, separationDb: 45 });
/** leaks of a cartridge tilted by so many degrees clockwise, with a common in-phase leak */
const tilted = (deg: number, common = 0.015) =>
  predictAfterTurn(
    { leftIntoRight: { re: common, im: 0.01 }, rightIntoLeft: { re: common, im: -0.01 } },
    -degToRad(deg),
  );

describe('what a turn is worth', () => {
  it('turns a clear tilt back its own way, and not by more than is heard', () => {
    for (const deg of [2, -2]) {
      const worth = turnWorth(tilted(deg), certified);
      expect(worth.action).toBe('tilt');
      expect(Math.sign(worth.turn)).toBe(Math.sign(deg));
      expect(Math.abs(radToDeg(worth.turn))).toBeGreaterThan(1.2);
      expect(Math.abs(radToDeg(worth.turn))).toBeLessThan(2.2);
      expect(worth.expectedGainDb).toBeGreaterThan(3);
      expect(worth.harmProbability).toBeLessThanOrEqual(0.02);
      expect(verdictOfWorth(worth)).toBe('adjust');
    }
  });

  it('half a degree heard from an uncertified record is no turn; nothing decides it but a better record', () => {
    const worth = turnWorth(tilted(-0.5), uncertified);
    expect(worth.action).not.toBe('tilt');
    expect(verdictOfWorth(worth)).toBe('undecided');
    expect(worth.action === 'leave-tilt' ? worth.turn : 0).toBe(0);
  });

  it('an upright cartridge on a certified record is good', () => {
    const worth = turnWorth(tilted(0), certified);
    expect(worth.action).toBe('leave-tilt');
    expect(verdictOfWorth(worth)).toBe('good');
  });

  it('a less certain record never promises more', () => {
    const [sure, unsure] = [turnWorth(tilted(1.5), certified), turnWorth(tilted(1.5), uncertified)];
    expect(unsure.expectedGainDb).toBeLessThan(sure.expectedGainDb);
    expect(Math.abs(unsure.tilt)).toBeLessThan(Math.abs(sure.tilt));
    expect(unsure.tiltSpread).toBeGreaterThan(sure.tiltSpread);
  });

  it('a turn must hold on a record 3 dB worse than it is taken for; else it is a trial of the same decks', () => {
    const twice = { ...uncertified, ...mapped(uncertified, 2) };
    const half = { ...uncertified, ...mapped(uncertified, 0.5) };
    // the heard leak that makes a turn on this record, and would not if the record were that much worse again
    const atEdge = [1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75, 3].map((deg) => ({
      half: turnWorth(tilted(deg), half).action,
      one: turnWorth(tilted(deg), uncertified).action,
      twice: turnWorth(tilted(deg), twice).action,
    }));
    const turns = (key: 'half' | 'one' | 'twice') => atEdge.filter((of) => of[key] === 'tilt').length;
    expect(turns('half')).toBeGreaterThan(turns('one'));
    expect(turns('one')).toBeGreaterThanOrEqual(turns('twice'));
    // what is no turn for doubt alone stays a trial
    expect(atEdge.filter(({ half: h, one }) => h === 'tilt' && one !== 'tilt').map(({ one }) => one)).toContain(
      'trial-tilt',
    );
  });

  it('a body set by mirror is believed to stand nearer to upright', () => {
    const byMirror = turnWorth(tilted(1.5), uncertified, { ...SET_BY_EYE, bodyTilt: degToRad(0.5) });
    expect(Math.abs(byMirror.tilt)).toBeLessThan(Math.abs(turnWorth(tilted(1.5), uncertified).tilt));
  });
});
