/** Stretches of a capture that are no bands, for whoever wants to hear them: the tip in the air, and the tip coming down. */
export interface Stretch {
  /**
   * `tip-up`: the tip is in the air, what is heard is the chain's own noise. `tip-drop`: from just before the tip meets the
   * groove until it has come to rest there, or the first band begins.
   */
  readonly kind: 'tip-up' | 'tip-drop';
  /** s from the capture's first frame */
  readonly startS: number;
  readonly endS: number;
}
