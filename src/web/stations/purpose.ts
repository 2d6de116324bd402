/** What each station is for and what can go wrong there; shown where the work is done. A maker's manual wins over all of it. */

import type { StationName } from '../../core/job/station.ts';
import type { purposeWords } from '../../core/words/purposes.ts';
import { say, statement } from '../../core/words/statement.ts';

interface Purpose {
  readonly aim: keyof typeof purposeWords;
  readonly cautions: readonly (keyof typeof purposeWords)[];
}

const told: Readonly<Record<StationName, Purpose>> = {
  intake: { aim: 'for-intake', cautions: ['care-intake-1'] },
  match: { aim: 'for-match', cautions: ['care-match-1'] },
  fit: { aim: 'for-fit', cautions: ['care-fit-1', 'care-fit-2', 'care-fit-3'] },
  weigh: { aim: 'for-weigh', cautions: ['care-weigh-1'] },
  place: { aim: 'for-place', cautions: ['care-place-1'] },
  height: { aim: 'for-height', cautions: ['care-height-1'] },
  tilt: { aim: 'for-tilt', cautions: ['care-tilt-1'] },
  run: { aim: 'for-run', cautions: ['care-run-1', 'care-run-2'] },
  'hand-over': { aim: 'for-hand-over', cautions: ['care-hand-over-1'] },
};

export const purposeOf = (station: StationName): { readonly aim: string; readonly cautions: readonly string[] } => {
  const { aim, cautions } = told[station];
  return { aim: say(statement(aim)), cautions: cautions.map((code) => say(statement(code))) };
};
