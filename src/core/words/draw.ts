/** What is printed on templates and strobe discs. */
// biome-ignore format: one entry a line merges easily
export const drawWords = {
  'printer-not-measured': 'No printer correction: measure both bars; if they are not 100.0 mm, print again with what they measure.',
  'printer-corrected': 'Corrected for a printer that makes {across:given} mm of 100 mm across and {down:given} mm down: both bars must now measure 100.0 mm.',
  'caution-template': 'Before use: power off and amplifier muted, platter still (hold it), stylus guard on until the tip is over the template; lower the tip by the lift. Never twist the arm against its bearings: loosen the screws and move the cartridge.',
  'drawn-for': 'Drawn for: {criterion}. Grooves from {innerMm:given} to {outerMm:given} mm radius ({span}).',
  'drawn-arm': 'Spindle to pivot {pivotMm:.2} mm, effective length {lengthMm:.2} mm, overhang {overhangMm:.2} mm, offset {offsetDeg:.2}°.',
  'drawn-tangential': 'Overhang {overhangMm:.2} mm, offset {offsetDeg:.2}°.',
  'drawn-null': 'Null point at {mm:.2} mm.',
  'drawn-nulls': 'Null points at {innerMm:.2} and {outerMm:.2} mm.',
  'drawn-harmonic': 'Second harmonic at most {percent:.2} % for 10 cm/s peak lateral at {speed} rpm.',
  'grid-use': 'Tip on the cross, cantilever along the middle line, cartridge sides parallel to the long lines. Ticks on the cross 1 mm: miss along and across. Tick scale in front 1°: turn of the cartridge.',
  'arc-use': 'How to use: 1. Print at 100 %, not fitted to the page; check both bars. 2. Put the template on the spindle and turn it until the sight line points at the centre of the pivot; tape it down. 3. The tip must follow the long arc from the innermost to the outermost groove: slide the cartridge forward if the tip stays inside the arc (on the pivot’s side), back if it swings beyond it. 4. At each null point the cartridge must be parallel to the long lines: twist it.',
  'arc-read': 'Or read how far the tip misses a cross, along (towards the headshell’s front positive) and across (towards the rim positive), and the twist (clockwise seen from above positive), and the move is worked out for you.',
  'pivot-page': '{title}, page {pages} of {pages}: the pivot. Lay each join cross on its fellow on the page before, hold both against the light, tape them.',
  'pivot-cut-away': 'Cut the paper away where the arm’s base is: what matters is that the sight line points at the pivot’s centre.',
  'two-point-use': 'How to use: 1. Print at 100 %, not fitted to the page; check both bars. 2. Put the template on the spindle, without a record. 3. Swing the arm until the tip is over the inner point, turning the template to meet it; read the twist. 4. The same at the outer point. 5. Slide and twist the cartridge until it is square at both: sliding forward acts more at the inner point, twisting acts the same at both.',
  'two-point-read': 'Give the readings as radius and twist (clockwise seen from above positive) and the move is worked out for you.',
  'strobe-heading': 'Platterside strobe disc for {mains} Hz mains: a lamp on it flashes {flashes} times a second. From the outside in.',
  'strobe-lamp': 'Use a filament or neon lamp, or a lamp known to flash with the mains; most lamps with an electronic supply do not. Bars that creep with the rotation: the deck runs fast; against it: slow. The mains itself is off by up to 0.1 % at times.',
  'strobe-use': 'Print at 100 %, not fitted to the page, so that the hole fits the spindle; the bars tell the same speed at any size. Play a record while you look: the stylus’s drag counts. Mind the arm and the stylus; keep sleeves and hair clear of the turning platter.',
} as const;

/** Names beside what is drawn. */
// biome-ignore format: one entry a line merges easily
export const drawLabels = {
  'bar-across': '100 mm across, between the long ticks: lay a steel ruler here before use',
  'bar-down': '100 mm down, between the long ticks: lay a steel ruler here before use',
  'prick-the-cross': 'spindle: prick the cross,',
  'cut-out-hole': 'cut out to the circle, {mm} mm',
  'null-point': 'Null point',
  'null-point-inner-at': 'Inner null point',
  'null-point-outer-at': 'Outer null point',
  'grid-name': '{point}: {radiusMm:.2} mm from the spindle',
  'grid-front': 'front of the headshell',
  'arc-title': 'Platterside arc template',
  'sight-line': 'sight line: must point at the centre of the pivot, {pivotMm:.2} mm from the spindle',
  'pivot-centre': 'centre of the pivot: cut the paper away round the arm’s base',
  'page-of': '{title}, {page} of {pages}',
  'tip-follows-arc': 'tip follows this arc',
  'innermost-groove': 'innermost groove {mm:given} mm',
  'two-point-title': 'Platterside two-point template',
  'radius-to-first': 'radius to the first point',
  'radius-to-second': 'radius to the second point',
  'plan-title': 'Arm from above: {pivotMm:.1} mm to the pivot, {lengthMm:.1} mm effective length',
  'ring-exact': '{speed} rpm: {bars} bars, exact',
  'ring-creeps': '{speed} rpm: {bars} bars stand still at {still:.3} rpm ({percent:+.3} %); at {speed} they creep {way} {drift:.1} bars a minute',
  'ring-label': '{speed}: {bars} bars stand still at {still} rpm under a {mains} Hz lamp',
  'strobe-title': 'Platterside strobe disc, {mains} Hz',
  'strobe-cut-out': 'cut out along this circle',
  'strobe-lamp-hz': '{mains} Hz lamp',
} as const;

/** Why one cannot be drawn. */
// biome-ignore format: one entry a line merges easily
export const drawReasons = {
  'tip-runs-straight': 'the tip of a tangential arm follows a straight line: use the two-point template',
  'no-template-tangential': 'no template for a tangential arm: its tip runs straight to the spindle',
  'groove-off-paper': 'a groove radius of {radiusMm:given} mm does not fit across {paper} paper; it must be at most {mostMm:.0} mm',
  'no-null-in-span': 'this arm has no null point between {innerMm:given} and {outerMm:given} mm, so there is no point to set it at',
} as const;
