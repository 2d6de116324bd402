/**
 * The one catalogue of quantities: title, unit, what a positive value means, group, station, limit and evidence.
 * Page, report, command line and the test of docs/contract.md read it; what nothing measures is named here and shown nowhere.
 */
import { capital } from './capital.ts';

export type Group =
  | 'channels'
  | 'speed'
  | 'geometry'
  | 'resonance'
  | 'response'
  | 'distortion'
  | 'noise'
  | 'chain'
  | 'mass'
  | 'loading'
  | 'levels'
  | 'other';

export const groupTitles: Readonly<Record<Group, string>> = {
  channels: 'Channels',
  speed: 'Speed, wow and flutter',
  geometry: 'Place and height',
  resonance: 'Arm resonance',
  response: 'Response',
  distortion: 'Distortion and tracking',
  noise: 'Hum, rumble and noise',
  chain: 'Levels and the chain',
  mass: 'Mass and force',
  loading: 'Electrical load',
  levels: 'Gain, headroom and noise',
  other: 'Other figures',
};

/** The station that a figure belongs to: where a person looks for it. */
export type QuantityStation = 'match' | 'place' | 'weigh' | 'height' | 'tilt' | 'run';

export interface Quantity {
  readonly title: string;
  /** as in the documents */
  readonly unit: string;
  readonly group: Group;
  readonly station: QuantityStation | null;
  /** what a positive value means; such values are shown with a plus */
  readonly positive?: string;
  /** name in the table of limits, where it differs from the quantity's own; two where either end of a range has one */
  readonly limit?: string | readonly string[];
  /** curve quantities that are its evidence, most telling first */
  readonly curves: readonly string[];
}

type More = Pick<Quantity, 'positive' | 'limit'>;
const of =
  (group: Group, station: QuantityStation | null) =>
  (title: string, unit: string, curves: readonly string[] = [], more: More = {}): Quantity => ({
    title,
    unit,
    group,
    station,
    curves,
    ...more,
  });

const channels = of('channels', 'tilt');
const speed = of('speed', 'run');
const geometry = of('geometry', 'place');
const resonance = of('resonance', 'run');
const distortion = of('distortion', 'run');
const noise = of('noise', 'run');
const chain = of('chain', 'run');
const mass = of('mass', 'weigh');
const loading = of('loading', 'match');
const levels = of('levels', 'match');

const LEAK = ['separation-against-tilt', 'separation', 'separation-phase', 'crosstalk-spectrum', 'spectrum'];
const SPEED = ['speed-deviation', 'speed-deviation-spectrum', 'speed-against-turn'];
const TURN = ['speed-against-turn', 'speed-deviation'];
const QUIET = ['noise-spectrum'];
const RESONANCE_LIMIT: More = { limit: ['arm-resonance-from', 'arm-resonance-to'] };

// biome-ignore format: one quantity a line merges easily
export const quantities: Readonly<Record<string, Quantity>> = {
  // — from a recording: Tilt —
  'azimuth-error': channels('Tilt (azimuth error)', 'deg', LEAK, { positive: 'Positive is clockwise, seen from the front of the cartridge.' }),
  'separation-left-to-right': channels('Separation, left into right', 'dB', LEAK.slice(1)),
  'separation-right-to-left': channels('Separation, right into left', 'dB', LEAK.slice(1)),
  'channel-balance': channels('Channel balance, left over right', 'dB', ['spectrum', 'level'], { positive: 'Positive when left is louder.' }),
  polarity: channels('Polarity', '', ['spectrum']),
  'absolute-polarity': channels('Absolute polarity', '', ['tip-radius', 'spectrum']),
  'channel-order': channels('Channel order', '', ['spectrum']),
  'best-tilt-setting': channels('Tilt setting of least leak', 'deg', [], { positive: 'Positive is clockwise on your own tilt scale, seen from the front of the cartridge.' }),
  'channel-balance-cartridge': chain('Channel balance of the cartridge, left over right', 'dB', ['channel-difference-cartridge'], { positive: 'Positive when left is louder.' }),
  'channel-balance-chain': chain('Channel balance of the chain, left over right', 'dB', ['channel-difference-chain'], { positive: 'Positive when left is louder.' }),
  'reference-level': chain('Reference level, 5 cm/s', 'dBFS', ['spectrum']),
  'reference-output': chain('Output at 5 cm/s', 'mV', ['spectrum']),
  'reference-over-vu': chain('Reference level over 0 VU', 'dB', ['spectrum']),
  // — from a recording: Run —
  'speed-error': speed('Speed error', '%', ['speed-deviation'], { positive: 'Positive when the record turns fast.' }),
  'wow-flutter-weighted': speed('Wow and flutter, weighted, 2σ', '%', SPEED),
  'wow-flutter-weighted-rms': speed('Wow and flutter, weighted rms', '%', SPEED),
  'wow-flutter-weighted-quasi-peak': speed('Wow and flutter, weighted quasi-peak', '%', SPEED),
  'wow-flutter-weighted-deck': speed('Wow and flutter of the deck, weighted, 2σ', '%', SPEED, { limit: 'wow-flutter-weighted' }),
  'wow-flutter-unweighted': speed('Wow and flutter, unweighted, 2σ', '%', SPEED),
  'flutter-line': speed('Flutter at one frequency', '%', ['speed-deviation-spectrum', 'speed-against-turn']),
  'once-per-turn': speed('Once-per-turn speed variation', '%', TURN),
  'once-per-turn-platter': speed('Once-per-turn speed variation of the platter', '%', TURN),
  'eccentricity-direction': speed('Direction of the record eccentricity', 'deg', TURN, { positive: 'Where the first tone starts: clockwise of the line from spindle to pivot, seen from above.' }),
  eccentricity: speed('Record eccentricity', 'mm', TURN),
  'speed-drift': speed('Drift of the speed', '%/min', ['speed-over-side', 'speed-deviation'], { positive: 'Positive when the record gets faster.' }),
  'stylus-drag': speed('Drag of the tip', '%', ['stylus-drag', 'speed-over-side'], { positive: 'Positive where the record slows under the tip.' }),
  'arm-resonance-lateral': resonance('Arm resonance, lateral', 'Hz', ['resonance-lateral', 'resonance-speed-lateral'], RESONANCE_LIMIT),
  'arm-resonance-lateral-q': resonance('Q of the lateral arm resonance', '', ['resonance-lateral']),
  'arm-resonance-vertical': resonance('Arm resonance, vertical', 'Hz', ['resonance-vertical', 'resonance-speed-vertical'], RESONANCE_LIMIT),
  'arm-resonance-vertical-q': resonance('Q of the vertical arm resonance', '', ['resonance-vertical']),
  'tracking-error': of('geometry', 'place')('Tracking error', 'deg', ['tracking-error', 'spectrum'], { positive: 'Positive when the cartridge points anticlockwise of the groove’s tangent, seen from above.' }),
  'tracking-error-cross-check': geometry('Tracking error by second harmonic', 'deg', ['tracking-error'], { positive: 'Positive when the cartridge points anticlockwise of the groove’s tangent, seen from above.' }),
  'vertical-tracking-error': of('geometry', 'height')('Vertical tracking error', 'deg', ['spectrum'], { positive: 'Playback angle minus cutting angle.' }),
  'overhang-heard': geometry('Overhang, from sound', 'mm', ['tracking-error'], { positive: 'Positive when the tip swings past the spindle.' }),
  'stylus-skew': distortion('Skew of the stylus tip', 'deg', ['channel-lag'], { positive: 'Positive when the contact edge is turned clockwise in its cantilever, seen from above.' }),
  'effective-tip-radius': distortion('Effective tip radius', 'µm', ['tip-radius', 'spectrum']),
  'tracking-limit': distortion('Tracked up to', 'cm/s', ['spectrum']),
  'second-harmonic': distortion('Second harmonic', '%', ['spectrum']),
  'third-harmonic': distortion('Third harmonic', '%', ['spectrum']),
  'fourth-harmonic': distortion('Fourth harmonic', '%', ['spectrum']),
  'fifth-harmonic': distortion('Fifth harmonic', '%', ['spectrum']),
  'total-harmonic-distortion': distortion('Total harmonic distortion', '%', ['spectrum']),
  intermodulation: distortion('Intermodulation', '%', ['spectrum']),
  hum: noise('Hum in the groove, under the reference level', 'dB', ['noise-spectrum', 'spectrum']),
  'hum-tip-up': noise('Hum with the tip up', 'dB', ['noise-spectrum-tip-up'], { limit: 'hum' }),
  'hum-motor-off': noise('Hum with the tip up and the motor off', 'dB', ['noise-spectrum-motor-off'], { limit: 'hum' }),
  'rumble-unweighted': noise('Rumble under the reference level, unweighted', 'dB', QUIET),
  'rumble-weighted': noise('Rumble under the reference level, weighted', 'dB', QUIET),
  'noise-a-weighted': noise('Noise under the reference level, A-weighted', 'dB', QUIET),
  'noise-a-weighted-tip-up': noise('Noise with the tip up, A-weighted', 'dB', ['noise-spectrum-tip-up']),
  'noise-a-weighted-motor-off': noise('Noise with the tip up and the motor off, A-weighted', 'dB', ['noise-spectrum-motor-off']),
  'clicks-per-minute': noise('Clicks', '1/min', ['level']),
  'frequency-response-deviation': of('response', 'run')('Deviation of the response from 1 kHz', 'dB', ['frequency-response', 'separation', 'separation-phase', 'phase']),
  'frequency-response-deviation-40-12500': of('response', 'run')('Deviation of the response, 40 Hz to 12.5 kHz', 'dB', ['frequency-response']),
  'frequency-response-deviation-100-10000': of('response', 'run')('Deviation of the response, 100 Hz to 10 kHz', 'dB', ['frequency-response']),
  'frequency-response-deviation-315-6300': of('response', 'run')('Deviation of the response, 315 Hz to 6.3 kHz', 'dB', ['frequency-response']),
  'channel-difference': of('response', 'run')('Difference of the channels over frequency', 'dB', ['channel-difference', 'phase']),
  'channel-difference-40-12500': of('response', 'run')('Difference of the channels, 40 Hz to 12.5 kHz', 'dB', ['channel-difference']),
  'channel-difference-100-10000': of('response', 'run')('Difference of the channels, 100 Hz to 10 kHz', 'dB', ['channel-difference']),
  'channel-difference-315-6300': of('response', 'run')('Difference of the channels, 315 Hz to 6.3 kHz', 'dB', ['channel-difference']),
  'coil-inductance-heard': of('response', 'run')('Inductance of the coil, from sound', 'mH', ['response-of-coil', 'response-of-tip']),
  'load-capacitance-heard': of('response', 'run')('Load capacitance, from sound', 'pF', ['response-of-coil']),
  'electrical-resonance': of('response', 'run')('Resonance of coil and load', 'Hz', ['response-of-coil']),
  'electrical-resonance-q': of('response', 'run')('Q of coil and load', '', ['response-of-coil']),
  'tip-resonance': of('response', 'run')('Resonance of the tip', 'Hz', ['response-of-tip']),
  'tip-resonance-q': of('response', 'run')('Q of the tip’s resonance', '', ['response-of-tip']),
  'frequency-response': of('response', 'run')('Response', 'dB'),
  // — calculated: Place, Weigh —
  overhang: geometry('Overhang', 'mm'),
  'offset-angle': geometry('Offset angle', 'deg'),
  'tracking-force': mass('Tracking force', 'mN'),
  'counterweight-position': mass('Counterweight behind the pivot', 'mm'),
  'carried-mass': mass('Mass that the arm carries', 'g'),
  'skating-force-inner': mass('Skating force, innermost groove', 'mN', ['skating-force']),
  'skating-force-outer': mass('Skating force, outermost groove', 'mN', ['skating-force']),
  'skating-force': mass('Skating force', 'mN'),
  // — calculated: Match —
  'arm-resonance-from': of('resonance', null)('Arm resonance, lowest', 'Hz'),
  'arm-resonance-to': of('resonance', null)('Arm resonance, highest', 'Hz'),
  'arm-resonance': of('resonance', 'match')('Arm resonance', 'Hz', [], RESONANCE_LIMIT),
  'load-peak': loading('Electrical peak', 'dB', ['load-response']),
  'load-peak-frequency': loading('Frequency of the electrical peak', 'Hz', ['load-response']),
  'load-deviation-20khz': loading('Electrical response at 20 kHz', 'dB', ['load-response']),
  'load-corner': loading('Electrical response, 3 dB down at', 'Hz', ['load-response']),
  'load-response': loading('Electrical response', 'dB'),
  'load-at-coil': loading('Load that the coil sees', 'Ω'),
  'load-over-coil': loading('Load over coil resistance', ''),
  'thermal-noise': levels('Thermal noise at the input', 'µV'),
  'noise-under-reference': levels('Noise of coil and load', 'dB'),
  'noise-of-coil': levels('Noise of the coil', 'dB'),
  'noise-of-load': levels('Noise of the load', 'dB'),
  'noise-of-input': levels('Noise of the preamp’s input', 'dB'),
  'noise-with-input': levels('Noise of coil, load and preamp’s input', 'dB'),
  'noise-equalised': levels('Noise after RIAA playback', 'dB'),
  headroom: levels('Headroom of the preamp', 'dB'),
  'headroom-converter': levels('Headroom of the converter', 'dB'),
  'gain-wanted': levels('Gain needed', 'dB'),
  'line-level': levels('Line level at 5 cm/s', 'mV'),
};

/** The entry of a quantity; one that nobody has named yet is told by its own name in words, under "Other figures". */
export function quantityOf(quantity: string): Quantity {
  if (Object.hasOwn(quantities, quantity)) return quantities[quantity];
  const text = quantity.replaceAll('-', ' ');
  return of('other', null)(capital(text), '', [quantity]);
}

export const quantityTitle = (quantity: string): string => quantityOf(quantity).title;

/** Names for one screen of verdicts, under the head of their group; the evidence has the whole name. */
const shortTitles: Readonly<Record<string, string>> = {
  'azimuth-error': 'Tilt',
  'channel-balance': 'Balance, left over right',
  'wow-flutter-weighted': 'Wow and flutter, as heard',
  'wow-flutter-weighted-deck': 'Wow and flutter',
  'frequency-response-deviation': 'Response',
  'channel-difference': 'Channel difference',
  hum: 'Hum',
  'hum-tip-up': 'Hum, tip up',
  'rumble-unweighted': 'Rumble',
  'rumble-weighted': 'Rumble, weighted',
  'noise-a-weighted': 'Noise, A-weighted',
};

export const shortTitle = (quantity: string): string => shortTitles[quantity] ?? quantityTitle(quantity);

/** Its sign says which way: shown with a plus. */
export const isSigned = (quantity: string): boolean => quantityOf(quantity).positive !== undefined;

/** What a curve shows, as a heading. */
export const curveTitles: Readonly<Record<string, string>> = {
  'separation-against-tilt': 'Separation at other tilts',
  'crosstalk-spectrum': 'Both channels around the test tone',
  spectrum: 'Spectrum',
  'noise-spectrum': 'Silent groove in third octaves',
  'noise-spectrum-tip-up': 'Tip in the air, in third octaves',
  'noise-spectrum-motor-off': 'Tip in the air and motor off, in third octaves',
  'speed-deviation': 'Speed over time',
  'speed-against-turn': 'Speed around the platter',
  'speed-deviation-spectrum': 'Spectrum of the speed deviation',
  'frequency-response': 'Response',
  'channel-difference-cartridge': 'Left over right, the cartridge alone',
  'channel-difference-chain': 'Left over right, the chain alone',
  'response-of-coil': 'What coil and load make of the response',
  'response-of-tip': 'What the tip and the record make of the response',
  separation: 'Separation over frequency',
  'tracking-error': 'Tracking error over the side',
  'channel-lag': 'Lag of right after left',
  'tip-radius': 'Tip radius by two-tone band',
  'speed-over-side': 'Mean speed of each tone over the side',
  'stylus-drag': 'Speed with the tip up and down',
  'separation-phase': 'Phase of the leak against the driven channel',
  phase: 'Phase of right against left',
  'channel-difference': 'Left over right, against 1 kHz',
  'resonance-lateral': 'Lateral resonance, heard and fitted',
  'resonance-vertical': 'Vertical resonance, heard and fitted',
  'resonance-speed-lateral': 'A tone’s wavering with the lateral motion, heard and fitted',
  'resonance-speed-vertical': 'A tone’s wavering with the vertical motion, heard and fitted',
  level: 'Level over time',
};

/** A verdict beside a figure: a mark and a word; nothing where a figure is for information only. */
export const verdictWords: Readonly<Record<string, string>> = {
  good: '✓ within limits',
  adjust: '△ worth adjusting',
  bad: '✕ outside limits',
  undecided: '? undecided',
  info: '',
};
