/** Findings of a side → what to do about them. */
import type { Finding } from '../measure/finding.ts';
import {
  type Complex,
  type ComplexLeaks,
  predictAfterTurn,
  tiltFromLeaks,
  tiltOfEqualSeparations,
} from '../measure/tilt.ts';
import type { Band } from '../record/band.ts';
import { degToRad, radToDeg, ratioToDb } from '../units/units.ts';
import type { Advice, Prediction } from './document.ts';
import { equalSeparationsHideTilt, separationsOf } from './leaks.ts';
import { DEFAULT_LIMITS, type Limits } from './limits.ts';
import { leaveTilt, predictSeparations, turnAdvice } from './turn.ts';

const WIRING_CAUTION =
  'Mute or switch the amplifier off before touching cartridge leads; stylus guard on; pull clips with tweezers by the ' +
  'clip, never by the wire; keep levels low when first unmuting.';

const find = (findings: readonly Finding[], quantity: string) => findings.find((f) => f.quantity === quantity);
const numberOf = (finding: Finding | undefined) => (typeof finding?.value === 'number' ? finding.value : null);

const abs1plus = ({ re, im }: Complex): number => Math.hypot(1 + re, im);

/**
 * Channel balance after the turn. A lateral tone drives both channels alike, so each also hears the other's leak: left comes
 * out as 1 + c_RL and right as 1 + c_LR, with the gains removed, and the turn changes both.
 *
 * @param nowDb balance on the lateral tone as captured, dB, left over right
 */
function balanceAfter(nowDb: number, now: ComplexLeaks, after: ComplexLeaks): Prediction {
  const share = (leaks: ComplexLeaks): number => abs1plus(leaks.rightIntoLeft) / abs1plus(leaks.leftIntoRight);
  return { quantity: 'channel-balance', value: nowDb + ratioToDb(share(after) / share(now)), unit: 'dB' };
}

/**
 * @param tilt azimuth error, deg, clockwise positive, k = 2 uncertainty
 * @param leaks complex leaks, gains removed
 * @param balanceDb left over right on a lateral tone; null where there is none
 * @param orderKnown whether a sheet has told that left comes out left
 */
function adviseTilt(
  tilt: Finding,
  leaks: ComplexLeaks | null,
  limits: Limits,
  balanceDb: number | null,
  orderKnown: boolean,
): Advice[] {
  const angle = numberOf(tilt);
  if (angle === null) return [];
  const uncertainty = tilt.uncertainty;
  const worth = Math.max(limits['azimuth-error']?.good ?? 0, uncertainty ?? 0);
  if (Math.abs(angle) <= worth) {
    return [leaveTilt(worth)];
  }
  const more: string[] = [];
  if (leaks !== null) {
    if (equalSeparationsHideTilt(leaks, degToRad(worth))) {
      more.push(
        'Both separations read alike, and yet the cartridge is tilted: the two leaks have opposite signs, which a meter ' +
          'without phase cannot show. Trust the angle, not the equal readings.',
      );
    }
    const equal = tiltOfEqualSeparations(leaks);
    if (equal.found) {
      const other = radToDeg(equal.tilt);
      if (Math.abs(other - angle) > Math.max(0.1, uncertainty ?? 0)) {
        more.push(
          `Setting for equal separations instead would put the tilt at ${signed(other)}°: the cartridge itself is not symmetrical.`,
        );
      }
    }
  }
  if (!orderKnown) {
    more.push('This takes left to come out left: were the channels swapped, the turn would go the other way.');
  }
  const predicts: Prediction[] = [];
  if (leaks !== null) {
    const after = predictAfterTurn(leaks, tiltFromLeaks(leaks));
    predicts.push(...predictSeparations(separationsOf(after)));
    if (balanceDb !== null) predicts.push(balanceAfter(balanceDb, leaks, after));
  }
  return [turnAdvice(angle, uncertainty, predicts, more.join(' '))];
}

function adviseWiring(findings: readonly Finding[]): Advice[] {
  const advice: Advice[] = [];
  const wiring = (action: string, why: string): void => {
    advice.push({ action, amount: null, unit: '', direction: null, predicts: [], why, caution: WIRING_CAUTION });
  };
  if (find(findings, 'polarity')?.value === 'antiphase') {
    wiring(
      'reverse-one-channel',
      'One channel is reversed: a lateral tone comes out in antiphase. Exchange the two leads of one channel (white with blue, ' +
        'or red with green) at the cartridge, or look for the fault further down the chain.',
    );
  }
  if (find(findings, 'channel-order')?.value === 'swapped') {
    wiring(
      'swap-channels',
      'Left comes out right: exchange the left pair (white, blue) with the right pair (red, green), or the two plugs at the preamp.',
    );
  }
  return advice;
}

function adviseSpeed(findings: readonly Finding[], limits: Limits): Advice[] {
  const speed = find(findings, 'speed-error');
  const value = numberOf(speed);
  if (speed === undefined || value === null || Math.abs(value) <= (limits['speed-error']?.good ?? 0)) return [];
  const wrongSpeed = Math.abs(value) > 8;
  return [
    {
      action: 'speed',
      amount: Math.abs(value),
      unit: '%',
      uncertainty: speed.uncertainty,
      direction: value > 0 ? 'slower' : 'faster',
      predicts: [{ quantity: 'speed-error', value: 0, unit: '%' }],
      why: wrongSpeed
        ? `The record turns ${Math.abs(value).toFixed(1)} % too ${value > 0 ? 'fast' : 'slow'}: check that the deck is switched to the record's speed.`
        : `The record turns ${Math.abs(value).toFixed(2)} % too ${value > 0 ? 'fast' : 'slow'}: set the deck ${value > 0 ? 'slower' : 'faster'} by as much.`,
      caution:
        "Trimming may sit inside the deck: disconnect it from the mains before opening anything, and leave mains wiring to a licensed technician under local codes. Follow the maker's manual.",
    },
  ];
}

const signed = (deg: number) => `${deg < 0 ? '−' : '+'}${Math.abs(deg).toFixed(2)}`;

/** Whether the balance was read on a tone that drives both channels; from the one-sided tones it holds no leak. */
function lateralBalance(findings: readonly Finding[], bands: readonly Pick<Band, 'index' | 'motion'>[]): number | null {
  const balance = find(findings, 'channel-balance');
  const oneSided = bands.some(
    ({ index, motion }) => (motion === 'left' || motion === 'right') && balance?.bands.includes(index),
  );
  return oneSided ? null : numberOf(balance);
}

/**
 * All advice for a side, wiring first: a reversed channel is put right before anything is turned.
 * @param bands of the side, as far as the findings rest on them
 */
export function adviseSide(
  findings: readonly Finding[],
  leaks: ComplexLeaks | null,
  limits: Limits = DEFAULT_LIMITS,
  bands: readonly Pick<Band, 'index' | 'motion'>[] = [],
): Advice[] {
  const tilt = find(findings, 'azimuth-error');
  return [
    ...adviseWiring(findings),
    ...(tilt === undefined
      ? []
      : adviseTilt(
          tilt,
          leaks,
          limits,
          lateralBalance(findings, bands),
          find(findings, 'channel-order') !== undefined,
        )),
    ...adviseSpeed(findings, limits),
  ];
}
