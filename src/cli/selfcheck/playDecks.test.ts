/** How decks are held against their truth, with a listener that says what the test wants; real ones are played in test/loops. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { SideDocument } from '../../core/advise/document.ts';
import type { Recording } from '../../core/capture/recording.ts';
import { CLAIMS } from './claims.ts';
import { playDecks } from './playDecks.ts';

/** What was heard of deck i: findings by quantity, in place of the listener's. */
type Heard = Readonly<Record<string, object | undefined>>;
const listener = vi.hoisted(() => ({
  hears: [] as Heard[],
  heard: [] as { file: string; frames: number; sheet: string }[],
}));

/** True figures: 0.5 of everything; the side lasts a tenth of a second. */
vi.mock('../../core/deck/simulate.ts', () => ({
  simulateSide: (
    deck: { converter: { bits: 16 } },
    sheet: { name: string },
    { sampleRateHz }: { sampleRateHz: number },
  ) => {
    const frames = sampleRateHz / 10;
    return {
      ...{ frames, deck, sheet, truth: { figures: CLAIMS.map(({ quantity }) => ({ quantity, value: 0.5 })) } },
      *blocks() {
        const [left, right] = [new Float64Array(frames).fill(0.25), new Float64Array(frames).fill(-0.25)];
        yield { left, right, frames: frames / 2 };
        yield { left, right, frames: frames / 2 };
      },
    };
  },
}));
vi.mock('../../core/deck/speedTruth.ts', () => ({
  flutterTruth: (...asked: unknown[]) => ({ weightedPercent: asked[2] }),
}));
vi.mock('../../core/deck/speed.ts', () => ({ speedModel: () => null }));
vi.mock('../../core/side/examineSide.ts', () => ({
  async examineRecording(recording: Recording, { sheet }: { sheet: { name: string } }) {
    let frames = 0;
    let loudest = 0;
    for await (const block of recording.blocks()) {
      frames += block.frames;
      loudest = Math.max(loudest, block.left[0] - block.right[0]);
    }
    expect(loudest).toBeCloseTo(0.5, 3);
    listener.heard.push({ file: recording.format.file, frames, sheet: sheet.name });
    const told = listener.hears[listener.heard.length - 1] ?? {};
    const findings = CLAIMS.flatMap(({ quantity }) => {
      const own = quantity in told ? told[quantity] : {};
      if (own === undefined) return [];
      return [{ quantity, value: 0.5, uncertainty: 0.2, repeatability: 0.1, bands: [3], ...own }];
    });
    const bands = [
      { index: 2, startS: 9, endS: 10 },
      { index: 3, startS: 0.5, endS: 7 },
    ];
    return { document: { findings, bands } as unknown as SideDocument };
  },
}));

beforeEach(() => {
  listener.hears = [];
  listener.heard = [];
});
let clock = 0;
const play = (decks: number, onProgress: (done: number) => void = () => undefined) =>
  playDecks(decks, 7_000_000, () => (clock += 3), onProgress);

describe('decks', () => {
  it('are played one after the other, every second one on a record of its own faults, and timed', async () => {
    const done: number[] = [];
    const { decks, playedS, measuringS, accuracy, coverage, missed } = await play(5, (part) => done.push(part));
    expect([decks, measuringS, missed]).toEqual([5, 15, []]);
    expect(playedS).toBeCloseTo(0.5, 9);
    expect(done).toEqual([0.2, 0.4, 0.6, 0.8, 1]);
    expect(listener.heard).toEqual(
      [0, 1, 2, 3, 4].map((i) => ({ file: `deck 700000${i}.wav`, frames: 4410, sheet: 'Short test side' })),
    );
    for (const { quantity } of CLAIMS) {
      expect([accuracy.get(quantity)?.count, coverage.get(quantity)?.count]).toEqual([3, 2]);
      // the deck's own ± on records of faults, the signal's own on those without
      expect([accuracy.get(quantity)?.uncertainty, coverage.get(quantity)?.uncertainty]).toEqual([0.1, 0.2]);
      expect(accuracy.get(quantity)?.largest).toBe(0);
    }
  });

  it('that are read beside the truth are named where that is more than is claimed', async () => {
    const claimed = {
      'azimuth-error': { value: 0.56 },
      'channel-balance': { value: 0.529 },
      'speed-error': { value: 0.4 },
    };
    listener.hears = [claimed, claimed, { 'azimuth-error': { value: 0.44 } }];
    const { missed, accuracy, coverage } = await play(3);
    expect(missed).toEqual([
      'azimuth-error of deck 7000000: 0.060 deg beside the truth 0.5000',
      'speed-error of deck 7000000: -0.10 % beside the truth 0.5000',
      'azimuth-error of deck 7000002: -0.060 deg beside the truth 0.5000',
    ]);
    expect(accuracy.get('azimuth-error')?.bias).toBeCloseTo(0, 12);
    expect(coverage.get('azimuth-error')?.bias).toBeCloseTo(0.06, 12);
  });

  it('whose figure is withheld are counted as such, and are not beside it', async () => {
    listener.hears = [
      { 'azimuth-error': undefined, 'channel-balance': { value: 'none' } },
      { 'azimuth-error': undefined },
    ];
    const { missed, accuracy, coverage } = await play(2);
    expect(missed).toEqual([]);
    expect(accuracy.get('azimuth-error')?.withheld).toBe(1);
    expect(accuracy.get('channel-balance')?.withheld).toBe(1);
    expect(coverage.get('azimuth-error')?.withheld).toBe(1);
    expect(accuracy.get('speed-error')?.withheld).toBe(0);
  });

  it('have the flutter of the very stretch that was measured for their truth', async () => {
    // the model's answer here is where the stretch begins
    listener.hears = [
      { 'wow-flutter-weighted': { value: 0.55 } },
      {},
      { 'wow-flutter-weighted': { bands: [2], value: 9.1 } },
    ];
    const { missed, accuracy } = await play(3);
    expect(accuracy.get('wow-flutter-weighted')?.bias).toBeCloseTo((0.05 + 0.1) / 2, 9);
    expect(missed).toEqual(['wow-flutter-weighted of deck 7000000: 0.050 % beside the truth 0.5000']);
  });

  it('of a figure that is an interval are held by its side of the truth, open ends and all', async () => {
    const interval = (more: object) => ({
      'separation-left-to-right': { value: 1, uncertainty: null, low: 0.4, high: 3, ...more },
    });
    const coverageOf = async (heard: Heard) => {
      listener.hears = [{}, heard];
      listener.heard = [];
      const tally = (await play(2)).coverage.get('separation-left-to-right');
      return [tally?.uncertainty, tally?.bias, tally?.withheld];
    };
    // the truth of 0.5 lies under a reading of 1, and over one of 0.2
    expect(await coverageOf(interval({}))).toEqual([0.6, 0.5, 0]);
    expect(await coverageOf(interval({ value: 0.25, low: 0 }))).toEqual([2.75, -0.25, 0]);
    expect(await coverageOf(interval({ value: 0.25, low: 0, high: null }))).toEqual([Number.MAX_VALUE, -0.25, 0]);
    expect(await coverageOf(interval({ value: 0.5 }))).toEqual([2.5, 0, 0]);
    expect(await coverageOf(interval({ value: 'none' }))).toEqual([undefined, Number.NaN, 1]);
    expect(await coverageOf(interval({ low: undefined }))).toEqual([undefined, Number.NaN, 1]);
  });
});
