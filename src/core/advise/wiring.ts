/** The four leads on the four pins: what is where, what is wrong, and what that sounds and measures like. */
import { type Statement, statement } from '../words/statement.ts';

export const leads = ['white', 'blue', 'red', 'green'] as const;
export type Lead = (typeof leads)[number];

export const pins = ['left+', 'left-', 'right+', 'right-'] as const;
export type Pin = (typeof pins)[number];

/** Which pin each lead sits on; null: on none. */
export type Wiring = Readonly<Record<Lead, Pin | null>>;

/**
 * Lead colours: white left +, blue left −, red right +, green right −.
 * @source stereophile.com, "Tweaking your Record-Player", p. 3, and two further pages; no clause of a standard was seen
 */
export const correctWiring: Readonly<Record<Lead, Pin>> = {
  white: 'left+',
  blue: 'left-',
  red: 'right+',
  green: 'right-',
};

/** The cartridge seen from behind, pins towards the viewer, mount on top. mm from the middle of the four; x right, y up. */
export interface PinPlace {
  readonly pin: Pin;
  readonly lead: Lead;
  readonly xMm: number;
  readonly yMm: number;
}

/** One usual arrangement, for drawing only (from memory, not seen in a source): makers differ, the marks on the pins win. */
export const pinDrawing: {
  readonly view: 'rear';
  readonly places: readonly PinPlace[];
  readonly pinDiameterMm: number;
  readonly note: Statement;
} = {
  view: 'rear',
  places: [
    { pin: 'left+', lead: 'white', xMm: -2.5, yMm: 2.5 },
    { pin: 'left-', lead: 'blue', xMm: -2.5, yMm: -2.5 },
    { pin: 'right+', lead: 'red', xMm: 2.5, yMm: 2.5 },
    { pin: 'right-', lead: 'green', xMm: 2.5, yMm: -2.5 },
  ],
  pinDiameterMm: 1.2,
  note: statement('pins-as-drawn'),
};

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

/** What an input hears, in shares of each coil's voltage; `open`: no circuit, hum only. */
export type Heard = { readonly left: number; readonly right: number } | 'open';

export interface WiringCheck {
  readonly correct: boolean;
  readonly faults: readonly WiringFault[];
  /** the two kinds of input: both returns on one ground (usual), and each channel's return apart (balanced) */
  readonly commonReturn: { readonly left: Heard; readonly right: Heard };
  readonly separateReturns: { readonly left: Heard; readonly right: Heard };
  /** leads to move, none when correct */
  readonly moves: readonly { readonly lead: Lead; readonly from: Pin | null; readonly to: Pin }[];
}

type Side = 'left' | 'right';
const coilOf = (pin: Pin): Side => (pin.startsWith('left') ? 'left' : 'right');
const signOf = (pin: Pin): 1 | -1 => (pin.endsWith('+') ? 1 : -1);
const otherEnd = (pin: Pin): Pin => `${coilOf(pin)}${pin.endsWith('+') ? '-' : '+'}`;
const share = (coil: Side, amount: number): Heard =>
  coil === 'left' ? { left: amount, right: 0 } : { left: 0, right: amount };

function leadOn(wiring: Wiring, pin: Pin): Lead | null {
  return leads.find((lead) => wiring[lead] === pin) ?? null;
}

/** Both returns at one ground: each hot lead hears its coil when the coil's other end is grounded. */
function throughCommonReturn(wiring: Wiring, hot: 'white' | 'red'): Heard {
  const pin = wiring[hot];
  if (pin === null) return 'open';
  const other = leadOn(wiring, otherEnd(pin));
  if (other === 'blue' || other === 'green') return share(coilOf(pin), signOf(pin));
  // the coil hangs between the two inputs and drives both, half each, against one another
  if (other !== null) return share(coilOf(pin), signOf(pin) / 2);
  return 'open';
}

/** Returns apart: a channel hears a coil only between its own two leads; crossed returns put both coils in one loop. */
function throughSeparateReturns(wiring: Wiring, hot: 'white' | 'red'): Heard {
  const pin = wiring[hot];
  if (pin === null) return 'open';
  const own = hot === 'white' ? 'blue' : 'green';
  const other = leadOn(wiring, otherEnd(pin));
  if (other === own) return share(coilOf(pin), signOf(pin));
  const mateHot = wiring[hot === 'white' ? 'red' : 'white'];
  if (other === null || mateHot === null || wiring[own] === null) return 'open';
  if (other !== 'blue' && other !== 'green') {
    // white and red on one coil: it drives both loads in series through the other coil's loop
    const half = signOf(pin) / 2;
    const rest = wiring[own] as Pin;
    const mine = share(coilOf(pin), half) as { left: number; right: number };
    const others = share(coilOf(rest), -signOf(rest) / 2) as { left: number; right: number };
    return { left: mine.left + others.left, right: mine.right + others.right };
  }
  const mine = share(coilOf(pin), signOf(pin) / 2) as { left: number; right: number };
  const mate = share(coilOf(mateHot), signOf(mateHot) / 2) as { left: number; right: number };
  return { left: mine.left + mate.left, right: mine.right + mate.right };
}

const fault = (
  name: FaultName,
  title: Statement,
  which: readonly Lead[],
  sounds: Statement,
  measures: Statement,
  shows: readonly Shows[],
): WiringFault => ({ name, title, leads: which, sounds, measures, shows });

function brokenFaults(wiring: Wiring): WiringFault[] {
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
function permutationFaults(wiring: Readonly<Record<Lead, Pin>>): WiringFault[] {
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

/**
 * Checks four leads on four pins: every way of putting them is told apart, the four usual miswirings by name.
 *
 * @returns faults (several may stand together), what each kind of input hears, and the leads to move
 * @checked src/core/advise/wiring.test.ts: all 24 ways, against the circuit solved node by node
 */
export function checkWiring(wiring: Wiring): WiringCheck {
  for (const lead of leads) {
    const pin = wiring[lead];
    if (!(pin === null || pins.includes(pin))) {
      throw new RangeError(`the ${lead} lead is on '${pin}'; one of ${pins.join(', ')} or none was expected`);
    }
  }
  const broken = brokenFaults(wiring);
  const faults = broken.length > 0 ? broken : permutationFaults(wiring as Record<Lead, Pin>);
  const shared = broken.some((f) => f.name === 'two-on-one-pin');
  const hear = (through: (wiring: Wiring, hot: 'white' | 'red') => Heard) => ({
    left: shared ? ('open' as const) : through(wiring, 'white'),
    right: shared ? ('open' as const) : through(wiring, 'red'),
  });
  return {
    correct: faults.length === 0,
    faults,
    commonReturn: hear(throughCommonReturn),
    separateReturns: hear(throughSeparateReturns),
    moves: leads
      .filter((lead) => wiring[lead] !== correctWiring[lead])
      .map((lead) => ({ lead, from: wiring[lead], to: correctWiring[lead] })),
  };
}

/** The four usual miswirings, each as the leads would sit. */
export const usualMiswirings: readonly { readonly name: FaultName; readonly wiring: Readonly<Record<Lead, Pin>> }[] = [
  { name: 'channels-swapped', wiring: { white: 'right+', blue: 'right-', red: 'left+', green: 'left-' } },
  { name: 'one-reversed', wiring: { white: 'left+', blue: 'left-', red: 'right-', green: 'right+' } },
  { name: 'both-reversed', wiring: { white: 'left-', blue: 'left+', red: 'right-', green: 'right+' } },
  { name: 'returns-crossed', wiring: { white: 'left+', blue: 'right-', red: 'right+', green: 'left-' } },
];

export const WIRING_CAUTIONS: readonly Statement[] = [
  statement('caution-leads-mute'),
  statement('caution-leads-clips'),
  statement('caution-leads-solder'),
  statement('caution-leads-unmute'),
];
