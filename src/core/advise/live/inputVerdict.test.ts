import { describe, expect, it } from 'vitest';
import { told } from '../told.fixture.ts';
import { inputVerdict, levelVerdict, settingsVerdict } from './inputVerdict.ts';

const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };

describe('what was asked of an input, read back', () => {
  const of = (...ask: Parameters<typeof settingsVerdict>) => {
    const { refused, notes } = settingsVerdict(...ask);
    return [refused === null ? null : told(refused), ...notes.map((one) => told(one))];
  };

  it('an input without processing is taken; its clock is its own', () => {
    expect(of({ ...plain, channelCount: 2, sampleRate: 48_000 }, 48_000, 48_000)).toEqual([null, 'input-clock']);
    expect(of(plain, 96_000)).toEqual([null, 'input-clock']);
  });

  it.each([
    [{ ...plain, echoCancellation: true }, 'echo cancellation'],
    [{ ...plain, echoCancellation: 'remote-only' }, 'echo cancellation'],
    [{ ...plain, noiseSuppression: true }, 'noise suppression'],
    [{ ...plain, autoGainControl: true }, 'automatic gain'],
    [
      { echoCancellation: true, noiseSuppression: true, autoGainControl: true },
      'echo cancellation, noise suppression, automatic gain',
    ],
  ])('%o is refused for its processing', (settings, what) => {
    expect(of(settings, 48_000)[0]).toBe(`input-processed what=${what}`);
  });

  it('what a browser does not tell is told as unknown', () => {
    expect(of({}, 48_000)).toEqual([
      null,
      'input-processing-unknown what=echo cancellation, noise suppression, automatic gain',
      'input-clock',
    ]);
    expect(of({ ...plain, noiseSuppression: undefined }, 48_000)[1]).toBe(
      'input-processing-unknown what=noise suppression',
    );
    expect(of({ autoGainControl: true }, 48_000)).toEqual([
      'input-processed what=automatic gain',
      'input-processing-unknown what=echo cancellation, noise suppression',
      'input-clock',
    ]);
  });

  it('one channel, another rate of the device, another rate than asked for: the first of them', () => {
    expect(of({ ...plain, channelCount: 1, sampleRate: 44_100 }, 48_000)[0]).toBe('input-one-channel');
    expect(of({ ...plain, channelCount: 2, sampleRate: 44_100 }, 48_000, 96_000)[0]).toBe(
      'input-resampled input=44100 given=48000',
    );
    expect(of({ ...plain, sampleRate: 48_000 }, 48_000, 96_000)[0]).toBe('input-other-rate asked=96000 given=48000');
    expect(of(plain, 48_000, 96_000)[0]).toBe('input-other-rate asked=96000 given=48000');
    expect(of({ ...plain, channelCount: 1, autoGainControl: true }, 48_000)[0]).toContain('input-processed');
  });

  it('a sound server’s usual rate is noted only where nobody asked for it', () => {
    expect(of(plain, 44_100)).toEqual([null, 'input-usual-rate', 'input-clock']);
    expect(of(plain, 44_100, 44_100)).toEqual([null, 'input-clock']);
    expect(of(plain, 48_000)).toEqual([null, 'input-clock']);
  });
});

const heard = {
  heardS: 5,
  loudestDb: -12,
  clippedAgoS: null,
  zerosS: 0,
  filled: 0,
  channels: 'unknown',
} as Parameters<typeof levelVerdict>[0];

describe('which gain an input needs', () => {
  it.each([
    [-2.9, true, 'warn', 'level-hot peakDb=-2.9 by=7.1'],
    [-3, true, 'good', 'level-good peakDb=-3'],
    [-26, true, 'good', 'level-good peakDb=-26'],
    [-26.1, true, 'warn', 'level-low peakDb=-26.1 by=16.1'],
    [-50, true, 'warn', 'level-low peakDb=-50 by=40'],
    [-50.1, true, 'waiting', 'level-nothing peakDb=-50.1'],
    [-2.9, false, 'warn', 'level-hot peakDb=-2.9 by=7.1'],
    [-26, false, 'good', 'level-good peakDb=-26'],
    [-26.1, false, 'waiting', 'level-nothing peakDb=-26.1'],
  ] as const)('%d dBFS, a band playing: %s: %s', (loudestDb, playing, grade, says) => {
    const of = levelVerdict({ ...heard, loudestDb }, playing);
    expect([of.grade, told(of.says)]).toEqual([grade, says]);
  });

  it('a clipped top is spoken of for ten seconds, whatever the level is now', () => {
    const of = (clippedAgoS: number) => levelVerdict({ ...heard, clippedAgoS }, true);
    for (const ago of [0, 9.9]) expect(of(ago)).toEqual({ grade: 'bad', says: { code: 'level-clipping', values: {} } });
    expect(of(10).grade).toBe('good');
  });
});

describe('what else of an input must be known', () => {
  const way = { sourceChannels: 2, lostFrames: 0, standsStillS: 0 };
  const of = (more: Partial<typeof heard> = {}, on: Partial<typeof way> = {}) =>
    inputVerdict({ ...heard, ...more }, { ...way, ...on }).map(({ grade, says }) => `${grade} ${told(says)}`);

  it('nothing of a sound one but that its channels stand apart', () => {
    expect(of()).toEqual([]);
    expect(of({ channels: 'apart' })).toEqual(['good channels-apart']);
  });

  it('standing still, not connected, dead: each from half a second on, the gravest alone', () => {
    expect(of({ zerosS: 9 }, { standsStillS: 0.5 })).toEqual(['bad input-stopped seconds=0.5']);
    expect(of({}, { standsStillS: 0.49 })).toEqual([]);
    expect(of({ heardS: 0.51, zerosS: 9 }, { sourceChannels: 0 })).toEqual(['bad input-not-connected']);
    expect(of({ heardS: 0.5 }, { sourceChannels: 0 })).toEqual([]);
    expect(of({ zerosS: 0.5 })).toEqual(['bad input-dead seconds=0.5']);
    expect(of({ zerosS: 0.49 })).toEqual([]);
  });

  it('one channel, copies, a dead channel by its side: one word of the channels', () => {
    expect(of({ channels: 'copies' }, { sourceChannels: 1 })).toEqual(['bad input-one-channel']);
    expect(of({ channels: 'copies' })).toEqual(['bad input-copies']);
    expect(of({ channels: 'left-dead' })).toEqual(['bad input-dead-channel channel=left']);
    expect(of({ channels: 'right-dead' })).toEqual(['bad input-dead-channel channel=right']);
  });

  it('lost frames and filled gaps are warned of, behind all else', () => {
    expect(of({ filled: 2, channels: 'copies' }, { lostFrames: 3, standsStillS: 1 })).toEqual([
      'bad input-stopped seconds=1',
      'bad input-copies',
      'warn input-lost frames=3',
      'warn input-filled count=2',
    ]);
    expect(of({ filled: 1 })).toEqual(['warn input-filled count=1']);
  });
});
