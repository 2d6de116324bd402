/**
 * Arm resonance and Q from sweeps against decks whose resonances are known: laws, directions, wow, rumble, warps, a 7950 µs high pass, a
 * pilot's place; the chain's low corner and the slope of the cut drawn as the table of defaults has them.
 */
import { expect, it } from 'vitest';
import { dice, normal } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { ASSUMED } from '../../src/core/advise/budget/defaults.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const SEEDS = Number(process.env.RESONANCE_SEEDS ?? 5);

function sheetOf(draw: (low: number, high: number) => number) {
  const sweep = (motion: string, up: boolean) => {
    const [low, high] = [draw(3.5, 5), draw(24, 40)];
    const [fromHz, toHz] = up ? [low, high] : [high, low];
    const cut = draw(0, 1) < 0.5 ? 'riaa' : 'constant-velocity';
    return {
      signal: 'sweep',
      motion,
      fromHz,
      toHz,
      law: draw(0, 1) < 0.5 ? 'log' : 'linear',
      cut,
      // constant velocity comes out of RIAA playback 19 dB louder
      peakVelocityCmS: cut === 'riaa' ? draw(2, 5) : draw(0.3, 0.7),
      radiusMm: 120,
      durationS: draw(15, 30),
    };
  };
  const tone = (motion: string, frequencyHz: number, radiusMm: number, durationS: number) => ({
    signal: 'tone',
    motion,
    frequencyHz,
    peakVelocityCmS: 5,
    radiusMm,
    durationS,
  });
  return {
    schema: 1,
    name: 'Resonance',
    rpm: 33.333,
    referenceVelocityCmS: 5,
    bands: [
      tone('lateral', 1000, 138, 2.5),
      sweep('lateral', draw(0, 1) < 0.5),
      sweep('vertical', draw(0, 1) < 0.5),
      tone('lateral', 3150, 100, 5),
    ],
  };
}

it('f₀ and Q of both directions lie within what is said', { timeout: Math.max(600_000, 120_000 * SEEDS) }, async () => {
  const tallies = new Map<string, Tally>();
  for (let seed = 1; seed <= SEEDS; seed++) {
    const draw = dice(seed + 7000);
    const beside = dice(seed + 17_000);
    const { cutSlope, lowCorner } = ASSUMED;
    const deck = {
      platter: {
        speedErrorPercent: draw(-1, 1),
        wow: [{ harmonic: 1, percent: draw(0, 0.15), phaseDeg: draw(-180, 180) }],
      },
      record: {
        surfaceNoiseDb: draw(-60, -45),
        warp: [{ harmonic: 1, mm: draw(0, 0.3), phaseDeg: draw(-180, 180) }],
        offCentreMm: draw(0, 0.3),
        clicksPerMinute: draw(0, 60),
        clickDb: draw(-6, 10),
        // what cut and chain hide, as the table of defaults has it
        cut: {
          sweepSlopeDbPerDecade: (normal(beside)(cutSlope.size / 2) * Math.LN10) / Math.LN2,
          levelDb: normal(beside)(0.5),
        },
      },
      bearing: { rumbleLateralDb: draw(-60, -40), rumbleVerticalDb: draw(-60, -40) },
      arm: {
        lateralResonance: { hz: draw(6.5, 15), q: draw(0.9, 6) },
        verticalResonance: { hz: draw(6.5, 15), q: draw(0.9, 6) },
        dropUm: { lateral: draw(-60, 60), vertical: draw(10, 80) },
      },
      cartridge: { tiltDeg: draw(-1.5, 1.5), gainDb: { left: draw(-1, 1), right: draw(-1, 1) } },
      leads: { swapped: seed % 4 === 0, leftInverted: seed % 5 === 0 },
      preamp: {
        equalisation: (['riaa', 'riaa-7950', 'riaa', 'flat'] as const)[seed % 4],
        hum: [{ harmonic: 1, leftDb: draw(-75, -55), rightDb: draw(-75, -55) }],
        noiseDb: draw(-85, -75),
        lowCornerHz: beside(0.1, lowCorner.size),
      },
      side: { beforeDropS: 1, leadInS: 2, gapS: draw(1, 3), leadOutS: 2, afterLiftS: 0 },
    } as const;
    const sheet = sheetOf(draw);
    const { recording, truth } = virtualCapture(deck, sheet, seed % 3 === 1 ? 96_000 : 44_100, seed);
    const flat = deck.preamp.equalisation === 'flat';
    const { document } = await examineRecording(recording, { sheet: sheet as never, flat });
    for (const quantity of [
      'arm-resonance-lateral',
      'arm-resonance-lateral-q',
      'arm-resonance-vertical',
      'arm-resonance-vertical-q',
    ]) {
      const found = document.findings.find((f) => f.quantity === quantity);
      // the document lists the sweeps, which ears do not tell, as what the record file says
      if (found !== undefined) {
        const from = found.bands.map((place) => document.bands[place]);
        expect(from.map(({ signal, motion }) => [signal, motion])).toEqual([['sweep', quantity.split('-')[2]]]);
      }
      const true_ = truth.figures.find((f) => f.quantity === quantity)!.value as number;
      for (const [kind, u] of [
        ['deck', found?.uncertainty],
        ['signal', found?.repeatability],
      ] as const) {
        const name = `${quantity} ${kind}`;
        const tally = tallies.get(name) ?? new Tally();
        tallies.set(name, tally);
        const [value, size] = [found?.value as number | undefined, true_];
        tally.add(value === undefined ? undefined : (100 * value) / size, u == null ? u : (100 * u) / size, 100);
      }
      if (process.env.RESONANCE_SEEDS !== undefined) {
        console.log(
          seed,
          deck.preamp.equalisation,
          quantity,
          found?.value,
          '±',
          found?.uncertainty,
          found?.repeatability,
          'true',
          true_,
          document.problems.find((p) => p.quantity === quantity)?.message ?? '',
        );
      }
    }
  }
  console.log([...tallies].map(([name, tally]) => tally.line(name, '%')).join('\n'));
  for (const [name, tally] of tallies) {
    expect(tally.count, name).toBeGreaterThan(0.7 * SEEDS);
    expect(Math.abs(tally.bias), name).toBeLessThan(name.includes('-q') ? 1 : 0.3);
    if (name.endsWith('deck')) expect(tally.coverage, name).toBeGreaterThanOrEqual(90);
    // the signal's own line is of this record again: it has neither slope nor corner nor method in it
    else expect(tally.normalised, name).toBeLessThan(3);
  }
});
