/**
 * Every problem's severity and sentence. Each code stands in docs/errors.md too, and a test compares the two both ways.
 * Errors say what, where and what was expected.
 */
export type Severity = 'error' | 'warning' | 'note';

// biome-ignore format: one entry a line merges easily
export const problems = {
  // — a source that cannot be read at all (thrown as CaptureError) —
  'empty-file': ['error', '{file} is empty: it holds no bytes, where a WAV or FLAC recording was expected.'],
  'not-audio': ['error', '{file} is not a recording: it begins with {found}, where a WAV or FLAC header was expected.'],
  'other-format': ['error', '{file} is {found}; save the recording as WAV or FLAC, without lossy coding.'],
  'short-header': ['error', '{file} ends at byte {size}, inside its {part}, which needs {expected} bytes.'],
  'no-format': ['error', '{file} has no readable format chunk before its samples: {found}.'],
  'bad-header': ['error', '{file}: the {part} says {found}, where {expected} was expected.'],
  'no-samples': ['error', '{file} holds a header but no samples.'],
  'too-few-bits': ['error', '{file} has {bits} bits a sample; 16 or more are needed to see the leak between channels.'],
  'unsupported-encoding': ['error', '{file} is coded as {found}; PCM of 16, 24 or 32 bits or 32/64-bit float was expected.'],
  'flac-depth': ['error', '{file} is FLAC with {bits} bits a sample; FLAC of 16 or 24 bits can be read: save it as WAV.'],
  unreadable: ['error', '{file} could not be read at byte {offset}: {why}.'],
  'changed-while-read': ['error', '{file} ended at byte {offset} while it was being read, where {expected} bytes were expected.'],
  // — how the file was written —
  'not-closed': ['note', 'The header was never completed ({found}): everything up to the end of the file was read.'],
  'cut-short': ['warning', 'The header promises {promised} s but the file holds {present} s: what is there was read.'],
  'longer-than-header': ['note', 'The header promises {promised} s but the file holds {present} s: all of it was read.'],
  'half-frame': ['note', 'The last {bytes} bytes do not make a whole frame and were left out.'],
  'pad-byte-missing': ['note', 'The writer of this file left out a pad byte after the {chunk} chunk; the samples are unharmed.'],
  'rate-disagrees': ['warning', 'The header says {rateHz} Hz but its byte rate means {otherHz} Hz; {rateHz} Hz was used, so speed may be wrong.'],
  'rate-unusual': ['warning', '{rateHz} Hz lies outside 44.1 to 192 kHz: figures that need the missing band are less certain.'],
  'extra-channels': ['warning', 'The recording has {channels} channels; the first two were taken as left and right.'],
  'damaged-frames': ['error', '{seconds:.2} s of damaged or missing FLAC frames were replaced by silence.'],
  'checksum-differs': ['error', 'The decoded samples do not match the checksum in the FLAC header: the file was altered or damaged.'],
  // — what the samples show —
  mono: ['error', 'The recording has one channel: balance, separation, tilt and polarity need both, recorded apart.'],
  'identical-channels': ['error', 'Right is a copy of left ({relation}): the source was mono or summed, so nothing between channels can be read.'],
  silent: ['error', 'The recording is silent: its loudest moment lies at {loudestDb} dBFS. Check leads, input and level.'],
  quiet: ['warning', 'The recording is quiet: the loudest moment lies at {loudestDb} dBFS, so noise of the converter weighs more.'],
  'dead-channel': ['error', 'The {channel} channel is dead: it lies {belowDb} dB under the other. Check its lead and input.'],
  clipped: ['error', 'Clipped, {channel}: {tops} flat {tops?top|tops} at {levelDb:.2} dBFS. Lower the level and record again.'],
  'above-full-scale': ['note', 'Float samples reach {peakDb:.1} dB over full scale; they are whole, but other programs may clip them.'],
  'dc-offset': ['warning', 'The {channel} channel stands off zero by {percent:.2} % of full scale: it costs headroom and hints at a fault in the chain.'],
  'dropped-samples': ['error', '{frames} samples are missing: the recording falls to exact zero in mid-signal, as when a computer cannot keep up.'],
  'digital-silence': ['note', '{seconds:.2} s of exact zeros stand between signals: the recording was edited or muted there.'],
  'not-numbers': ['error', '{count} samples are not numbers and were replaced by zero.'],
  'too-short': ['error', 'The recording lasts {seconds:.2} s; at least {leastS} s is needed to measure anything.'],
  // — finding bands and matching the sheet —
  'no-bands': ['error', 'No band was found: no tone, sweep, noise band or silent groove keeps steady in this recording.'],
  'band-cut-start': ['note', 'Band {band} was already playing when the recording began.'],
  'band-cut-end': ['note', 'Band {band} was still playing when the recording ended.'],
  'sheet-band-missing': ['warning', 'Band {sheetBand} of the sheet ({what}) was not heard.'],
  'sheet-band-extra': ['note', 'Band {band} ({what}) was heard but is not on the sheet at that place.'],
  'sheet-band-ambiguous': ['note', 'Band {band} could be band {one} or band {other} of the sheet: nothing tells them apart, so the sheet was not used for it.'],
  'sheet-motion-differs': ['warning', 'Band {band} sounds {heard}, but the sheet has {cut} there: the sheet was followed. Leak this strong, or a channel this weak, is a finding of its own.'],
  'sheet-not-this-record': ['error', 'The sheet "{name}" does not fit what was heard: {matched} of {heard} bands agree. Is it the right record and side?'],
  'sheet-wrong-speed': ['warning', 'All tones lie {percent} % off the sheet: the record was played at {playedRpm} instead of {rpm} turns a minute.'],
  'sheet-channels-swapped': ['error', 'Left and right are swapped: the sheet fits only with the channels exchanged. Check the cartridge leads and the cables.'],
  'sheet-one-channel-inverted': ['error', 'One channel is inverted: {count} bands cut lateral or vertical are heard the other way round. Check the cartridge leads.'],
  'sheet-order-unknown': ['note', 'Channel order cannot be told from this recording: no one-sided band of the sheet was matched.'],
  // — figures —
  'band-spoiled': ['error', 'Band {band} is not measured: it clips or misses samples nearly throughout, and no {leastS} s of it are clean.'],
  'band-unread': ['warning', 'Band {band} is not measured: it was told too late, or otherwise, while it played. Measure the recording of it as a file.'],
  withheld: ['note', '{quantity:title} is withheld: {why}.'],
  // — advice —
} as const satisfies Record<string, readonly [Severity, string]>;

export type ProblemCode = keyof typeof problems;
