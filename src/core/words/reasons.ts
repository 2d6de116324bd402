/** Why a figure is withheld: each stands after a colon, so it begins small and ends without a stop. */
// biome-ignore format: one entry a line merges easily
export const reasons = {
  'no-speed-tone': 'no tone tells the speed',
  'not-known': '{what} {count?is|are} not known',
  'no-two-turns': 'no speed tone lasts two turns',
  'no-radius': 'no tone of two turns or more has a known radius: a record file with radii is needed',
} as const;
