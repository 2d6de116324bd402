/** What the page and the worker that plays the practice deck tell each other. */
export interface PracticeRequest {
  /** deg, clockwise seen from the cartridge's face positive */
  readonly tiltDeg: number;
  readonly seed: number;
}

export type PracticeReply =
  | { readonly kind: 'progress'; readonly fraction: number }
  | { readonly kind: 'done'; readonly file: File }
  | { readonly kind: 'failed'; readonly sentence: string };
