/** What the pages of version 0.1.0 left at each station of a job, every key of theirs in use. */
import { demoParts } from '../../src/core/job/demoParts.ts';
import type { StationName } from '../../src/core/job/station.ts';

const at = '2026-03-04T09:30:00.000Z';
const forReport = [{ label: 'As it was told', text: '17.7 ± 0.2 mN' }];
const figure = { value: 16.3, uncertainty: 0.3 };
const stands = {
  overhangMm: figure,
  offsetDeg: { value: 22.9, uncertainty: null },
  nullPointsMm: [figure, { value: 120.9, uncertainty: 1.1 }],
  peakPercent: { value: 0.72, uncertainty: 0.13, low: 0.62, high: 0.88 },
};
const reading = { kind: 'miss', inner: { radius: '66', along: '-1,2', across: '0', twist: '0.2' }, withinMm: '0.3' };
const part = (kind: string) => demoParts.find((one) => one.kind === kind);

export const written010: Readonly<Record<StationName, Record<string, unknown>>> = {
  intake: {
    cartridge: 'bench moving magnet',
    stylusHours: '900',
    checked: ['guard', 'tip', 'hours'],
    faults: 'Tip worn flat on one side.',
    notes: 'came in for a stylus',
    forReport,
  },
  match: {
    parts: {
      arm: { id: 'a-1', revision: 3, part: part('arm') },
      cartridge: { id: null, revision: 0, part: part('cartridge') },
      deck: null,
    },
    typed: { effectiveMassG: '11,5', trackingForceMn: '1.9 g' },
    typical: { effectiveMassG: 'medium arm' },
    said: { complianceAt: '10hz', principle: '', effectiveMassIs: 'bare' },
    over: 'resistance',
    forReport,
  },
  fit: {
    leads: { white: 'left+', blue: 'left-', red: null },
    pinsLie: 'sides',
    stack: { headshell: '2,5', pitch: '0.45' },
    mounting: '',
    massBy: 'reckoned',
    weighed: '1,4',
    scale: '0.05',
    set: { material: 'brass', screws: '2', screwLength: '8', spacerG: '0.3' },
    hardware: { massG: 0.61, uncertaintyG: null, by: 'reckoned' },
    steps: ['unplug', 'lock-arm'],
    forReport,
  },
  weigh: {
    forceUnit: 'mN',
    facts: { cartridgeMassG: '6.5', trackingForceMinMn: '15 mN', pivotAboveTipMm: '18' },
    floatsAt: '41',
    ticked: ['float'],
    temperature: '22',
    target: '18',
    gauge: {
      reading: '1.82',
      height: '2',
      digit: '0.01',
      effect: 'two-readings',
      secondReading: '1.8',
      secondHeight: '4',
    },
    masses: [{ mass: '2', within: '0.002', reading: '2.04' }],
    dial: '1.8 g',
    readUnder: '',
    movedHere: null,
    skating: {
      friction: '0.3',
      inner: '60',
      device: 'notched-lever',
      lever: '12',
      weight: '2',
      notches: '3',
      dialFriction: '',
    },
    sets: [
      { at, by: 'gauge', mn: 17.7, uncertaintyMn: 0.2, targetMn: 18, dialMn: 17.7, calibrated: true, left: false },
      { at, by: 'dial', mn: 18, uncertaintyMn: null, targetMn: 18, dialMn: 18, calibrated: false, left: true },
    ],
    skatingSet: { at, says: 'second notch' },
    forReport,
  },
  place: {
    arm: {
      known: 'spindle-to-pivot',
      spindleToPivot: '222',
      movable: 'both',
      elsewhere: false,
      grooves: 'iec',
      criterion: 'stevenson',
      speed: '33',
    },
    read: { ...reading, outer: { radius: '120.9' }, sheetFor: 'printed', sheetPivot: '222' },
    sheet: {
      style: 'arc',
      paper: 'a4',
      madeAcross: '99,2',
      mains: '50',
      drawnArc: { spindleToPivotMm: 222, effectiveLengthMm: 239.3, nullPointsMm: [66, 120.9] },
    },
    moves: [
      {
        at,
        slideMm: 1.2,
        twistDeg: null,
        before: stands,
        predicted: { ...stands, peakPercent: null },
        reading,
        read: null,
      },
    ],
    forReport,
  },
  height: {
    facts: { movingMassG: '215' },
    rise: '2',
    thickness: '1,5',
    other: '2.5',
    mark: 'third ring',
    slackDown: '3',
    slackUp: '4',
    sets: [{ at, riseMm: 2, thicknessMm: 1.5, mark: 'third ring', left: false }],
    forReport,
  },
  tilt: {
    meter: {
      way: 'several',
      leftToRight: '28',
      uncertainty: '0.3',
      leftOnLeft: '4.1',
      rows: [{ tilt: '-1', leftToRight: '26', rightToLeft: '31' }],
    },
    notes: 'two passes',
  },
  run: { notes: 'third pass' },
  'hand-over': { notes: 'next check in a year' },
};
