/** Order of work at Fit and Weigh, with each caution where the hand is. Common practice. */

export interface WorkStep {
  /** stays the same over versions: a job keeps it ticked by this */
  readonly id: string;
  readonly does: string;
  /** shown with the step */
  readonly caution?: string;
}

export const fitSteps: readonly WorkStep[] = [
  {
    id: 'unplug',
    does: 'Unplug the deck and switch the amplifier off, or mute it where it must stay on.',
    caution: 'Mains wiring is for a licensed electrician or a service technician, under local codes.',
  },
  {
    id: 'lock-arm',
    does: 'Put the arm in its rest and lock it.',
    caution: 'Never twist the arm against its bearings.',
  },
  {
    id: 'guard-on',
    does: 'Put the stylus guard on, or take the stylus off where it pulls out.',
    caution: 'Magnets pull steel tools into the stylus: use brass or plastic near it.',
  },
  { id: 'note-leads', does: 'Note which colour sits on which pin before the old cartridge comes off.' },
  {
    id: 'leads-off',
    does: 'Draw the four clips off.',
    caution: 'Tweezers on the clip, never pull by the wire; hold the shell with the other hand.',
  },
  { id: 'old-off', does: 'Take the old cartridge off; keep its screws with it.' },
  { id: 'screws', does: 'Lay out screws that engage three to four threads.' },
  {
    id: 'mount',
    does: 'Mount the new cartridge, screws just so tight that it can still be slid.',
    caution: 'Tighten by turns and by fingertip: a tapped body strips, a flange cracks.',
  },
  {
    id: 'leads-on',
    does: 'Push the clips on: white left +, blue left −, red right +, green right −; the marks on the pins win.',
    caution:
      'A clip that is too wide is closed on a cocktail stick, not on the pin. Never solder on the pins of a fitted cartridge.',
  },
  { id: 'check-leads', does: 'Check the colours against the pins once more, from behind.' },
  { id: 'hang-free', does: 'See that the leads hang free and pull the arm nowhere.' },
  { id: 'weigh-in', does: 'Take the mass of cartridge and hardware to Weigh.' },
];

export const weighSteps: readonly WorkStep[] = [
  { id: 'level', does: 'Level the deck, platter still, a record of ordinary thickness on it.' },
  { id: 'skating-off', does: 'Set anti-skating to nought.' },
  {
    id: 'guard-off',
    does: 'Take the guard off, or leave it on where it comes back on after the float: its mass counts.',
    caution: 'Keep a hand under the shell: an arm that is out of balance dips or flies.',
  },
  { id: 'float', does: 'Move the counterweight until the arm floats level and comes back to level by itself.' },
  { id: 'zero', does: 'Hold the counterweight still and turn its ring alone to nought.' },
  { id: 'turn', does: 'Turn counterweight and ring together to the force.' },
  {
    id: 'gauge',
    does: 'Weigh at record height with a gauge that was held against a known mass.',
    caution: 'Platter still, motor off. Magnets lift steel pans: use a gauge without iron.',
  },
  { id: 'skating-on', does: 'Set anti-skating to its start value.' },
  { id: 'recheck', does: 'Weigh again after every move of the cartridge.' },
];
