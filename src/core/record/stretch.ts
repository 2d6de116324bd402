/** Stretches of a capture that are no bands, for whoever wants to hear them: the tip in the air, the tip coming down, and what lies too low for ears. */
export interface Stretch {
  /**
   * `tip-up`: the tip is in the air, what is heard is the chain's own noise. `tip-drop`: from just before the tip meets the
   * groove until it has come to rest there, or the first band begins. `low-sweep`: somewhere in it lies a sweep of the record file
   * that is too low to be told by ear.
   */
  readonly kind: 'tip-up' | 'tip-drop' | 'low-sweep';
  /** s from the capture's first frame */
  readonly startS: number;
  readonly endS: number;
  /** of a `low-sweep`, place in the record file */
  readonly sheetBand?: number;
}
