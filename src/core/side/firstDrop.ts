/** Where the tip may have dropped into the groove though ears cannot tell. */
import type { FoundBands } from '../record/bandFinder.ts';
import type { Stretch } from '../record/stretch.ts';

/** s at most, from the capture's start, in which the tip may drop unheard */
const UNHEARD_DROP_S = 12;

/** A tip that comes down where chain and groove are alike is not told by ear: it may lie anywhere before the first band. */
export function firstDrop({ bands, stretches }: Pick<FoundBands, 'bands' | 'stretches'>): Stretch[] {
  const first = bands.find(({ signal }) => signal !== 'silent-groove' && signal !== 'unknown');
  if (first === undefined || first.startS < 1 || stretches.some(({ kind }) => kind === 'tip-drop')) return [];
  return [{ kind: 'tip-drop', startS: 0, endS: Math.min(first.startS - 0.1, UNHEARD_DROP_S) }];
}
