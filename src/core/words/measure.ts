/** What measured figures rest on: the notes of findings. */
// biome-ignore format: one entry a line merges easily
export const measureWords = {
  // sentences that have not moved into a table yet
  plain: '{text}',
} as const;
