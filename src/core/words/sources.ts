/** What an uncertainty is made of, as a budget names it: a few words, small, without a stop. */
// biome-ignore format: one entry a line merges easily
export const sources = {
  'signal': 'signal',
  'readings': 'readings',
  'phase-of-leaks': 'unknown phase of the leaks',
  'leaks': 'leaks',
  // — the record —
  'record-leak': 'leak and tilt of the record',
  'record-tilt': 'tilt of the record',
  'record-learned': 'record as learned from {decks} decks',
  'cut-speed': 'speed of the cut',
  'cut-balance': 'balance of the cut',
  'cut-velocity': 'velocity of the cut',
  'cut-zenith': 'zenith of the cut',
  'cut-tilt': 'tilt of the cut',
  'cut-vertical-angle': 'vertical angle of the cut',
  'cut-second-harmonic': 'second harmonic of the cut',
  'band-radius': 'radius of the band',
  'record-hole': 'the record’s hole',
  'record-hole-before': 'eccentricity before anything is heard',
  'hole-seating': 'seating of the hole',
  'warp': 'warp',
  'tone-start': 'start of the tone',
  // — deck and chain —
  'arm-not-given': 'arm not given',
  'platter-own': 'the platter’s own part',
  'equalisation': 'playback equalisation',
  'converter-clock': 'clock of the converter',
  'inward-path': 'inward path on the arc',
  'strobe-reading': 'strobe reading',
  'speed-by-tone': 'speed by the tone',
  'method': 'allowances of the method',
} as const;
