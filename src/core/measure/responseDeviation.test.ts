import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import type { ChainKnown, PreampResponse } from './chainLevel.ts';
import type { Finding } from './finding.ts';
import { madeCut, madePassage, madeSide } from './handMade.fixture.ts';
import { joined } from './joinedResponse.ts';
import { largestAstray } from './largestAstray.ts';
import { deviation } from './responseDeviation.ts';
import { type ResponseFigures, responseFigures } from './responseFigures.ts';
import { channelResponse, type ResponseSource } from './responseSources.ts';
import type { SweepPoint } from './sweepEstimator.ts';

const FLAT: ChainKnown = { flat: true, preamp: null, record: null };
/** A response as power of both channels, twelve points an octave. */
function points(
  fromHz: number,
  toHz: number,
  db: (hz: number) => number,
  more: Partial<SweepPoint> = {},
): SweepPoint[] {
  const count = Math.floor(12 * Math.log2(toHz / fromHz));
  return Array.from({ length: count + 1 }, (_, i) => {
    const hz = fromHz * 2 ** (i / 12);
    const power = 1e-3 * 10 ** (db(hz) / 10);
    return { hz, left: power, right: power, re: power, im: 0, spreadDb: 0.01, noise: 0, spectra: 3, ...more };
  });
}
const source = (of: SweepPoint[], more: Partial<ResponseSource> = {}): ResponseSource => ({
  band: 2,
  kind: 'sweep',
  driven: 'both',
  antiphase: false,
  law: 'constant-velocity',
  lawStated: true,
  cutDb: 0,
  seconds: 20,
  points: of,
  ...more,
});
function told(sources: ResponseSource[], chain: ChainKnown = FLAT, channel: 'left' | 'right' = 'left') {
  const found: ResponseFigures = { findings: [], problems: [], curves: [] };
  deviation(channel, sources, madeSide(), chain, found);
  return found;
}
const bump = (at: number, size: number) => (hz: number) => size * Math.exp(-((Math.log2(hz / at) / 0.3) ** 2));
const codes = ({ notes }: Finding) => notes.map(({ code }) => code);
const sizes = ({ budget }: Finding) => Object.fromEntries(budget!.map((line) => [line.of.code, line.size]));

describe('the deviation from 1 kHz', () => {
  it('is the largest of the whole and of each span reached, noise taken off, with both extremes in words', () => {
    const of = source(points(20, 20_000, (hz) => bump(8000, 3)(hz) + bump(60, -2)(hz)));
    const { findings } = told([of]);
    const response = joined([channelResponse(of, 'left', FLAT)]);
    const hz = (i: number) => response.hz[i];
    expect(findings.map(({ quantity }) => quantity)).toEqual(
      ['', '-40-12500', '-100-10000', '-315-6300'].map((end) => `frequency-response-deviation${end}`),
    );
    const [whole, , house] = findings;
    const indices = response.hz.map((_, i) => i);
    const astray = largestAstray(response.db, response.spreadDb, indices, 3);
    const [high, low] = [Math.max(...response.db), Math.min(...response.db)];
    expect(whole).toMatchObject({
      value: astray.size,
      unit: 'dB',
      channel: 'left',
      bands: [2],
      repeatability: Math.hypot(2 * response.spreadDb[astray.most], 0.04, astray.excess),
    });
    expect(sizes(whole)).toEqual({ signal: whole.repeatability, response: 0.5 });
    expect(whole.notes).toEqual([
      statement('response-span', {
        fromHz: hz(0),
        toHz: hz(response.hz.length - 1),
        highDb: high,
        highHz: hz(response.db.indexOf(high)),
        lowDb: low,
        lowHz: hz(response.db.indexOf(low)),
      }),
      statement('response-top-up'),
    ]);
    expect(house.notes[0].values).toMatchObject({ highDb: high });
    expect(house.notes[0].values.fromHz).toBeGreaterThan(95);
    expect(codes(house)).toEqual(['response-span', 'span-by-house']);
  });

  it('says where it strays: beyond 5 kHz, below 50 Hz, or in the middle; up or down', () => {
    const where = (at: number, size: number) =>
      codes(told([source(points(20, 20_000, bump(at, size)))]).findings[0])[1];
    expect(where(10_000, 3)).toBe('response-top-up');
    expect(where(10_000, -3)).toBe('response-top-down');
    expect(where(28, 3)).toBe('response-bottom-up');
    expect(where(28, -3)).toBe('response-bottom-down');
    expect(where(300, 3)).toBe('response-middle');
    expect(where(4700, -3)).toBe('response-middle');
    expect(where(54, 3)).toBe('response-middle');
  });

  it('of a wall’s own sweeps where there are any, else of those of both', () => {
    const [own, both, other] = [
      source(points(20, 20_000, bump(300, 2)), { driven: 'left', band: 4 }),
      source(points(20, 20_000, bump(300, 5))),
      source(points(20, 20_000, bump(300, 9)), { driven: 'right', band: 5 }),
    ];
    const of = (...sources: ResponseSource[]) => {
      const [one] = told(sources).findings;
      return [one?.bands, Math.round((one?.value as number) ?? 0)];
    };
    expect(of(both, own, other)).toEqual([[4], 2]);
    expect(of(both, other)).toEqual([[2], 5]);
    expect(told([other])).toEqual({ findings: [], problems: [], curves: [] });
    expect(told([other], FLAT, 'right').findings[0]).toMatchObject({ channel: 'right', bands: [5] });
  });

  it('needs 1 kHz and two octaves, and says so once', () => {
    const none = [withheld('frequency-response-deviation', statement('no-1khz-in-sweep'))];
    expect(told([source(points(20, 400, () => 0))]).problems).toEqual(none);
    expect(told([source(points(900, 3500, () => 0))]).problems).toEqual(none);
    expect(told([source(points(900, 3601, () => 0))]).findings).toHaveLength(1);
    const found: ResponseFigures = { findings: [], problems: [], curves: [] };
    for (const channel of ['left', 'right'] as const)
      deviation(channel, [source(points(20, 400, () => 0))], madeSide(), FLAT, found);
    expect(found.problems).toEqual(none);
  });

  it('is unsure by the record and the equalisation, unless either was measured', () => {
    const flat: PreampResponse = { hz: [10, 30_000], leftDb: [0, 0], rightDb: [0, 0] };
    const falls: PreampResponse = { hz: [50, 10_000], leftDb: [20, -20], rightDb: [20, -20] };
    const of = source(points(20, 20_000, bump(300, 2)));
    const by = (chain: Partial<ChainKnown>) => {
      const [one] = told([of], { ...FLAT, ...chain }).findings;
      return [Object.keys(sizes(one)).filter((code) => code !== 'signal'), codes(one).slice(2)];
    };
    expect(by({ flat: false })).toEqual([['response', 'equalisation'], []]);
    expect(by({ record: flat })).toEqual([[], ['record-response-removed']]);
    expect(by({ flat: false, preamp: flat })).toEqual([['response'], ['preamp-response-beside-riaa']]);
    expect(by({ flat: false, preamp: falls })).toEqual([['response'], ['preamp-response-whole']]);
    expect(by({ preamp: flat })).toEqual([['response'], ['preamp-response-whole']]);
  });

  it('says the law that was taken where nobody stated it, once', () => {
    const guess = (law: ResponseSource['law']) => {
      const of = source(points(20, 20_000, bump(300, 2)), { law, lawStated: false });
      return codes(told([of, of]).findings[0]).slice(2);
    };
    expect(guess('riaa')).not.toContain('sweep-taken-for-constant-velocity');
    expect(guess('riaa')).toContain('sweep-taken-for-riaa');
    expect(guess('constant-velocity')).toEqual(['sweep-taken-for-constant-velocity']);
  });

  it('what noise adds to the largest is said from 0.05 dB on', () => {
    const noisy = (spreadDb: number) =>
      codes(told([source(points(20, 20_000, bump(300, 2), { spreadDb }))]).findings[0]).includes('excess-of-noise');
    expect([noisy(0.001), noisy(1)]).toEqual([false, true]);
  });
});

describe('the figures of a side', () => {
  const passage = (index: number, motion: 'left' | 'right' | 'lateral' | 'vertical', of: SweepPoint[], noise = false) =>
    madePassage(
      { index, motion, signal: noise ? 'noise' : 'sweep', sheetBand: 0 },
      noise ? { noiseResponse: of } : { sweep: { law: null, points: of } },
    );
  const sheet = { schema: 1, name: 'x', rpm: 33, bands: [madeCut({ cut: 'constant-velocity' })] } as const;
  const of = (...passages: ReturnType<typeof passage>[]) => responseFigures(madeSide({ sheet, passages }), true);
  const flat = points(20, 20_000, () => 0);

  it('the whole of each quantity comes before its spans', () => {
    const { findings } = of(passage(0, 'lateral', flat));
    const spans = findings.map(({ quantity }) => /\d$/.test(quantity));
    expect(spans.slice(0, 3)).toEqual([false, false, false]);
    expect(spans.slice(3).every(Boolean)).toBe(true);
    expect(findings.slice(0, 3).map(({ quantity, channel }) => [quantity, channel])).toEqual([
      ['frequency-response-deviation', 'left'],
      ['frequency-response-deviation', 'right'],
      ['channel-difference', undefined],
    ]);
  });

  it('noise tells where there is no sweep; it is drawn in any case', () => {
    const noise = passage(1, 'lateral', points(20, 20_000, bump(300, 4)), true);
    const alone = of(noise);
    expect(alone.findings[0].bands).toEqual([1]);
    const both = of(passage(0, 'lateral', flat), noise);
    expect(both.findings.every(({ bands }) => bands.every((b) => b === 0))).toBe(true);
    expect(both.curves.filter(({ quantity }) => quantity === 'frequency-response').map(({ band }) => band)).toEqual([
      0, 0, 1, 1,
    ]);
  });

  it('each sweep is drawn for the channels that it drives', () => {
    const { curves } = of(passage(0, 'left', flat), passage(1, 'right', flat), passage(2, 'vertical', flat));
    const drawn = curves.filter(({ quantity }) => quantity === 'frequency-response');
    expect(drawn.map(({ channel, band }) => [channel, band])).toEqual([
      ['left', 0],
      ['right', 1],
      ['left', 2],
      ['right', 2],
    ]);
    const zero = flat.map(() => expect.closeTo(0, 9));
    expect(drawn[0]).toEqual({
      quantity: 'frequency-response',
      channel: 'left',
      band: 0,
      x: flat.map(({ hz }) => hz),
      y: zero,
      xUnit: 'Hz',
      yUnit: 'dB',
    });
  });

  it('the channels’ phase is drawn where both are driven, a vertical cut’s half turn taken off', () => {
    const phased = (sign: number) => flat.map((p) => ({ ...p, re: sign * p.left * 0.6, im: sign * p.left * 0.8 }));
    for (const sign of [1, -1]) {
      const phase = of(passage(3, 'vertical', phased(sign))).curves.filter(({ quantity }) => quantity === 'phase');
      expect(phase).toEqual([
        {
          quantity: 'phase',
          band: 3,
          x: flat.map(({ hz }) => hz),
          y: flat.map(() => expect.closeTo((Math.atan2(0.8, 0.6) * 180) / Math.PI, 9)),
          xUnit: 'Hz',
          yUnit: 'deg',
        },
      ]);
    }
    const names = of(passage(0, 'left', flat)).curves.map(({ quantity }) => quantity);
    expect(names).not.toContain('phase');
    expect(names).toContain('separation');
    expect(of()).toEqual({ findings: [], problems: [], curves: [] });
  });
});
