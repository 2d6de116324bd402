/** What is typed at the stations: what is missing, what cannot be used (small, without a stop), what was found and expected. */
// biome-ignore format: one entry a line merges easily
export const typedReasons = {
  // a refusal of the core, which names argument, value and bounds
  'refused': '{what}',
  'not-usable': '{what} cannot be used as it is typed',
  // — Fit —
  'no-set-with-mass': 'no set with a mass is picked at Match',
  'scale-not-typed': 'what the scale shows is not typed yet',
  // — Weigh —
  'nothing-weighed': 'nothing was weighed yet',
  'second-reading-missing': 'the second reading, at another height, is not there yet',
  'no-force-to-set': 'there is no force to set yet',
  'no-force-for-pull': 'there is no force to calculate it for yet',
  'no-notches-typed': 'the lever’s notches are not written down yet',
  'notch-not-number': 'notch “{word}”: a number from {leastMm} to {mostMm} mm was expected',
  'arm-without-anti-skating': 'this arm has no anti-skating',
} as const;

// biome-ignore format: one entry a line merges easily
export const typedWords = {
  // — one field —
  'number-without-spread': 'Found “{text}”; the number alone was expected, without its ±.',
  'number-means-two': 'Found “{text}”, which may mean {value:6} or a thousand times that; type thousands without a separator.',
  'number-out-of-bounds': 'Found {found}; {range} was expected.',
  'number-expected': 'Found “{text}”; a number was expected.',
  'number-in-range-expected': 'Found “{text}”; a number, {range} was expected.',
  'number-in-unit-expected': 'Found “{text}”; a number, {range} was expected; {units} also go.',
  'field-wrong': '{label}: {why}',
  'still-to-type': 'Still to be typed: {what}.',
  'range-turned': '{what}: {least:given} to {most:given} {unit} was typed. The first must not be over the second.',
  'not-filled-in': 'Not filled in.',
  'part-needs-name': 'A part needs a name to be found again.',
  'record-needs-name': 'A record file needs a name to be found again.',
  'record-needs-band': 'At least one band is needed.',
  'record-most-bands': 'At most {most} are kept.',
  // — rows —
  'row-wrong': 'Row {row}: {why}',
  'row-lacks-mass': 'Row {row} is not complete: the mass, its uncertainty and what the gauge showed are needed.',
  'row-lacks-reading': 'Row {row} is not complete: tilt and both readings are needed.',
  'mono-sum-alone': 'One mono sum without the other: both bands are needed.',
  // — Place —
  'no-arm': 'No arm can be given: {why}.',
  'arc-swings': 'An arc template is for arms that swing about a pivot.',
  'measure-across-too': 'Measure the bar across the paper too.',
  // — limits —
  'limit-order-below': '{limit}: good {good} and bad {bad} were found; good at or under bad was expected.',
  'limit-order-above': '{limit}: good {good} and bad {bad} were found; good at or over bad was expected.',
} as const;
