export const CHANNELS = ['left', 'right'] as const;
export type Channel = (typeof CHANNELS)[number];
