/** Decks with faults drawn at random, and the record they play: short bands, so that hundreds can be played. */

/** Uniform numbers in [0, 1) from a seed (a counter hashed by multiplication and shifts). */
export function dice(seed: number): (low: number, high: number) => number {
  let state = seed >>> 0;
  return (low, high) => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    z = (z ^ (z >>> 16)) >>> 0;
    return low + ((high - low) * z) / 2 ** 32;
  };
}

export const shortSheet = {
  schema: 1,
  name: 'Short test side',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 138, durationS: 2.6 },
    { signal: 'tone', motion: 'right', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 136, durationS: 2.6 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 134, durationS: 4.5 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 100, durationS: 9 },
  ],
} as const;

/** Normal numbers with a standard deviation, from uniform ones. */
export const normal =
  (draw: (low: number, high: number) => number) =>
  (spread: number): number =>
    spread * Math.sqrt(-2 * Math.log(1 - draw(0, 1))) * Math.cos(2 * Math.PI * draw(0, 1));

/** Arms as they stand on benches: nine inches, ten, twelve, a short one; distance, length and offset. */
const ARMS = [
  [222, 239.296, 22.986],
  [211, 228.5, 23.9],
  [230, 246.8, 22.2],
  [290, 303.445, 17.936],
  [200, 218.5, 25.3],
] as const;

/**
 * What an uncertified record has of its own, by the default distributions of docs/methods/uncertainty.md: half of all leaks are
 * under −35 dB each way with the tilt in them; the rest normal, k = 2 as stated there.
 */
function randomRecord(seed: number) {
  const draw = dice(seed + 900_000);
  const gauss = normal(draw);
  // the size of a complex normal leak passes −35 dB in half of all cuts
  const part = 10 ** (-35 / 20) / Math.sqrt(2 * Math.LN2);
  const leak = () => {
    const [re, im] = [gauss(part), gauss(part)];
    return { db: Math.max(-120, 20 * Math.log10(Math.hypot(re, im))), phaseDeg: (Math.atan2(im, re) * 180) / Math.PI };
  };
  return {
    leftIntoRight: leak(),
    rightIntoLeft: leak(),
    levelDb: gauss(0.5),
    balanceDb: gauss(0.15),
    speedErrorPercent: gauss(0.1),
    zenithDeg: gauss(0.25),
    verticalAngleDeg: gauss(1.5),
    secondHarmonicPercent: gauss(0.15),
  };
}

/**
 * Everything at random: the deck's faults, an arm whose tip swings on its arc, a tip that is round, generators that bend both
 * ways, and a record with faults of its own.
 * @param overrides what a test wants to fix; `faultless` for loops about the signal alone, whose truth is record and deck together
 */
export function randomDeck(
  seed: number,
  overrides: { readonly bits?: 16 | 24 | 32 | 'float'; readonly record?: 'uncertified' | 'faultless' } = {},
) {
  const more = dice(seed + 500_000);
  const arm = ARMS[Math.floor(more(0, ARMS.length))];
  const draw = dice(seed);
  const maybe = (share: number): boolean => draw(0, 1) < share;
  const angle = (): number => draw(-180, 180);
  const humDb = draw(-75, -48);
  const highest = maybe(0.5) ? 6 : 22;
  return {
    platter: {
      speedErrorPercent: draw(-0.5, 0.5),
      wow: [
        { harmonic: 1, percent: draw(0, 0.08), phaseDeg: angle() },
        { harmonic: 2, percent: draw(0, 0.03), phaseDeg: angle() },
      ],
      flutter: [
        { hz: draw(4, 12), percent: draw(0, 0.03), phaseDeg: angle() },
        { hz: draw(20, 110), percent: draw(0, 0.03), phaseDeg: angle() },
      ],
      driftPercent: maybe(0.5) ? 0 : draw(0, 0.006),
      startAngleDeg: angle(),
    },
    record: {
      offCentreMm: draw(0, 0.3),
      offCentreAngleDeg: angle(),
      // a record that looks flat: 0.2 mm, k = 2
      warp: [{ harmonic: 1, mm: Math.abs(normal(more)(0.1)), phaseDeg: angle() }],
      surfaceNoiseDb: draw(-62, -44),
      surfaceCorrelation: draw(-0.5, 0.8),
      clicksPerMinute: maybe(0.5) ? 0 : draw(5, 90),
      clickDb: draw(-6, 14),
      thumpDb: 0,
      // a groove on its way inwards reads slow, which is the record's too
      ...(overrides.record === 'faultless' ? {} : { groovePitchMm: more(0.05, 0.15), cut: randomRecord(seed) }),
    },
    bearing: { rumbleLateralDb: draw(-60, -38), rumbleVerticalDb: draw(-60, -38) },
    arm: {
      trackingErrorDeg: draw(-2, 2),
      geometry: { spindleToPivotMm: arm[0], effectiveLengthMm: arm[1] + more(-1, 1), offsetDeg: arm[2] + more(-1, 1) },
      pivotHeightMm: more(4, 20),
      dropUm: { lateral: more(-60, 60), vertical: more(10, 80) },
      verticalAngleDeg: draw(16, 26),
      lateralResonance: { hz: draw(7, 13), q: draw(1, 4) },
      verticalResonance: { hz: draw(7, 13), q: draw(1, 4) },
    },
    cartridge: {
      tiltDeg: draw(-3, 3),
      leftIntoRight: { db: draw(-38, -26), phaseDeg: angle() },
      rightIntoLeft: { db: draw(-38, -26), phaseDeg: angle() },
      gainDb: { left: draw(-1.5, 1.5), right: draw(-1.5, 1.5) },
      secondHarmonicPercent: { left: draw(-1, 1), right: draw(-1, 1) },
      thirdHarmonicPercent: { left: draw(-0.15, 0.15), right: draw(-0.15, 0.15) },
      displacementBendPercent: { left: more(-0.3, 0.3), right: more(-0.3, 0.3) },
      tipRadiusUm: more(6, 18),
      stylusSkewDeg: more(-3, 3),
      // a skewed edge delays one wall as no chain does: up to 0.005° of tilt, which is none of the signal's
      contactWidthUm: overrides.record === 'faultless' ? 0 : more(0, 30),
    },
    leads: { swapped: false, leftInverted: maybe(0.15), rightInverted: false },
    preamp: {
      gainDb: { left: draw(-0.5, 0.5), right: draw(-0.5, 0.5) },
      rightDelayUs: maybe(0.5) ? 0 : draw(-25, 25),
      mainsHz: maybe(0.5) ? (50 as const) : (60 as const),
      hum: Array.from({ length: highest }, (_, i) => ({
        harmonic: i + 1,
        leftDb: Math.max(-150, humDb - draw(0, 14) - 14 * Math.log10(i + 1)),
        rightDb: Math.max(-150, humDb - draw(0, 14) - 14 * Math.log10(i + 1)),
        leftPhaseDeg: angle(),
        rightPhaseDeg: angle(),
      })),
      noiseDb: draw(-80, -60),
    },
    converter: {
      offsetPercent: { left: draw(-0.2, 0.2), right: draw(-0.2, 0.2) },
      bits: overrides.bits ?? (maybe(0.3) ? (16 as const) : (24 as const)),
    },
    side: { beforeDropS: 0.2, leadInS: 0.5, gapS: 0.4, leadOutS: 0.3, afterLiftS: 0.1 },
  };
}
