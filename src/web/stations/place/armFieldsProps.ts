import type { ArmTyped } from '../../../core/job/stations/place/typed.ts';

/** What every group of the arm's fields is given. */
export interface ArmFieldsProps {
  readonly typed: ArmTyped;
  set(patch: ArmTyped): void;
}
