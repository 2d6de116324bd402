/** The four leads on the four pins: what is where, what is wrong, and what that sounds and measures like. */
import { type Statement, statement } from '../words/statement.ts';
import { type Heard, throughCommonReturn, throughSeparateReturns } from './wiring/circuits.ts';
import { brokenFaults, type FaultName, permutationFaults, type WiringFault } from './wiring/faults.ts';
import { correctWiring, type Lead, leads, type Pin, pins, type Wiring } from './wiring/leads.ts';

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

export interface WiringCheck {
  readonly correct: boolean;
  readonly faults: readonly WiringFault[];
  /** the two kinds of input: both returns on one ground (usual), and each channel's return apart (balanced) */
  readonly commonReturn: { readonly left: Heard; readonly right: Heard };
  readonly separateReturns: { readonly left: Heard; readonly right: Heard };
  /** leads to move, none when correct */
  readonly moves: readonly { readonly lead: Lead; readonly from: Pin | null; readonly to: Pin }[];
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
