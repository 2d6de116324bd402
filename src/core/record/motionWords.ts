/** What a band's motion is called on a page or a terminal; nothing where there is none, or it is not known. */
import type { Band } from './band.ts';

export const motionWords: Readonly<Record<Band['motion'], string>> = {
  left: 'left only',
  right: 'right only',
  lateral: 'lateral',
  vertical: 'vertical',
  none: '',
  unknown: '',
};
