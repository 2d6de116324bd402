/** What is asked of the Place station. */
import type { PivotedArm } from './arm.ts';
import type { Limits } from './constrain.ts';
import type { CriterionName } from './criteria.ts';
import type { KnownLength } from './exact.ts';
import type { MoveRequest } from './invert.ts';
import type { MusicWeight } from './music.ts';
import type { GrooveSpan } from './span.ts';
import type { ToleranceOptions } from './tolerance.ts';

export interface PlaceRequest {
  /** a length, or a tangential arm */
  readonly length: KnownLength | { readonly known: 'tangential' };
  readonly span: GrooveSpan;
  readonly criterion: CriterionName;
  readonly music?: MusicWeight;
  /** turns a minute; 33⅓ where left out. Distortions are for 10 cm/s peak lateral velocity */
  readonly rpm?: number;
  /** what the arm does not allow; left out where everything is free */
  readonly limits?: Limits;
  /** what was read, with everything about the reading */
  readonly readings?: Pick<MoveRequest, 'readings' | 'travel' | 'tipAhead' | 'slotAngle'> & {
    readonly spindleToPivotUncertainty?: number;
  };
  /** the maker's own arm, where the pivot was measured elsewhere: `length` then holds the measured distance */
  readonly makers?: PivotedArm;
  readonly tolerance?: Omit<ToleranceOptions, 'loudness'>;
  readonly seed?: number;
  /** of the curve, mm */
  readonly step?: number;
}
