/** Weigh, height, screws, leads. */
// biome-ignore format: one entry a line merges easily
export const benchWords = {
} as const;
