/** What each quantity of the documents is called on a sheet. */

const titles: Readonly<Record<string, string>> = {
  'channel-balance': 'Channel balance, left over right',
  'separation-left-to-right': 'Separation, left into right',
  'separation-right-to-left': 'Separation, right into left',
  'azimuth-error': 'Tilt (azimuth error)',
  polarity: 'Polarity',
  'channel-order': 'Channel order',
  'speed-error': 'Speed error',
  'wow-flutter-weighted': 'Wow and flutter, weighted',
  'wow-flutter-unweighted': 'Wow and flutter, unweighted',
  'once-per-turn': 'Once per turn',
  eccentricity: 'Hole off centre',
  'arm-resonance': 'Arm resonance',
  'arm-resonance-lateral': 'Arm resonance, lateral',
  'arm-resonance-lateral-q': 'Peak of the lateral resonance (Q)',
  'arm-resonance-vertical': 'Arm resonance, vertical',
  'arm-resonance-vertical-q': 'Peak of the vertical resonance (Q)',
  'counterweight-position': 'Counterweight behind the pivot',
  'carried-mass': 'Mass that the arm carries',
  'tracking-force': 'Tracking force',
  'skating-force-inner': 'Skating force, innermost groove',
  'skating-force-outer': 'Skating force, outermost groove',
  'load-peak': 'Electrical peak',
  'load-peak-frequency': 'Frequency of the electrical peak',
  'load-deviation-20khz': 'Electrical response at 20 kHz',
  'load-corner': 'Electrical response, 3 dB down at',
  'load-at-coil': 'Load that the coil sees',
  'load-over-coil': 'Load over coil resistance',
  'thermal-noise': 'Thermal noise at the input',
  'noise-under-reference': 'Noise of coil and load',
  'noise-of-coil': 'Noise of the coil',
  'noise-of-load': 'Noise of the load',
  'noise-of-input': 'Noise of the preamp’s input',
  'noise-with-input': 'Noise of coil, load and preamp’s input',
  'noise-equalised': 'Noise after RIAA playback',
  headroom: 'Headroom of the preamp',
  'headroom-converter': 'Headroom of the converter',
  'gain-wanted': 'Gain wanted',
  'line-level': 'Line level at 5 cm/s',
  'tracking-error': 'Tracking error',
  'vertical-tracking-error': 'Vertical tracking error',
  'second-harmonic': 'Second harmonic',
  'third-harmonic': 'Third harmonic',
  'total-harmonic-distortion': 'Total harmonic distortion',
  intermodulation: 'Intermodulation',
  hum: 'Hum under the reference level',
  'rumble-unweighted': 'Rumble under the reference level, unweighted',
  'rumble-weighted': 'Rumble under the reference level, weighted',
  'noise-a-weighted': 'Noise under the reference level, A-weighted',
  'frequency-response-deviation': 'Deviation of the response from 1 kHz',
  'frequency-response': 'Response',
};

/** Quantities whose sign says which way; shown with a plus. */
const signedQuantities: ReadonlySet<string> = new Set([
  'channel-balance',
  'azimuth-error',
  'speed-error',
  'tracking-error',
  'vertical-tracking-error',
]);

/** A quantity that nobody has named yet is told by its own name in words. */
export function quantityTitle(quantity: string): string {
  if (Object.hasOwn(titles, quantity)) return titles[quantity];
  const text = quantity.replaceAll('-', ' ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export const isSigned = (quantity: string): boolean => signedQuantities.has(quantity);

/** A verdict as it stands beside a figure; nothing where a figure is for information only. */
export const verdictWords: Readonly<Record<string, string>> = {
  good: '✓ within limits',
  adjust: '△ worth adjusting',
  bad: '✕ outside limits',
  info: '',
};
