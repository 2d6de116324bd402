/** Moves, their reasons and their cautions. */
// biome-ignore format: one entry a line merges easily
export const adviseWords = {

  'limit-within': 'The limit of {limit} {unit} lies within the uncertainty.',
} as const;
