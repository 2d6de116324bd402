/** Place: why an arm, a reading or a choice does not exist, and what holds it (small, without a stop); the moves. */
// biome-ignore format: one entry a line merges easily
export const placeReasons = {
  // — the arm —
  'groove-too-near': 'the arm cannot reach the groove at {radiusMm:given} mm: its tip comes no nearer to the spindle than {leastMm:.1} mm',
  'groove-too-far': 'the arm cannot reach the groove at {radiusMm:given} mm: its tip comes no further out than {mostMm:.1} mm',
  'arm-too-short': 'no arm of {leastMm} mm or more has null points with a product of {product:given} mm²',
  'offset-too-large': 'an arm of {lengthMm:.1} mm would need an offset over 60° for null points that add to {sumMm:.1} mm',
  'length-too-short': 'an effective length of {lengthMm:given} mm is too short for this groove span: it must be at least {leastMm:.1} mm',
  'overhang-without-nulls': 'an overhang of {overhangMm:given} mm gives no pair of null points; it must be over 0 mm (an underhung arm needs its offset or a length fixed)',
  'overhang-asks-pivot': 'an overhang of {overhangMm:given} mm asks for {pivotMm:.1} mm from spindle to pivot on this groove span; it must lie between {leastMm} and {mostMm} mm',
  'no-exact-optimum': 'the exact law has no optimum near the closed form for these lengths',
  'optimum-not-on-span': 'the optimum cannot be evaluated on this span',
  // — limits: what holds the arm away from the free optimum —
  'limit-out-of-reach': 'with {known} {mm:given} mm the {limited} must lie between {leastMm:.1} and {mostMm:.1} mm for the tip to reach the groove at {radiusMm:given} mm; the limit given is {limit}',
  'limit-fixed': 'fixed at {mm:.1} mm',
  'limit-between': 'between {leastMm:.1} and {mostMm:.1} mm',
  'held-fixed-mm': '{what} fixed at {value:.2} mm',
  'held-between-mm': '{what} between {least:.2} and {most:.2} mm',
  'held-fixed-deg': '{what} fixed at {value:.2}°',
  'held-between-deg': '{what} between {least:.2} and {most:.2}°',
  'slots-end-here': 'the slots end here, nothing is left {way}',
  'slots-end': 'the slots end {leftMm:.1} mm further {way}',
  'no-twist-in-headshell': 'the headshell does not let the cartridge turn',
  'little-twist-in-headshell': 'the headshell lets the cartridge turn {mostDeg:.1}° and no more',
  'held-both': '{first}; {second}',
  // — a pivot that is elsewhere —
  'pivot-leave': 'effective length and offset stay as the maker states them',
  'pivot-slide': 'slide only: the offset stays as the maker states it',
  'pivot-twist': 'twist only: the effective length stays as the maker states it',
  'pivot-slide-and-twist': 'slide and twist: solved anew for the pivot as it is',
  'pivot-move-the-pivot': 'move the pivot back to where the maker wants it',
  'no-pivot-choice': 'no setting of the arm plays from {innerMm:given} to {outerMm:given} mm with the pivot at {pivotMm:given} mm',
  // — readings —
  'nothing-read': 'nothing was read: give a reading off the template or the ruler',
  'length-not-fixed': 'the readings do not fix the effective length: give one point with its misses, two radii, or an overhang by ruler',
  'length-hardly-fixed': 'the readings fix the effective length only within ±{withinMm:.0} mm: read at radii further apart, or at a point with its misses',
  'twist-not-read': 'nothing that was read tells how the cartridge is turned: read its twist against the grid',
  'readings-disagree': 'the readings disagree with one another by {times:.1} times what their uncertainties allow: read them again',
  'tangential-not-read': 'readings of a tangential arm are not turned into moves: its tip wants overhang 0 and the cartridge square',
  'pivot-not-measured': 'readings need the distance from spindle to pivot as measured on this deck',
  'no-slide-along-slots': 'no slide of up to 99 mm along the slots turns an effective length of {fromMm:.1} mm into {toMm:.1} mm',
} as const;

// biome-ignore format: one entry a line merges easily
export const placeWords = {
  'b-within-limits': 'Within the limits overhang and offset are both found by least squares; the linear offset of A is not held.',
  // — the moves —
  'slide-forward-by': 'Slide the cartridge forward in its slots, away from the pivot, by {amount:.2} ± {within:.2} mm.',
  'slide-forward-or-stay': 'Slide the cartridge forward in its slots, away from the pivot, by {amount:.2} ± {within:.2} mm: no more than the readings can tell, so it may stay as it is.',
  'slide-back-by': 'Slide the cartridge back in its slots, towards the pivot, by {amount:.2} ± {within:.2} mm.',
  'slide-back-or-stay': 'Slide the cartridge back in its slots, towards the pivot, by {amount:.2} ± {within:.2} mm: no more than the readings can tell, so it may stay as it is.',
  'twist-clockwise-by': 'Twist the cartridge clockwise, seen from above, by {amount:.2} ± {within:.2}°.',
  'twist-clockwise-or-stay': 'Twist the cartridge clockwise, seen from above, by {amount:.2} ± {within:.2}°: no more than the readings can tell, so it may stay as it is.',
  'twist-anticlockwise-by': 'Twist the cartridge anticlockwise, seen from above, by {amount:.2} ± {within:.2}°.',
  'twist-anticlockwise-or-stay': 'Twist the cartridge anticlockwise, seen from above, by {amount:.2} ± {within:.2}°: no more than the readings can tell, so it may stay as it is.',
  'move-brings': 'Peak distortion is {before:.2} % as it is set; with slide and twist both set right it will be {after:.2} %, up to {most:.2} % within what the readings leave open.',
  'best-that-remains': 'That is the best that remains: {held}.',
  'twist-read-after': 'Nothing read tells the twist: read it against the grid after the slide.',
  'caution-cartridge-loose': 'Power off, amplifier muted, platter still, stylus guard on while the screws are loose. Hold the headshell, never turn against the arm’s bearings. Check the tracking force afterwards.',
} as const;
