/** Whom a report is for. */
export const audiences = ['customer', 'technician'] as const;
export type Audience = (typeof audiences)[number];

export const isAudience = (text: string): text is Audience => audiences.some((name) => name === text);
