/** Why a figure is withheld: each stands after a colon, so it begins small and ends without a stop. */
// biome-ignore format: one entry a line merges easily
export const reasons = {
  'no-speed-tone': 'no tone tells the speed',
  'not-known': '{what} {count?is|are} not known',
  'no-two-turns': 'no speed tone lasts two turns',
  'no-radius': 'no tone of two turns or more has a known radius: a record file with radii is needed',
  'pinch-weak': 'the tip’s lift cannot be told from what else could make it',
  'pinch-disagrees': 'two ways to read it disagree',
  'polarity-undecided': 'the absolute polarity, which gives the angle its sign, could not be decided',
  'pivot-distance-missing': 'the distance from spindle to pivot is not given',
  'radii-too-close': 'the two-tone bands lie too close together, or no arm of this pivot distance fits them',
} as const;
