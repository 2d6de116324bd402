/** What measured figures rest on: the notes of findings. */
// biome-ignore format: one entry a line merges easily
export const measureWords = {
  // sentences that have not moved into a table yet
  plain: '{text}',

  'turns-read': 'Zero to peak, over {turns:.1} turns.',
  'rpm-assumed': 'The record is assumed to turn {rpm} times a minute.',
  'hole-parted': 'From {bands} bands at {inner} to {outer} mm of one recording: the hole and the platter are told apart.',
  'hole-not-parted': 'One radius, or radii too near to each other: most of once per turn is assumed to be the record’s, and what the platter may add is in the uncertainty.',
  'arm-given': 'For the arm as given.',
  'arm-assumed': 'The arm is assumed to be a pivoted one of 9 to 12 inches; give its geometry for a smaller uncertainty.',
  'hole-direction': 'Where the first tone starts, the groove’s centre lies by this clockwise of the line from the spindle to the pivot.',
  'hole-direction-tangential': 'Where the first tone starts, the groove’s centre lies by this clockwise of the line from the spindle to the tip.',
  'platter-part': 'The platter’s own part, the same at every radius; a warp has a share in it.',
  'hole-taken-out': 'The record’s hole, {percent:.3} % once per turn on this band, is taken out: the deck is judged by this figure.',
  // — two-tone bands, pinch —
  'intermodulation-of': 'Of {highHz} Hz under {lowHz} Hz, as captured: second order {second:.2} %, third order {third:.2} % of the upper tone (modulation distortion as in IEC 60268-3). The record’s own is in it.',
  'polarity-right': 'The groove lifts a round tip, and the lift comes out as a lift: both channels are the right way round. A cut that was corrected for tracing could hide this.',
  'polarity-turned': 'The groove lifts a round tip, and the lift comes out as a fall: both channels are turned over. It harms nothing audible; reverse both channels to put it right. A cut that was corrected for tracing could imitate this.',
  'tip-radius-trend': 'As the tip’s lift by the groove tells it. Compare it only with readings of the same record: a rising radius is wear.',
  // — geometry from sound —
  'at-radius': 'At a groove radius of {radiusMm} mm.',
  'path-of-the-tip': 'The error of the tip’s path: a tilted body and skating shear it, so it agrees with a protractor within ± {pathDeg}° and the zenith of the cut.',
  'cut-angle-assumed': 'The groove is assumed to be cut at {deg}°: give the record’s own angle for a smaller uncertainty.',
  'cut-effective': 'The groove is cut at {deg}°, as the record file states.',
  'cut-mechanical': 'The record file states the cutter’s own angle, {deg}°: the lacquer springs back by an amount that nobody states, so the groove’s is less.',
  'overhang-by-difference': 'From the change of the tracking error with radius: zenith of the cut, tilt and twist drop out. The offset as heard is {offsetDeg:.2}°, with these still in it.',
} as const;
