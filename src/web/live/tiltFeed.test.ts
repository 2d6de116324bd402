import { describe, expect, it } from 'vitest';
import type { SideDocument } from '../../core/advise/document.ts';
import { guideTilt } from '../../core/advise/live/tiltGuide.ts';
import type { LiveStatus } from './liveMessages.ts';
import { TiltFeed } from './tiltFeed.ts';

type Told = Pick<LiveStatus, 'playing' | 'pass'>;
type Figures = Pick<SideDocument, 'findings' | 'advice' | 'problems'>;

/** figures with a tilt, k = 2, on two bands; inside where no turn is advised */
function figures(value: number, repeatability: number, bands: readonly number[], inside = true): Figures {
  const tilt = { quantity: 'azimuth-error', value, unit: 'deg', uncertainty: 0.8, repeatability, bands, notes: [] };
  const turn = {
    action: 'tilt',
    amount: Math.abs(value),
    unit: 'deg',
    direction: value > 0 ? 'anticlockwise-from-front' : 'clockwise-from-front',
    predicts: [],
  };
  return { findings: [tilt], advice: inside ? [] : [turn], problems: [] } as unknown as Figures;
}

const NONE: Figures = { findings: [], advice: [], problems: [] };

function playing(
  motion: 'left' | 'right' | 'lateral',
  index: number,
  told: Figures,
  { pass = 1, age = 2 as number | null } = {},
): Told {
  return {
    pass: { number: pass, heardS: 10, bands: [] },
    playing: {
      band: { motion, index, frequencyHz: 1000 },
      playingS: 3,
      figures: told,
      partnerAgeS: age,
      turnedAgoS: null,
    },
  } as unknown as Told;
}
const between = (pass = 1): Told => ({ pass: { number: pass, heardS: 12, bands: [] }, playing: null }) as Told;

describe('the tilt as it is fed to the guide', () => {
  it('the band that plays alone tells none; with the last of its partner it does, and says how old that is', () => {
    const feed = new TiltFeed();
    feed.hear(playing('left', 0, NONE, { age: null }));
    expect([feed.now.value, feed.isPlaying.value, feed.partnerAgeS.value]).toEqual([null, false, null]);
    feed.hear(between());
    feed.hear(playing('right', 1, figures(0.9, 0.4, [0, 1], false), { age: 3.5 }));
    expect(feed.now.value?.tiltDeg).toBe(0.9);
    expect(feed.isPlaying.value).toBe(true);
    expect(feed.partnerAgeS.value).toBe(3.5);
    // it is filed when its band is over, once, by what was told last
    expect(feed.settled.value).toEqual([]);
    feed.hear(playing('right', 1, figures(0.8, 0.05, [0, 1], false), { age: 6 }));
    feed.hear(between());
    feed.hear(between());
    expect(feed.settled.value.map(({ tiltDeg }) => tiltDeg)).toEqual([0.8]);
    expect(feed.isPlaying.value).toBe(false);
    // the last figure is still there to turn by
    expect(feed.now.value?.tiltDeg).toBe(0.8);
  });

  it('a lateral tone tells nothing new and files nothing twice', () => {
    const feed = new TiltFeed();
    feed.hear(playing('right', 1, figures(0.1, 0.05, [0, 1])));
    feed.hear(playing('lateral', 2, figures(0.1, 0.05, [0, 1])));
    feed.hear(between());
    expect(feed.settled.value).toHaveLength(1);
  });

  it('a band cut short before its reading had settled is no reading; one that had settled is', () => {
    const feed = new TiltFeed();
    feed.hear(playing('right', 1, figures(0.1, 0.6, [0, 1])));
    feed.hear(between());
    expect(feed.settled.value).toEqual([]);
    feed.hear(playing('right', 3, figures(0.1, 0.06, [2, 3])));
    feed.passEnded(figures(0.12, 0.05, [0, 1, 2, 3]) as SideDocument);
    expect(feed.settled.value).toHaveLength(1);
    expect(feed.now.value?.tiltDeg).toBe(0.12);
  });

  it('good enough is two readings: not one band heard with two partners, but two pairs of a pass, or two passes', () => {
    const state = (feed: TiltFeed) => guideTilt(feed.now.value, feed.settled.value).state;
    const one = new TiltFeed();
    one.hear(playing('right', 1, figures(0.1, 0.05, [0, 1])));
    one.hear(playing('left', 2, figures(0.1, 0.05, [1, 2])));
    one.hear(between());
    expect(one.settled.value).toHaveLength(2);
    expect(state(one)).toBe('good-once');
    one.hear(playing('right', 3, figures(0.1, 0.05, [2, 3])));
    one.hear(between());
    expect(state(one)).toBe('good-enough');

    const two = new TiltFeed();
    two.hear(playing('right', 1, figures(0.1, 0.05, [0, 1])));
    two.passEnded(figures(0.1, 0.05, [0, 1]) as SideDocument);
    expect(state(two)).toBe('good-once');
    // bands are counted anew in every pass
    two.hear(playing('right', 1, figures(0.1, 0.05, [0, 1]), { pass: 2 }));
    two.passEnded(figures(0.1, 0.05, [0, 1]) as SideDocument);
    expect(state(two)).toBe('good-enough');
    // a turn too far begins the count again
    two.hear(playing('right', 1, figures(-0.9, 0.05, [0, 1], false), { pass: 3 }));
    two.hear(between(3));
    expect(state(two)).toBe('turn');
  });
});
