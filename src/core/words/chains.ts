/** What a chain's charts tell. */
// biome-ignore format: one entry a line merges easily
export const chainWords = {
  'chain-beyond': '{what} of {chain} read {figure} on {when}: {by} {side} its limits, {low} to {high}. Look at {look}.',
  'chain-jump': '{what} of {chain} went from {before} to {figure} on {when}: a step of {step}, where {most} is the most that its scatter explains. Look at {look}.',
  'chain-run': '{what} of {chain} read {figure} on {when}, the eighth reading in a row {side} its mean of {centre}: it drifts, or moved a little. Look at {look}.',
  'chain-provisional': 'Only {count} readings are behind these limits.',
  'chain-few': 'No limits yet: {count} of the {least} readings that they need.',
  'chain-alike': 'No limits: the readings so far are all alike, so nothing tells how far they scatter.',
  'chain-within': 'The last reading lies within its limits; {count} readings are behind them.',
  'chain-no-readings': 'Nothing that was measured belongs to this chain yet, or nothing since it was changed.',
  'chain-since': 'The charts begin on {when}, when the chain was last changed.',
  'chain-gap': 'Between the first {first} readings and the newest {recent} others are not drawn.',
  'chain-other-methods': 'Of the newest {of} recordings {count} {count?was|were} measured by an earlier version of the methods only and {count?is|are} not drawn beside those of version {method}. What lies in batches is measured anew by batch again --older-than {method}.',
  'chain-other-records': 'Of the newest {of} recordings {count} {count?was|were} measured by another record file, which has charts of its own.',
  'chain-no-record': 'These recordings were measured without a record file: level, separation and noise rest on what is assumed of the record.',
  'chain-expired': 'The certificate of {record} ran out on {expires}: {count} of these readings {count?was|were} recorded after it.',
  'chain-cut': 'Of {chain} only the newest {count} readings were looked at; more became known since then.',
  'no-alarms': 'Nothing left its limits since then.',
  'no-chains': 'No chain yet: batch add --chain NAME makes one, and so does the form below.',
  'chain-changed': 'Written down. The charts begin anew from here, unless this was the first description.',
  'chain-needs-name': 'A chain needs a name.',
  'no-references': 'No reference recording yet: chain reference add takes one in.',
} as const;

/** Where to look first. */
// biome-ignore format: one entry a line merges easily
export const chainReasons = {
  'look-speed': 'the belt, the trim of the speed, and the mains frequency where the motor follows it',
  'look-wow': 'the record on the spindle, the belt or idler, and the platter’s bearing',
  'look-level': 'the gain of preamp and converter, and wear of the record',
  'look-balance': 'the gain of each channel, the anti-skating and the tilt',
  'look-separation': 'dirt on the tip, the tilt and the leads',
  'look-tilt': 'the screws of the cartridge, the headshell’s joint and dirt on the tip',
  'look-resonance': 'the room’s temperature, the tracking force and the suspension',
  'look-hum': 'the earth joints, the leads, and what is near the deck',
  'look-rumble': 'the oil of the bearing, the feet under the deck, and what else runs in the house',
  'look-noise': 'dust and wear of the record, the tip, and the gain of the preamp',
} as const;
