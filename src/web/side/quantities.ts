/** What each quantity of the documents is called on the page, where it belongs, which curves show it, where its method is written. */

export type Group = 'tilt' | 'speed' | 'geometry' | 'resonance' | 'response' | 'distortion' | 'noise' | 'other';

export interface QuantityWords {
  readonly title: string;
  readonly group: Group;
  /** page under docs/ without `.md` */
  readonly page?: string;
  /** curve quantities that are its evidence, most telling first */
  readonly curves?: readonly string[];
  readonly signed?: boolean;
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

export const quantities: Readonly<Record<string, QuantityWords>> = {
  'azimuth-error': {
    title: 'Tilt (azimuth error)',
    group: 'tilt',
    curves: ['separation-against-tilt', 'crosstalk-spectrum', 'spectrum'],
    signed: true,
    sense: 'Positive is clockwise, seen from the cartridge’s face.',
  },
  'separation-left-to-right': {
    title: 'Separation, left into right',
    group: 'tilt',
    curves: ['crosstalk-spectrum', 'separation', 'spectrum'],
  },
  'separation-right-to-left': {
    title: 'Separation, right into left',
    group: 'tilt',
    curves: ['crosstalk-spectrum', 'separation', 'spectrum'],
  },
  'channel-balance': {
    title: 'Channel balance',
    group: 'tilt',
    curves: ['spectrum', 'level'],
    signed: true,
    sense: 'Positive when left is louder.',
  },
  polarity: { title: 'Polarity', group: 'tilt', curves: ['spectrum'] },
  'channel-order': { title: 'Channel order', group: 'tilt', curves: ['spectrum'] },
  'speed-error': {
    title: 'Speed error',
    group: 'speed',
    curves: ['speed-deviation'],
    signed: true,
    sense: 'Positive when the record turns fast.',
  },
  'wow-flutter-weighted': {
    title: 'Wow and flutter, weighted',
    group: 'speed',
    curves: ['speed-deviation', 'speed-spectrum'],
  },
  'wow-flutter-unweighted': {
    title: 'Wow and flutter, unweighted',
    group: 'speed',
    curves: ['speed-deviation', 'speed-spectrum'],
  },
  'once-per-turn': { title: 'Once per turn', group: 'speed', curves: ['speed-turn', 'speed-deviation'] },
  eccentricity: { title: 'Hole off centre', group: 'speed', curves: ['speed-turn', 'speed-deviation'] },
  'arm-resonance-lateral': { title: 'Arm resonance, lateral', group: 'resonance', curves: ['resonance-lateral'] },
  'arm-resonance-vertical': { title: 'Arm resonance, vertical', group: 'resonance', curves: ['resonance-vertical'] },
  'arm-resonance-lateral-q': {
    title: 'Peak of the lateral resonance, Q',
    group: 'resonance',
    curves: ['resonance-lateral'],
  },
  'arm-resonance-vertical-q': {
    title: 'Peak of the vertical resonance, Q',
    group: 'resonance',
    curves: ['resonance-vertical'],
  },
  'tracking-error': {
    title: 'Tracking error',
    group: 'geometry',
    curves: ['spectrum'],
    signed: true,
    sense: 'Positive when the cartridge stands anticlockwise of the groove’s tangent, seen from above.',
  },
  'vertical-tracking-error': {
    title: 'Vertical tracking error',
    group: 'geometry',
    curves: ['spectrum'],
    signed: true,
    sense: 'Playback angle minus cutting angle.',
  },
  'second-harmonic': { title: 'Second harmonic', group: 'distortion', curves: ['spectrum'] },
  'third-harmonic': { title: 'Third harmonic', group: 'distortion', curves: ['spectrum'] },
  'total-harmonic-distortion': { title: 'Total harmonic distortion', group: 'distortion', curves: ['spectrum'] },
  intermodulation: { title: 'Intermodulation', group: 'distortion', curves: ['spectrum'] },
  hum: { title: 'Hum', group: 'noise', curves: ['noise-spectrum', 'spectrum'] },
  'rumble-unweighted': { title: 'Rumble, unweighted', group: 'noise', curves: ['noise-spectrum'] },
  'rumble-weighted': { title: 'Rumble, weighted', group: 'noise', curves: ['noise-spectrum'] },
  'noise-a-weighted': { title: 'Noise, A-weighted', group: 'noise', curves: ['noise-spectrum'] },
  'frequency-response-deviation': {
    title: 'Deviation of the response',
    group: 'response',
    curves: ['frequency-response'],
  },
};

/** A quantity nobody has named yet is still shown, by its own name in words. */
export function wordsFor(quantity: string): QuantityWords {
  if (Object.hasOwn(quantities, quantity)) return quantities[quantity];
  const text = quantity.replaceAll('-', ' ');
  return { title: text.charAt(0).toUpperCase() + text.slice(1), group: 'other', curves: [quantity] };
}

/** What a curve shows, as a heading. */
export const curveTitles: Readonly<Record<string, string>> = {
  'crosstalk-spectrum': 'Both channels around the test tone',
  spectrum: 'Spectrum',
  'noise-spectrum': 'Spectrum of the quiet groove',
  'speed-deviation': 'Speed over time',
  'speed-spectrum': 'Spectrum of the speed’s deviation',
  'speed-turn': 'Speed over one turn',
  'frequency-response': 'Response',
  level: 'Level over time',
};

export const verdictWords: Readonly<Record<string, string>> = {
  good: '✓ within limits',
  adjust: '△ worth adjusting',
  bad: '✕ outside limits',
  info: '',
};
