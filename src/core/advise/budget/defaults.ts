/**
 * What is assumed of a record and of the chain where nothing better is known: the one table, listed in docs/methods/uncertainty.md. The record
 * file's `cut`, a learned record, or a reading against strobe or crystal replaces an entry. All are house guesses unless the
 * reason names a source.
 *
 * `size` is expanded, k = 2, of a normal distribution; the record's leak alone is the median of its size (see recordError.ts).
 */
import { type Statement, statement } from '../../words/statement.ts';

export interface Assumed {
  /** as a budget names it */
  readonly of: Statement;
  readonly size: number;
  readonly unit: string;
  readonly distribution: string;
  readonly reason: string;
}

export const ASSUMED = {
  recordLeak: {
    of: statement('record-leak'),
    size: -35,
    unit: 'dB',
    distribution: 'complex normal each way, its median size; the tilt of the cut is in it (tan 1° is −35 dB)',
    reason: 'house guess: half of all uncertified cuts leak less than a cut tilted by 1°',
  },
  recordTilt: {
    of: statement('record-tilt'),
    size: 0.5,
    unit: 'deg',
    distribution: 'normal, k = 2',
    reason: 'house guess: for a record file that states a tilt and no uncertainty of it',
  },
  recordSpeed: {
    of: statement('cut-speed'),
    size: 0.2,
    unit: '%',
    distribution: 'normal, k = 2',
    reason: 'house guess: a lathe set by strobe',
  },
  recordBalance: {
    of: statement('cut-balance'),
    size: 0.3,
    unit: 'dB',
    distribution: 'normal, k = 2, beside the 0.30 dB a degree that the tilt of the cut brings',
    reason: 'house guess: two cutting amplifiers set by meter',
  },
  recordVelocity: {
    of: statement('cut-velocity'),
    size: 1,
    unit: 'dB',
    distribution: 'normal, k = 2',
    reason: 'house guess: levels as sleeves state them',
  },
  recordZenith: {
    of: statement('cut-zenith'),
    size: 0.5,
    unit: 'deg',
    distribution: 'normal, k = 2',
    reason: 'house guess: a cutting stylus set by microscope',
  },
  recordVerticalAngle: {
    of: statement('cut-vertical-angle'),
    size: 3,
    unit: 'deg',
    distribution: 'normal, k = 2',
    reason: 'house guess: lacquer springs back by a few degrees',
  },
  recordSecondHarmonic: {
    of: statement('cut-second-harmonic'),
    size: 0.3,
    unit: '%',
    distribution: 'normal, k = 2',
    reason: 'house guess: a cutting head with feedback',
  },
  radius: {
    of: statement('band-radius'),
    size: 1,
    unit: 'mm',
    distribution: 'normal, k = 2',
    reason: 'house guess: a band measured with a rule',
  },
  unknownRadius: {
    of: statement('band-radius'),
    size: 30,
    unit: 'mm',
    distribution: 'normal, k = 2, about the middle of a side',
    reason: 'geometry: where no radius is stated, the tone lies somewhere on the side',
  },
  hole: {
    of: statement('record-hole-before'),
    size: 0.6,
    unit: 'mm',
    distribution: 'normal, k = 2, in a given direction',
    reason: 'house guess: three times what IEC 98:1987 allows, so that the recording has the word',
  },
  platter: {
    of: statement('platter-own'),
    size: 0.1,
    unit: '%',
    distribution: 'normal, k = 2, in a given phase of the rotation',
    reason: 'house guess: decks that would pass for good and some that would not',
  },
  warp: {
    of: statement('warp'),
    size: 0.025,
    unit: 'mm',
    distribution:
      'normal, k = 2, what it adds to the hole in a given direction, and along the groove twice a turn: its height zero to peak · that of the bearing over the record / the arm’s length',
    reason:
      'house guess: a record as it comes, up to 0.5 mm, under a bearing that lies 12 mm above it; `cut.warpMm` of a record file replaces the 0.5',
  },
  warpHeight: {
    of: statement('warp'),
    size: 0.5,
    unit: 'mm',
    distribution: 'none of 0 to this likelier than another, zero to peak, once per turn and as much twice',
    reason: 'house guess: records are sold with 1 mm from top to bottom, and played',
  },
  seating: {
    of: statement('hole-seating'),
    size: 0.1,
    unit: 'mm',
    distribution: 'normal, k = 2, from one seating to the next',
    reason: 'house guess: the play of a hole of 7.24 mm on a spindle of 7.1 mm',
  },
  toneStart: {
    of: statement('tone-start'),
    size: 0.06,
    unit: 's',
    distribution: 'normal, k = 2',
    reason: 'method: blocks in which the start of a tone is found',
  },
  equalisation: {
    of: statement('equalisation'),
    size: 0.2,
    unit: 'dB',
    distribution: 'normal, k = 2, between any two frequencies an octave or more apart',
    reason: 'house guess: parts of 1 % in the network',
  },
  cutResponse: {
    of: statement('cut-response'),
    size: 0.5,
    unit: 'dB',
    distribution: 'normal, k = 2, of a sweep or noise at any frequency against 1 kHz',
    reason: 'house guess: a cutting amplifier and its equaliser',
  },
  cutSlope: {
    of: statement('cut-slope'),
    size: 0.2,
    unit: 'dB/octave',
    distribution: 'normal, k = 2, of the level of a sweep over the octaves about the arm’s resonance',
    reason: 'house guess: a cutting amplifier near its lower end',
  },
  ringDown: {
    of: statement('ring-down-beside'),
    size: 1.25,
    unit: '%',
    distribution: 'normal, k = 2, of f₀; four times that of Q',
    reason:
      'house guess: of the lift’s own motion, the floor, and a stylus that slides before it settles, what two fits from different starts do not show',
  },
  excitation: {
    of: statement('arm-excitation'),
    size: 5,
    unit: '%',
    distribution: 'normal, k = 2, of f₀ by the speed, five times that of Q; by groove noise twice, and eight times',
    reason: 'house guess: what shakes the arm is no white noise, and falls by no single power of the frequency',
  },
  lowCorner: {
    of: statement('chain-low-corner'),
    size: 2,
    unit: 'Hz',
    distribution: 'bound: a chain that passes from 0 Hz up to one that is 3 dB down there, first order',
    reason: 'house guess: coupling capacitors and a converter’s own high pass',
  },
  clock: {
    of: statement('converter-clock'),
    size: 0.005,
    unit: '%',
    distribution: 'normal, k = 2',
    reason: 'common practice: crystals keep 50 parts in a million',
  },
  strobe: {
    of: statement('strobe-reading'),
    size: 0.1,
    unit: '%',
    distribution: 'normal, k = 2',
    reason: 'house guess: mains within 0.05 Hz, and a bar that creeps by less than its own width in ten seconds',
  },
  inwardPath: {
    of: statement('inward-path'),
    size: 0.012,
    unit: '%',
    distribution: 'bound: the tip reads slow by 0.007 ± 0.005 % for each 0.1 mm of groove pitch, not taken off',
    reason: 'geometry of a pivoted arm: pitch · tan θ / 2πr',
  },
} as const satisfies Record<string, Assumed>;
