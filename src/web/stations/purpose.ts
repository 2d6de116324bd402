/** What each station is for and what can go wrong there; shown where the work is done. A maker's manual wins over all of it. */
import type { StationName } from '../../core/job/station.ts';

export interface Purpose {
  readonly aim: string;
  readonly cautions: readonly string[];
}

export const purposes: Readonly<Record<StationName, Purpose>> = {
  intake: {
    aim: 'Look the deck over, write down what came in, and measure it before anything is touched.',
    cautions: [
      'Guard on while the hands are near the stylus. Keep children and sleeves away from a turning platter. Volume down before a test tone plays.',
    ],
  },
  match: {
    aim: 'Settle which cartridge, hardware and preamp settings go together with this arm.',
    cautions: ['The makers’ manuals for arm and cartridge win over any rule of thumb.'],
  },
  fit: {
    aim: 'Leads on, screws in: white is left signal, blue left return, red right signal, green right return.',
    cautions: [
      'Mute or switch the amplifier off before touching cartridge leads, and keep the level low when first unmuting.',
      'Guard on. Steel tools are pulled by the cartridge’s magnet, straight into the stylus.',
      'Never press or twist against the arm’s bearings: take the headshell off, or hold it.',
    ],
  },
  weigh: {
    aim: 'Balance the arm, then set the force at the tip, and weigh it again after every move of the cartridge.',
    cautions: ['Platter still, guard off only for the moment of weighing, anti-skating at zero while balancing.'],
  },
  place: {
    aim: 'Overhang and twist: the tip where the geometry wants it, the cartridge square to the groove at both null points.',
    cautions: ['Platter still and power off while a template lies on it. Guard on while loosening screws.'],
  },
  height: {
    aim: 'Arm height, so that the tip meets the groove at the angle it was cut at, with a record of usual thickness on the platter.',
    cautions: ['Lock the arm in its rest before loosening the pillar; it can drop when the screw is let go.'],
  },
  tilt: {
    aim: 'Turn the cartridge, seen from its face, until each channel leaks least into the other.',
    cautions: [
      'Volume down or loudspeakers muted before a test tone plays. Measure at line level, never at loudspeaker outputs.',
    ],
  },
  run: {
    aim: 'Play the whole test side and see what the deck does with it.',
    cautions: [
      'Volume down or loudspeakers muted before a test tone or sweep. Measure at line level, never at loudspeaker outputs.',
      'Disconnect from the mains before a deck is opened; leave mains wiring to a licensed electrician or service technician under local codes.',
    ],
  },
  'hand-over': {
    aim: 'Before and after, the verdicts, and the report that goes with the deck.',
    cautions: ['Tools clear of platter and arm, volume down; then power on, then unmute.'],
  },
};
