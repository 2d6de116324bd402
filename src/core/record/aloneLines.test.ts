/** Announcements between bands: a voice's pitch moves and takes its harmonics with it, a sweep has one line. */
import { describe, expect, test } from 'vitest';
import { BandFinder } from './bandFinder.ts';

const RATE = 48_000;

/** A sum of sines whose lowest goes from one frequency to another, over some noise, with tones before and after. */
function side(fromHz: number, toHz: number, seconds: number, harmonics: readonly number[]) {
  const frames = Math.round((8 + seconds) * RATE);
  const left = new Float64Array(frames);
  let state = 99;
  let phase = 0;
  for (let n = 0; n < frames; n++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    left[n] = (state / 2 ** 31 - 1) * 1e-3;
    const s = n / RATE;
    if (s < 2.5 || s > 5.5 + seconds) left[n] += 0.25 * Math.sin(2 * Math.PI * 1000 * s);
    if (s < 4 || s > 4 + seconds) continue;
    phase += (fromHz * (toHz / fromHz) ** ((s - 4) / seconds)) / RATE;
    for (const [i, size] of harmonics.entries()) left[n] += 0.08 * size * Math.sin(2 * Math.PI * (i + 1) * phase);
  }
  return { left, frames };
}

function sweepsIn({ left, frames }: ReturnType<typeof side>): string[] {
  const finder = new BandFinder({ sampleRateHz: RATE });
  finder.push({ left, right: left, frames });
  return finder.finish().bands.map(({ signal }) => signal);
}

/** of a spoken vowel, the second and third about as strong as the first */
const VOICE = [1, 0.9, 1.1, 0.8, 0.5, 0.3, 0.2, 0.1, 0.1, 0.05];

describe.each([
  { fromHz: 180, toHz: 110, seconds: 1.6 },
  { fromHz: 460, toHz: 270, seconds: 1.8 },
  { fromHz: 150, toHz: 260, seconds: 2.5 },
])('between two tones, $fromHz to $toHz Hz in $seconds s', ({ fromHz, toHz, seconds }) => {
  test('a voice is no sweep', () => {
    expect(sweepsIn(side(fromHz, toHz, seconds, VOICE))).toEqual(['tone', 'tone']);
  });

  test('a line by itself is one, with the harmonics that a stylus adds too', () => {
    for (const lines of [[1], [1, 0.1, 0.2]])
      expect(sweepsIn(side(fromHz, toHz, seconds, lines))).toEqual(['tone', 'sweep', 'tone']);
  });
});
