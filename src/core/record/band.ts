/** One stretch of groove heard in a capture, as `measure --json` prints it. */
export type BandSignal = 'tone' | 'two-tone' | 'sweep' | 'noise' | 'silent-groove' | 'unknown';
export type BandMotion = 'left' | 'right' | 'lateral' | 'vertical' | 'none' | 'unknown';

export interface Band {
  /** place in the array of bands, from 0 */
  readonly index: number;
  /** s from the capture's first frame; the steady part only, edges trimmed */
  readonly startS: number;
  readonly endS: number;
  readonly signal: BandSignal;
  readonly motion: BandMotion;
  /** Hz as heard (speed error included); null where there is no one tone */
  readonly frequencyHz: number | null;
  /** two-tone only, Hz as heard, lower first */
  readonly frequenciesHz?: readonly [number, number];
  /** sweep only, Hz as heard; as the record file has them where ears do not tell the sweep */
  readonly fromHz?: number;
  readonly toHz?: number;
  /** mm, from the record sheet */
  readonly radiusMm: number | null;
  /** place in the sheet's array of bands */
  readonly sheetBand: number | null;
}
