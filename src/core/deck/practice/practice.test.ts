import { describe, expect, it } from 'vitest';
import { GOAL, HIDDEN_NUMBERS, HIDDEN_SIZE, hideFaults, leftOf, settingsNow, UNTURNED } from './exercise.ts';
import { PlayingDeck } from './PlayingDeck.ts';
import { EARTHED_PARTS, floatingParts, NO_FAULT, PRACTICE_RANGE, practiceDeck } from './practiceFaults.ts';
import { practiceSides } from './practiceSides.ts';

const RATE = 32_000;
const options = { sampleRateHz: RATE, seed: 5 };
const quiet = { ...NO_FAULT, clicksPerMinute: 0, surfaceNoiseDb: -70 };

function play(deck: PlayingDeck, seconds: number): { left: Float64Array; right: Float64Array } {
  const frames = Math.round(seconds * RATE);
  const [left, right] = [new Float64Array(frames), new Float64Array(frames)];
  deck.fill(left, right, frames);
  return { left, right };
}
const rms = (of: Float64Array): number => Math.sqrt(of.reduce((sum, x) => sum + x * x, 0) / of.length);
/** steps of a tone of 1 kHz are smooth: the largest fourth difference, against its size */
function roughest(of: Float64Array): number {
  let most = 0;
  for (let i = 4; i < of.length; i++) {
    most = Math.max(most, Math.abs(of[i] - 4 * of[i - 1] + 6 * of[i - 2] - 4 * of[i - 3] + of[i - 4]));
  }
  return most / rms(of);
}

describe('the deck that plays on', () => {
  it('sets the tip down after a while, plays band after band, lifts at the end, and comes down again', () => {
    const deck = new PlayingDeck(practiceSides.tilt, practiceDeck(quiet), options);
    expect(deck.state).toMatchObject({ isDown: false, band: null });
    const seen: (number | null)[] = [];
    for (let i = 0; i < 35; i++) {
      play(deck, 1);
      const { band } = deck.state;
      if (seen.at(-1) !== band) seen.push(band);
    }
    expect(seen).toEqual([null, 0, null, 1, null, 2, null, 0]);
  });

  it('changes its speed in step: no jump in the tone, and the pitch is the new one at once', () => {
    const deck = new PlayingDeck(practiceSides.tilt, practiceDeck(quiet), options);
    play(deck, 6);
    expect(deck.state.band).toBe(0);
    const before = play(deck, 0.3).left;
    deck.change(practiceDeck({ ...quiet, speedErrorPercent: 1 }), true);
    const across = play(deck, 0.3).left;
    expect(deck.state).toMatchObject({ isDown: true, band: 0 });
    expect(roughest(across)).toBeLessThan(1.5 * roughest(before));
    expect(rms(across)).toBeCloseTo(rms(before), 2);
    // 10 Hz more for 0.3 s
    const turns = (of: Float64Array): number => {
      let crossings = 0;
      for (let i = 1; i < of.length; i++) if (of[i - 1] < 0 && of[i] >= 0) crossings += 1;
      return crossings;
    };
    expect(turns(across) - turns(before)).toBeGreaterThanOrEqual(2);
  });

  it('lifts the arm for a screw and comes down with the fault turned out', () => {
    const deck = new PlayingDeck(practiceSides.tilt, practiceDeck({ ...quiet, tiltDeg: 4 }), options);
    const leak = (): number => {
      while (deck.state.band !== 1) play(deck, 0.2);
      play(deck, 0.4);
      const { left, right } = play(deck, 0.5);
      return rms(right) / rms(left);
    };
    const tilted = leak();
    deck.change(practiceDeck(quiet), false);
    play(deck, 0.1);
    expect(deck.state.isDown).toBe(false);
    // still moving: the tip waits
    play(deck, 2);
    deck.change(practiceDeck(quiet), false);
    play(deck, 1);
    expect(deck.state.isDown).toBe(false);
    const turned = leak();
    expect(tilted).toBeGreaterThan(0.05);
    expect(turned).toBeLessThan(0.03);
  });

  it('lifted by hand it stays up; a hand on a part that has no earth takes hum away', () => {
    const deck = new PlayingDeck(practiceSides.tilt, practiceDeck({ ...quiet, openJoint: 'arm' }), options);
    deck.lift();
    const hums = rms(play(deck, 4).left);
    expect(deck.state.isDown).toBe(false);
    deck.change(practiceDeck({ ...quiet, openJoint: 'arm', touched: 'arm' }), true);
    play(deck, 0.1);
    const held = rms(play(deck, 1).left);
    deck.change(practiceDeck({ ...quiet, openJoint: 'arm', touched: 'chassis' }), true);
    play(deck, 0.1);
    const wrong = rms(play(deck, 1).left);
    expect(20 * Math.log10(hums / held)).toBeGreaterThan(10);
    expect(wrong / hums).toBeCloseTo(1, 1);
  });
});

describe('an exercise', () => {
  it('hides faults within its stated ranges, each larger than what is near enough, differently each time', () => {
    const drawn = Array.from({ length: 200 }, (_, seed) => hideFaults('everything', seed));
    for (const hidden of drawn) {
      for (const of of HIDDEN_NUMBERS) {
        const size = Math.abs(hidden[of]);
        expect(size).toBeGreaterThanOrEqual(HIDDEN_SIZE[of].from - 1e-9);
        expect(size).toBeLessThanOrEqual(HIDDEN_SIZE[of].to + 1e-9);
        expect(size).toBeGreaterThan(GOAL[of]);
        expect(size).toBeLessThanOrEqual(PRACTICE_RANGE[of].max);
      }
    }
    expect(new Set(drawn.map(({ tiltDeg }) => tiltDeg)).size).toBeGreaterThan(20);
    expect(new Set(drawn.map(({ openJoint }) => openJoint)).size).toBe(EARTHED_PARTS.length + 1);
    expect(new Set(drawn.map(({ leadsSwapped }) => leadsSwapped)).size).toBe(2);
    expect(hideFaults('tilt', 3)).toEqual({ ...NO_FAULT, tiltDeg: hideFaults('everything', 3).tiltDeg });
  });

  it('turned out by its clicks and mended, nothing is left', () => {
    for (let seed = 0; seed < 50; seed++) {
      const hidden = hideFaults('everything', seed);
      expect(settingsNow(hidden, UNTURNED, 'none')).toEqual(hidden);
      const turned = {
        clicks: Object.fromEntries(HIDDEN_NUMBERS.map((of) => [of, -Math.round(hidden[of] / PRACTICE_RANGE[of].step)])),
        leadsExchanged: hidden.leadsSwapped,
        polarityExchanged: hidden.leftInverted,
        remade: [hidden.openJoint],
      };
      for (const of of HIDDEN_NUMBERS) expect(leftOf(hidden, turned, of)).toBeCloseTo(0, 6);
      expect(settingsNow(hidden, turned, 'none')).toEqual({ ...NO_FAULT, tipRadiusUm: 8 });
    }
  });

  it('an open joint leaves without earth what lies beyond it, seen from the preamp', () => {
    expect(floatingParts('none')).toEqual([]);
    expect(floatingParts('headshell')).toEqual(['headshell']);
    expect(floatingParts('arm-earth')).toEqual(['headshell', 'arm', 'arm-earth']);
    expect(floatingParts('chassis')).toEqual(['chassis']);
  });
});
