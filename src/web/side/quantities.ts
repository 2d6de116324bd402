/** What each quantity of the documents is called on the page, where it belongs, which curves show it, where its method is written. */
import { isSigned, quantityTitle } from '../../core/words/quantities.ts';

export type Group = 'tilt' | 'speed' | 'geometry' | 'resonance' | 'response' | 'distortion' | 'noise' | 'other';

export interface QuantityWords {
  readonly title: string;
  readonly group: Group;
  /** curve quantities that are its evidence, most telling first */
  readonly curves?: readonly string[];
  readonly signed: boolean;
  /** what the sign means, in words */
  readonly sense?: string;
}

export const groupTitles: Readonly<Record<Group, string>> = {
  tilt: 'Channels',
  speed: 'Speed, wow and flutter',
  geometry: 'Place and height, as heard',
  resonance: 'Arm resonance',
  response: 'Response',
  distortion: 'Distortion and tracking',
  noise: 'Hum, rumble and noise',
  other: 'Other figures',
};

const places: Readonly<Record<string, Omit<QuantityWords, 'title' | 'signed'>>> = {
  'azimuth-error': {
    group: 'tilt',
    curves: ['separation-against-tilt', 'crosstalk-spectrum', 'spectrum'],
    sense: 'Positive is clockwise, seen from the cartridge’s face.',
  },
  'separation-left-to-right': {
    group: 'tilt',
    curves: ['crosstalk-spectrum', 'separation', 'spectrum'],
  },
  'separation-right-to-left': {
    group: 'tilt',
    curves: ['crosstalk-spectrum', 'separation', 'spectrum'],
  },
  'channel-balance': {
    group: 'tilt',
    curves: ['spectrum', 'level'],
    sense: 'Positive when left is louder.',
  },
  polarity: { group: 'tilt', curves: ['spectrum'] },
  'channel-order': { group: 'tilt', curves: ['spectrum'] },
  'speed-error': {
    group: 'speed',
    curves: ['speed-deviation'],
    sense: 'Positive when the record turns fast.',
  },
  'wow-flutter-weighted': {
    group: 'speed',
    curves: ['speed-deviation', 'speed-deviation-spectrum'],
  },
  'wow-flutter-unweighted': {
    group: 'speed',
    curves: ['speed-deviation', 'speed-deviation-spectrum'],
  },
  'once-per-turn': { group: 'speed', curves: ['speed-deviation'] },
  eccentricity: { group: 'speed', curves: ['speed-deviation'] },
  'arm-resonance-lateral': { group: 'resonance', curves: ['resonance-lateral'] },
  'arm-resonance-vertical': { group: 'resonance', curves: ['resonance-vertical'] },
  'arm-resonance-lateral-q': {
    group: 'resonance',
    curves: ['resonance-lateral'],
  },
  'arm-resonance-vertical-q': {
    group: 'resonance',
    curves: ['resonance-vertical'],
  },
  'tracking-error': {
    group: 'geometry',
    curves: ['spectrum'],
    sense: 'Positive when the cartridge stands anticlockwise of the groove’s tangent, seen from above.',
  },
  'vertical-tracking-error': {
    group: 'geometry',
    curves: ['spectrum'],
    sense: 'Playback angle minus cutting angle.',
  },
  'second-harmonic': { group: 'distortion', curves: ['spectrum'] },
  'third-harmonic': { group: 'distortion', curves: ['spectrum'] },
  'total-harmonic-distortion': { group: 'distortion', curves: ['spectrum'] },
  intermodulation: { group: 'distortion', curves: ['spectrum'] },
  hum: { group: 'noise', curves: ['noise-spectrum', 'spectrum'] },
  'rumble-unweighted': { group: 'noise', curves: ['noise-spectrum'] },
  'rumble-weighted': { group: 'noise', curves: ['noise-spectrum'] },
  'noise-a-weighted': { group: 'noise', curves: ['noise-spectrum'] },
  'frequency-response-deviation': {
    group: 'response',
    curves: ['frequency-response'],
  },
};

/** A quantity that has no place yet is still shown, under "Other figures". */
export function wordsFor(quantity: string): QuantityWords {
  const place = Object.hasOwn(places, quantity) ? places[quantity] : { group: 'other' as const, curves: [quantity] };
  return { title: quantityTitle(quantity), signed: isSigned(quantity), ...place };
}

/** What a curve shows, as a heading. */
export const curveTitles: Readonly<Record<string, string>> = {
  'separation-against-tilt': 'Separation at other tilts',
  'crosstalk-spectrum': 'Both channels around the test tone',
  spectrum: 'Spectrum',
  'noise-spectrum': 'Spectrum of the quiet groove',
  'speed-deviation': 'Speed over time',
  'speed-deviation-spectrum': 'Spectrum of the speed’s deviation',
  'frequency-response': 'Response',
  level: 'Level over time',
};
