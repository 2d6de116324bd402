/** What measured figures rest on: the notes of findings. */
// biome-ignore format: one entry a line merges easily
export const measureWords = {
  // sentences that have not moved into a table yet
  plain: '{text}',

  'turns-read': 'Zero to peak, over {turns:.1} turns.',
  'rpm-assumed': 'The record is assumed to turn {rpm} times a minute.',
  'hole-parted': 'From {bands} bands at {inner} to {outer} mm of one recording: the hole and the platter are told apart.',
  'hole-not-parted': 'One radius, or radii too near to each other: most of once per turn is assumed to be the record’s, and what the platter may add is in the uncertainty.',
  'arm-given': 'For the arm as given.',
  'arm-assumed': 'The arm is assumed to be a pivoted one of 9 to 12 inches; give its geometry for a smaller uncertainty.',
  'hole-direction': 'Where the first tone starts, the groove’s centre lies by this clockwise of the line from the spindle to the pivot.',
  'hole-direction-tangential': 'Where the first tone starts, the groove’s centre lies by this clockwise of the line from the spindle to the tip.',
  'platter-part': 'The platter’s own part, the same at every radius; a warp has a share in it.',
  'hole-taken-out': 'The record’s hole, {percent:.3} % once per turn on this band, is taken out: the deck is judged by this figure.',
} as const;
