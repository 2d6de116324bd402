/** Order of work at Fit and Weigh, with each caution where the hand is. Common practice. */
import { type Statement, statement } from '../words/statement.ts';

export interface WorkStep {
  /** stays the same over versions: a job keeps it ticked by this */
  readonly id: string;
  readonly does: Statement;
  /** shown with the step */
  readonly caution?: Statement;
}

/** The step that the pins' own answer ticks. */
export const CHECK_LEADS = 'check-leads';

export const fitSteps: readonly WorkStep[] = [
  {
    id: 'unplug',
    does: statement('step-unplug'),
    caution: statement('step-unplug-caution'),
  },
  {
    id: 'lock-arm',
    does: statement('step-lock-arm'),
    caution: statement('step-lock-arm-caution'),
  },
  {
    id: 'guard-on',
    does: statement('step-guard-on'),
    caution: statement('step-guard-on-caution'),
  },
  { id: 'note-leads', does: statement('step-note-leads') },
  {
    id: 'leads-off',
    does: statement('step-leads-off'),
    caution: statement('step-leads-off-caution'),
  },
  { id: 'old-off', does: statement('step-old-off') },
  { id: 'screws', does: statement('step-screws') },
  {
    id: 'mount',
    does: statement('step-mount'),
    caution: statement('step-mount-caution'),
  },
  {
    id: 'leads-on',
    does: statement('step-leads-on'),
    caution: statement('step-leads-on-caution'),
  },
  { id: CHECK_LEADS, does: statement('step-check-leads') },
  { id: 'hang-free', does: statement('step-hang-free') },
  { id: 'weigh-in', does: statement('step-weigh-in') },
];

export const weighSteps: readonly WorkStep[] = [
  { id: 'level', does: statement('step-level') },
  { id: 'skating-off', does: statement('step-skating-off') },
  {
    id: 'guard-off',
    does: statement('step-guard-off'),
    caution: statement('step-guard-off-caution'),
  },
  { id: 'float', does: statement('step-float') },
  { id: 'zero', does: statement('step-zero') },
  { id: 'turn', does: statement('step-turn') },
  {
    id: 'gauge',
    does: statement('step-gauge'),
    caution: statement('step-gauge-caution'),
  },
  { id: 'skating-on', does: statement('step-skating-on') },
  { id: 'recheck', does: statement('step-recheck') },
];
