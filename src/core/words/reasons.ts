/** Why a figure is withheld: each stands after a colon, so it begins small and ends without a stop. */
// biome-ignore format: one entry a line merges easily
export const reasons = {
  'no-speed-tone': 'no tone tells the speed',
  'not-known': '{what} {count?is|are} not known',
} as const;
