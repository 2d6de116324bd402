/** Match: notes and moves. */
// biome-ignore format: one entry a line merges easily
export const matchWords = {
} as const;
