/** What may be wrong with leads, and how each fault sounds and measures. */
import { type Statement, statement } from '../../words/statement.ts';
import { coilOf, type Lead, leadOn, leads, otherEnd, type Pin, pins, signOf, type Wiring } from './leads.ts';

export type FaultName =
  | 'channels-swapped'
  | 'one-reversed'
  | 'both-reversed'
  | 'returns-crossed'
  | 'coil-between-inputs'
  | 'lead-off'
  | 'two-on-one-pin';

/** A finding that this fault would bring, by its name in the contract. */
export interface Shows {
  readonly quantity:
    | 'polarity'
    | 'channel-order'
    | 'hum'
    | 'separation-left-to-right'
    | 'separation-right-to-left'
    | 'channel-balance'
    | 'second-harmonic'
    | 'tracking-error';
  /** stands behind the quantity's title and a colon */
  readonly reads: Statement;
}

export interface WiringFault {
  readonly name: FaultName;
  /** begins small: it stands in a list or behind a colon */
  readonly title: Statement;
  /** which leads are meant */
  readonly leads: readonly Lead[];
  readonly sounds: Statement;
  readonly measures: Statement;
  readonly shows: readonly Shows[];
}

const fault = (
  name: FaultName,
  title: Statement,
  which: readonly Lead[],
  sounds: Statement,
  measures: Statement,
  shows: readonly Shows[],
): WiringFault => ({ name, title, leads: which, sounds, measures, shows });

/** Leads on no pin, or two on one. */
export function brokenFaults(wiring: Wiring): WiringFault[] {
  const off = leads.filter((lead) => wiring[lead] === null);
  const faults: WiringFault[] = [];
  if (off.length > 0) {
    faults.push(
      fault(
        'lead-off',
        statement('lead-off', { leads: off.join(' and '), count: off.length }),
        off,
        statement('lead-off-sounds'),
        statement('lead-off-measures'),
        [
          { quantity: 'channel-balance', reads: statement('reads-balance-far') },
          { quantity: 'hum', reads: statement('reads-hum-far') },
        ],
      ),
    );
  }
  const doubled = pins.filter((pin) => leads.filter((lead) => wiring[lead] === pin).length > 1);
  if (doubled.length > 0) {
    const which = leads.filter((lead) => wiring[lead] !== null && doubled.includes(wiring[lead] as Pin));
    faults.push(
      fault(
        'two-on-one-pin',
        statement('two-on-one-pin', { leads: which.join(' and ') }),
        which,
        statement('two-on-one-pin-sounds'),
        statement('two-on-one-pin-measures'),
        [{ quantity: 'channel-balance', reads: statement('reads-balance-far-or-alike') }],
      ),
    );
  }
  return faults;
}

const COIL_BETWEEN = fault(
  'coil-between-inputs',
  statement('coil-between-inputs'),
  ['white', 'red'],
  statement('coil-between-inputs-sounds'),
  statement('coil-between-inputs-measures'),
  [{ quantity: 'polarity', reads: statement('reads-antiphase') }],
);

const SWAPPED = fault(
  'channels-swapped',
  statement('leads-exchanged'),
  ['white', 'blue', 'red', 'green'],
  statement('channels-swapped-sounds'),
  statement('channels-swapped-measures'),
  [{ quantity: 'channel-order', reads: statement('reads-swapped') }],
);

const oneReversed = (which: readonly Lead[], channel: string) =>
  fault(
    'one-reversed',
    statement('channel-reversed', { channel }),
    which,
    statement('one-reversed-sounds'),
    statement('one-reversed-measures'),
    [{ quantity: 'polarity', reads: statement('reads-antiphase') }],
  );

const BOTH_REVERSED = fault(
  'both-reversed',
  statement('channels-reversed'),
  ['white', 'blue', 'red', 'green'],
  statement('both-reversed-sounds'),
  statement('both-reversed-measures'),
  [
    { quantity: 'polarity', reads: statement('reads-in-phase') },
    { quantity: 'channel-order', reads: statement('reads-normal') },
    { quantity: 'second-harmonic', reads: statement('reads-sign-turned') },
    { quantity: 'tracking-error', reads: statement('reads-sign-turned') },
  ],
);

const CROSSED = fault(
  'returns-crossed',
  statement('returns-crossed'),
  ['blue', 'green'],
  statement('returns-crossed-sounds'),
  statement('returns-crossed-measures'),
  [
    { quantity: 'hum', reads: statement('reads-stronger') },
    { quantity: 'separation-left-to-right', reads: statement('reads-lower') },
    { quantity: 'separation-right-to-left', reads: statement('reads-lower') },
  ],
);

/** Faults of a wiring with every lead on a pin of its own. */
export function permutationFaults(wiring: Readonly<Record<Lead, Pin>>): WiringFault[] {
  const { white, red } = wiring;
  if (coilOf(white) === coilOf(red)) return [COIL_BETWEEN];
  const faults: WiringFault[] = [];
  if (coilOf(white) === 'right') faults.push(SWAPPED);
  const leftReversed = signOf(white) === -1;
  const rightReversed = signOf(red) === -1;
  const crossed = leadOn(wiring, otherEnd(white)) === 'green';
  if (leftReversed && rightReversed) faults.push(BOTH_REVERSED);
  else if (leftReversed) faults.push(oneReversed(['white', crossed ? 'green' : 'blue'], 'left'));
  else if (rightReversed) faults.push(oneReversed(['red', crossed ? 'blue' : 'green'], 'right'));
  if (crossed) faults.push(CROSSED);
  return faults;
}
