/**
 * A virtual deck: everything that can be wrong with a turntable, its arm, cartridge, preamplifier and converter, each
 * fault with its unit in its name, its default (no fault) and its bounds. Signs as in docs/signs.md.
 */
import {
  choice,
  flag,
  group,
  integer,
  list,
  maybe,
  number,
  type PartialOf,
  readFields,
  text,
  type ValueOf,
} from './fields.ts';

const resonance = (hz: number, min: number, max: number) => group({ hz: number(hz, min, max), q: number(2, 0.3, 20) });
const bothDb = () => group({ left: number(0, -40, 40), right: number(0, -40, 40) });
const bothPercent = () => group({ left: number(0, -20, 20), right: number(0, -20, 20) });

/** How one channel leaks into the other; inside the cartridge at 1 kHz, and the phase turns with frequency (docs/virtual-deck.md). */
const leak = () => group({ db: number(-35, -120, -6), phaseDeg: number(0, -180, 180) });

const humLine = () =>
  group({
    harmonic: integer(1, 1, 40),
    leftDb: number(-70, -160, 0),
    rightDb: number(-70, -160, 0),
    leftPhaseDeg: number(0, -360, 360),
    rightPhaseDeg: number(0, -360, 360),
  });

export const deckFields = group({
  schema: choice(1),
  name: text('practice deck'),
  platter: group({
    /** positive: the record turns fast */
    speedErrorPercent: number(0, -10, 10),
    /** repeats with the platter: `harmonic` times a turn; zero to peak; phase against the platter's angle */
    wow: list(group({ harmonic: integer(1, 1, 20), percent: number(0.05, 0, 5), phaseDeg: number(0, -360, 360) })),
    /** repeats in time, zero to peak */
    flutter: list(group({ hz: number(10, 0.05, 200), percent: number(0.02, 0, 2), phaseDeg: number(0, -360, 360) })),
    /** slow wandering between 0.03 and 3 Hz, rms */
    driftPercent: number(0, 0, 1),
    /** platter's angle at the capture's first frame */
    startAngleDeg: number(0, -360, 360),
    /** slower by this while the tip rests in the groove; `speedErrorPercent` is that with the tip up */
    dragPercent: number(0, 0, 5),
    /** fast by this when the take starts, falling to nothing as e^(−t/τ) */
    warmUpPercent: number(0, -5, 5),
    warmUpMinutes: number(5, 0.2, 120),
  }),
  record: group({
    /** the hole's distance from the groove's centre */
    offCentreMm: number(0, 0, 3),
    /** platter angle at which the groove's centre lies from the spindle towards the pivot; without a geometry, towards the tip, where it adds most speed */
    offCentreAngleDeg: number(0, -360, 360),
    /** the record lies turned by this on the platter; the tip is set down at the same place of its groove */
    turnedDeg: number(0, -360, 360),
    /** the groove comes nearer to the spindle by this in a turn, within bands */
    groovePitchMm: number(0, 0, 1),
    /** how the record differs from what its file says (and where that is silent, from a record without fault) */
    cut: group({
      /** of the cutter head, clockwise in the front view */
      tiltDeg: number(0, -20, 20),
      /** of the cutter, the same at every frequency; of the walls as they should be */
      leftIntoRight: maybe(leak()),
      rightIntoLeft: maybe(leak()),
      levelDb: number(0, -6, 6),
      /** left wall over right wall */
      balanceDb: number(0, -6, 6),
      /** tones are cut high by this: they read as a fast platter */
      speedErrorPercent: number(0, -5, 5),
      /** the cutter's twist, clockwise from above: adds to the tracking error that is heard */
      zenithDeg: number(0, -10, 10),
      /** cut at an angle steeper by this than the file's */
      verticalAngleDeg: number(0, -30, 30),
      /** of tones moving with the reference velocity, in phase, signed as the tracking error's */
      secondHarmonicPercent: number(0, -10, 10),
      /** level of a sweep over what its file says, rising by this; 0 at 1 kHz */
      sweepSlopeDbPerDecade: number(0, -6, 6),
      /** and beside that, straight between these points over the logarithm of the frequency; the end ones beyond them */
      sweepResponse: list(group({ hz: number(1000, 1, 100000), db: number(0, -12, 12) })),
    }),
    /** vertical warp, zero to peak, `harmonic` times a turn */
    warp: list(group({ harmonic: integer(1, 1, 12), mm: number(0.1, 0, 3), phaseDeg: number(0, -360, 360) })),
    /** noise of one wall at the output, 20 Hz to 20 kHz, rms, under the reference tone's rms; null is none */
    surfaceNoiseDb: maybe(number(-60, -140, 0)),
    /** between the walls: 1 all lateral, −1 all vertical */
    surfaceCorrelation: number(0, -1, 1),
    /** lead-in and lead-out are this much noisier than the bands */
    leadNoiseDb: number(6, 0, 40),
    clicksPerMinute: number(0, 0, 3000),
    /** peak velocity of a middling click against the reference velocity */
    clickDb: number(6, -40, 40),
    /** the needle's drop and lift, peak velocity against the reference velocity; null is none */
    thumpDb: maybe(number(0, -60, 30)),
  }),
  bearing: group({
    /** rms at the output as RIAA gives it, 5 to 300 Hz, under the reference tone's rms; null is none */
    rumbleLateralDb: maybe(number(-50, -140, 0)),
    rumbleVerticalDb: maybe(number(-50, -140, 0)),
  }),
  arm: group({
    /** tracking error θ − φ, the same at every radius; added to the geometry's where that is given */
    trackingErrorDeg: number(0, -15, 15),
    /** with it the tracking error follows the radius */
    geometry: maybe(
      group({
        spindleToPivotMm: number(222, 50, 1000),
        effectiveLengthMm: number(239.296, 50, 1000),
        offsetDeg: number(22.986, -60, 60),
      }),
    ),
    /** playback's vertical tracking angle; the record's is in the sheet, 20° where it says nothing */
    verticalAngleDeg: number(20, -10, 60),
    /** the vertical bearing's height over the record: what makes a warp change the speed; needs a geometry */
    pivotHeightMm: number(0, -50, 100),
    /** the tip falls into its groove this far beside and above where it then rides: the arm rings down */
    dropUm: group({ lateral: number(0, -500, 500), vertical: number(0, -500, 500) }),
    /** the arm's swinging on its spring carries the tip along the groove: a tone wavers where it resonates */
    swings: flag(false),
    lateralResonance: maybe(resonance(10, 2, 40)),
    verticalResonance: maybe(resonance(10, 2, 40)),
  }),
  cartridge: group({
    /** clockwise in the front view */
    tiltDeg: number(0, -20, 20),
    leftIntoRight: maybe(leak()),
    rightIntoLeft: maybe(leak()),
    gainDb: bothDb(),
    /** of a wall moving with the reference velocity, in the groove's velocity (before equalisation), signed as the tracking error's */
    secondHarmonicPercent: bothPercent(),
    thirdHarmonicPercent: bothPercent(),
    /** a generator that bends with displacement: second harmonic of a wall moving with the reference velocity at 1 kHz, in quadrature */
    displacementBendPercent: bothPercent(),
    /** wall velocity up to which the tip falls back to its wall, peak; null follows everything */
    tracksUpToCmS: group({ left: maybe(number(30, 0.5, 200)), right: maybe(number(30, 0.5, 200)) }),
    /** the gentle way beside it: a wall that draws away faster than this acceleration leaves the tip behind by a share of what is lacking */
    slips: maybe(
      group({
        leftUpToMS2: maybe(number(150, 1, 20000)),
        rightUpToMS2: maybe(number(150, 1, 20000)),
        lostPercent: number(5, 0.1, 100),
        ringHz: number(8000, 1000, 40000),
        ringQ: number(3, 0.5, 50),
        /** what one cantilever brings of it to the other wall */
        otherWallPercent: number(20, -100, 100),
      }),
    ),
    /** of a round tip along the groove; 0 traces everything */
    tipRadiusUm: number(0, 0, 50),
    /** the tip's contact edge twisted in its cantilever, clockwise from above */
    stylusSkewDeg: number(0, -20, 20),
    /** between the contacts with both walls, without what a round edge takes off */
    contactWidthUm: number(0, 0, 60),
    topResonance: group({ left: maybe(resonance(18000, 5000, 80000)), right: maybe(resonance(18000, 5000, 80000)) }),
    /** of both generators, into the preamp's load; null: a load does nothing */
    coil: maybe(group({ resistanceOhm: number(700, 1, 10000), inductanceMh: number(500, 0.01, 3000) })),
  }),
  leads: group({
    /** the cartridge's left generator on the right input and the other way round */
    swapped: flag(false),
    /** of the cartridge's own channel, before the swap */
    leftInverted: flag(false),
    rightInverted: flag(false),
  }),
  preamp: group({
    equalisation: choice('riaa', 'riaa-7950', 'flat'),
    /** where coupling capacitors and the converter are 3 dB down at the low end, first order, beside the equalisation; null passes down to 0 Hz */
    lowCornerHz: maybe(number(20, 0.1, 100)),
    /** cable and input together */
    load: group({ resistanceOhm: number(47000, 100, 1000000), capacitancePf: number(150, 1, 5000) }),
    gainDb: bothDb(),
    /** the right channel comes later by this */
    rightDelayUs: number(0, -50, 50),
    mainsHz: choice(50, 60),
    /** peak of each line under the reference tone's peak, at the output */
    hum: list(humLine()),
    /** the same from the motor's field, while it runs; s of the whole take, null is to its end */
    motorHum: list(humLine()),
    motorOnAtS: number(0, 0, 7200),
    motorOffAtS: maybe(number(60, 0, 7200)),
    /** noise of the input stage at the output, 20 Hz to 20 kHz, rms under the reference tone's rms; null is none */
    noiseDb: maybe(number(-80, -160, 0)),
  }),
  converter: group({
    /** peak of the reference tone (one wall, 1 kHz, reference velocity, gains 0 dB) under full scale */
    referenceDbfs: number(-18, -60, 0),
    /** what lies beyond is cut off */
    clipDbfs: number(0, -40, 0),
    offsetPercent: group({ left: number(0, -50, 50), right: number(0, -50, 50) }),
    bits: choice<16 | 24 | 32 | 'float'>(24, 16, 32, 'float'),
    dither: flag(true),
  }),
  side: group({
    /** needle in the air before the drop, s of groove */
    beforeDropS: number(1, 0, 60),
    leadInS: number(3, 0, 120),
    gapS: number(2, 0, 60),
    leadOutS: number(3, 0, 120),
    afterLiftS: number(0.5, 0, 60),
    /** the cutter's fade at both ends of a band */
    fadeMs: number(5, 0, 500),
    /** the capture starts and stops here: s of the whole take; null is its end */
    captureFromS: number(0, 0, 7200),
    captureToS: maybe(number(60, 0, 7200)),
  }),
});

export type Deck = ValueOf<typeof deckFields>;
/** A deck as a person writes it: what is left out has no fault. */
export type DeckFile = PartialOf<typeof deckFields>;
export type Resonance = { readonly hz: number; readonly q: number };

/**
 * A whole deck from a `*.deck.json` document.
 * @throws RangeError naming the key, its value and its bounds, or frequencies that do not ascend
 */
export function readDeck(given: DeckFile | unknown): Deck {
  if (given === undefined) throw new RangeError('deck: nothing given, expected an object in { }');
  const deck = readFields(deckFields, given, '');
  deck.record.cut.sweepResponse.forEach(({ hz }, i, all) => {
    if (i > 0 && !(hz > all[i - 1].hz))
      throw new RangeError(
        `record.cut.sweepResponse[${i}].hz: ${hz} given, expected more than ${all[i - 1].hz}, the one before`,
      );
  });
  return deck;
}
