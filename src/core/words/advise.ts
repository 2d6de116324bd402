/** Moves, their reasons and their cautions. */
// biome-ignore format: one entry a line merges easily
export const adviseWords = {
  'record-uncertified': 'No certificate: the leak and the tilt of the record are assumed.',
  'separation-open': 'At least {low:.1} dB: the record’s own leak may hide any better figure.',
  'decide-by-seating': 'Undecided: lift the record, seat it again and measure again; the mean of several seatings would decide it.',
  'decide-by-radii': 'Undecided: speed tones at two radii, and the arm’s geometry, would decide it.',
  'decide-by-recording': 'Undecided: a longer or quieter recording would decide it.',
  'decide-by-strobe': 'Undecided: a strobe disc, or a record with a certified speed, would decide it.',
  'decide-by-record': 'Undecided: a certified record, a second record, or this record learned from ten decks would decide it.',
  'decide-by-phase': 'Undecided: a recording, or mono sums, would decide it.',
  'turn-benefit': 'Expected gain of the worse separation: {gain:.1} dB; chance of losing more than 0.5 dB: {harm:.0} %.',
  'turn-trial': 'This is a trial: turn, then read again with another record. If the worse separation fell, turn back.',
  'turn-trial-meter': 'This is a trial: if the worse reading fell, go back.',
  'turn-part': 'Only part of the tilt as heard, {heard:+.2}°: the rest may be the record’s.',
  'mirror-first': 'Look in a mirror first: if the cartridge and its image are in line, suspect the record or the cartridge and leave it.',
  'leave-tilt': 'Leave the tilt: no turn is expected to gain 1 dB of the worse separation.',
  'leave-could-gain': 'With a better known record a turn might still gain {gain:.1} dB.',

  'limit-within': 'The limit of {limit} {unit} lies within the uncertainty.',
} as const;
