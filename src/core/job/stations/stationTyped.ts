/** What is typed at each station. */
import type { FitTyped } from './fit.ts';
import type { HandOverTyped } from './handOver.ts';
import type { HeightTyped } from './height.ts';
import type { IntakeTyped } from './intake.ts';
import type { MatchTyped } from './match.ts';
import type { PlaceTyped } from './place.ts';
import type { RunTyped } from './run.ts';
import type { TiltTyped } from './tilt.ts';
import type { WeighTyped } from './weigh.ts';

export interface StationTyped {
  readonly intake: IntakeTyped;
  readonly match: MatchTyped;
  readonly fit: FitTyped;
  readonly weigh: WeighTyped;
  readonly place: PlaceTyped;
  readonly height: HeightTyped;
  readonly tilt: TiltTyped;
  readonly run: RunTyped;
  readonly 'hand-over': HandOverTyped;
}
