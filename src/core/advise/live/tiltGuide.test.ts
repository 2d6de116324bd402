import { describe, expect, it } from 'vitest';
import { guidePitchHz, soundGuideRefused } from './soundGuide.ts';
import { guideTilt, type SettledTilt } from './tiltGuide.ts';

let played = 0;
/** on bands of its own where none are named */
const reading = (
  tiltDeg: number,
  inside: boolean,
  spreadDeg: number | null = 0.05,
  bands: readonly string[] = [`${++played} left`, `${played} right`],
): SettledTilt => ({
  bands,
  tiltDeg,
  // the record hides more than the signal does: the hand need not wait for that
  uncertaintyDeg: 1.3,
  spreadDeg,
  inside,
  turnDeg: inside ? 0 : -tiltDeg,
  predicts: [],
});
const off = reading(0.8, false);
const near = reading(0.05, true);

describe('the guide at Tilt', () => {
  it('waits for both bands, then for the reading to settle', () => {
    expect(guideTilt(null, []).state).toBe('waiting');
    expect(guideTilt(reading(0.8, false, 0.9), []).state).toBe('settling');
    expect(guideTilt(reading(0.8, false, null), []).state).toBe('settling');
  });

  it('says which way and how far', () => {
    expect(guideTilt(off, []).says).toEqual({ code: 'guide-turn', values: { way: 'anticlockwise', by: 0.8 } });
    expect(guideTilt(reading(-0.6, false), [near]).says.values.way).toBe('clockwise');
  });

  it('is content when two settled readings in a row are inside, not with one, nor with one between others', () => {
    expect(guideTilt(near, [off]).state).toBe('good-once');
    expect(guideTilt(near, [off, near]).state).toBe('good-once');
    expect(guideTilt(near, [off, near, reading(0.02, true)]).state).toBe('good-enough');
    expect(guideTilt(null, [near, off, near]).state).toBe('good-once');
    expect(guideTilt(off, [near, reading(0.02, true)]).state).toBe('turn');
  });

  it('counts a band once: left, right, left again are two readings on one right band', () => {
    const first = reading(0.05, true, 0.05, ['left 1', 'right 1']);
    const second = reading(0.04, true, 0.05, ['right 1', 'left 2']);
    const third = reading(0.06, true, 0.05, ['left 2', 'right 2']);
    expect(guideTilt(second, [first, second]).state).toBe('good-once');
    // the third shares no band with the first
    expect(guideTilt(third, [first, second, third]).state).toBe('good-enough');
    expect(guideTilt(third, [first, off, third]).state).toBe('good-once');
  });
});

describe('the guide by ear', () => {
  it('falls as the tilt nears its aim, from either side', () => {
    const pitches = [3, 2, 1, 0.5, 0.1, 0].map(guidePitchHz);
    expect(pitches).toEqual(pitches.toSorted((a, b) => b - a));
    expect(guidePitchHz(-0.5)).toBe(guidePitchHz(0.5));
    expect([pitches[0], pitches[5]]).toEqual([880, 220]);
  });

  it('stays silent on an output that is, or may be, the device of the input', () => {
    const input = { deviceId: 'in', groupId: 'box' };
    expect(soundGuideRefused({ deviceId: 'out', groupId: 'box' }, input)?.code).toBe('sound-guide-same-device');
    expect(soundGuideRefused({ deviceId: 'default', groupId: 'other' }, input)?.code).toBe(
      'sound-guide-unknown-device',
    );
    expect(soundGuideRefused({ deviceId: 'out', groupId: '' }, input)?.code).toBe('sound-guide-unknown-device');
    expect(soundGuideRefused(undefined, input)?.code).toBe('sound-guide-unknown-device');
    expect(soundGuideRefused({ deviceId: 'out', groupId: 'phones' }, input)).toBeNull();
  });
});
