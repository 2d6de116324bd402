/**
 * Every problem's severity and sentence. Each code stands in docs/errors.md too, and a test compares the two both ways.
 * Errors say what, where and what was expected.
 */
export type Severity = 'error' | 'warning' | 'note';

// biome-ignore format: one entry a line merges easily
export const problems = {
  // — the record file against what is heard —
  'record-frequency-doubt': ['warning', 'Entry {entry} of the record file contradicts the rest: its tone, stated as {statedHz} Hz, plays {percent:+.2} % off the speed that the other tones tell. Check its frequency.'],
  'record-level-doubt': ['warning', 'Entry {entry} of the record file contradicts the rest: its tone, stated as {statedCmS} cm/s, plays {db:+.1} dB off the level that the other tones tell. Check its velocity, and that nobody turned the level while it recorded.'],
  'record-radius-doubt': ['warning', 'Entry {entry} of the record file contradicts its neighbours: {radiusMm} mm does not lie between {outerMm} and {innerMm} mm. Check its radius.'],
  // — a source that cannot be read at all (thrown as CaptureError) —
  'empty-file': ['error', '{file} is empty: it holds no bytes. A WAV or FLAC recording was expected.'],
  'not-audio': ['error', '{file} is not a recording: it begins with {found}. A WAV or FLAC header was expected.'],
  'other-format': ['error', '{file} is {found}; save the recording as WAV or FLAC, without lossy coding.'],
  'short-header': ['error', '{file} ends at byte {size}, inside its {part}, which needs {expected} bytes.'],
  'no-format': ['error', '{file} has no readable format chunk before its samples: {found}.'],
  'bad-header': ['error', '{file}: the {part} says {found}, where {expected} was expected.'],
  'no-samples': ['error', '{file} holds a header but no samples.'],
  'too-few-bits': ['error', '{file} has {bits} bits a sample; 16 or more are needed to see the leak between channels.'],
  'unsupported-encoding': ['error', '{file} is coded as {found}; PCM of 16, 24 or 32 bits or 32/64-bit float was expected.'],
  'flac-depth': ['error', '{file} is FLAC with {bits} bits a sample; FLAC of 16 or 24 bits can be read: save it as WAV.'],
  'too-long': ['error', '{file} packs {hours} h into {bytes} bytes; no groove is so even, so this is no recording of a record.'],
  unreadable: ['error', '{file} could not be read at byte {offset}: {why}.'],
  'changed-while-read': ['error', '{file} changed while it was being read ({what}): nothing was measured. Wait until the recorder has closed it, then read it again.'],
  'still-growing': ['note', 'The file was still growing while it was read: it was measured to the {present} s that it held at the start.'],
  // — how the file was written —
  'not-closed': ['note', 'The header was not completed ({found}): the file was read to its end.'],
  'cut-short': ['warning', 'The header promises {promised} s but the file holds {present} s: those were read.'],
  'longer-than-header': ['note', 'The header promises {promised} s but the file holds {present} s: all of it was read.'],
  'half-frame': ['note', 'The last {bytes} bytes do not make a whole frame and were left out.'],
  'one-sample-off': ['warning', 'The samples are one too few or one too many for left and right to come in pairs: bytes were lost or added in the file, and from there on left and right are exchanged.'],
  'pad-byte-missing': ['note', 'The writer of this file left out a pad byte after the {chunk} chunk; the samples are unharmed.'],
  'rate-disagrees': ['warning', 'The header says {rateHz} Hz but its byte rate means {otherHz} Hz; {rateHz} Hz was used, so speed may be wrong.'],
  'rate-unusual': ['warning', '{rateHz} Hz is outside 44.1 to 192 kHz: figures that need the missing band are less certain.'],
  'extra-channels': ['warning', 'The recording has {channels} channels; the first two are used as left and right.'],
  'damaged-frames': ['error', '{seconds:.2} s of damaged or missing FLAC frames were replaced by silence.'],
  'checksum-differs': ['error', 'The decoded samples do not match the checksum in the FLAC header: the file was altered or damaged.'],
  // — what the samples show —
  mono: ['error', 'The recording has one channel: balance, separation, tilt and polarity need both, recorded apart.'],
  'identical-channels': ['error', 'Right is a copy of left ({relation}): the source was mono or summed, so nothing between the channels can be measured.'],
  silent: ['error', 'The recording is silent: its peak is {loudestDb} dBFS. Check leads, input and level.'],
  quiet: ['warning', 'The recording is quiet: its peak is {loudestDb} dBFS, so the converter’s noise weighs more. Raise the level.'],
  'dead-channel': ['error', 'The {channel} channel is dead: it is {belowDb} dB under the other. Check its lead and input.'],
  clipped: ['error', 'Clipped, {channel}: {tops} flat {tops?top|tops} at {levelDb:.2} dBFS. Lower the level and record again.'],
  'above-full-scale': ['note', 'Float samples reach {peakDb:.1} dB over full scale; they are intact, but other programs may clip them.'],
  'dc-offset': ['warning', 'The {channel} channel has an offset of {percent:.2} % of full scale: it costs headroom and points to a fault in the chain.'],
  'dropped-samples': ['error', '{frames} samples are missing: the recording drops to exact zero in mid-signal. The computer could not keep up: record again with larger buffers.'],
  'phase-jump': ['warning', 'The phase of the tone jumps by {degrees:.1} ± {plusMinus:.1}°: samples are missing without a gap, or the tip jumped. The band is read from its longest whole stretch.'],
  'turned-in-band': ['note', 'The leak between the channels steps while this band plays: the headshell was turned, or the tip moved. The band is read from {fromS:.1} s on.'],
  'digital-silence': ['note', '{seconds:.2} s of exact zeros between signals: the recording was edited or muted there.'],
  'not-numbers': ['error', '{count} samples are not numbers and were replaced by zero.'],
  'too-short': ['error', 'The recording lasts {seconds:.2} s; at least {leastS} s is needed to measure anything.'],
  'channels-shift': ['error', 'From {atS} s on left and right are exchanged: bytes are missing or too many in the file there. Only the bands before it were measured; record again.'],
  'bytes-slip': ['error', 'From about {atS} s on every sample is made of the bytes of two: bytes are missing or too many in the file there. Only what comes before was measured; record again, or copy the file anew.'],
  'channels-unsure': ['error', 'Bytes were lost or added between the bands, and nothing tells where: left and right are exchanged from there on. What tells them apart was withheld; record again, or copy the file anew.'],
  // — finding bands and matching the record file —
  'no-bands': ['error', 'No band was found: this recording holds no steady tone, sweep, noise band or silent groove.'],
  'band-cut-start': ['note', 'Band {band} was already playing when the recording began.'],
  'band-cut-end': ['note', 'Band {band} was still playing when the recording ended.'],
  'sheet-band-missing': ['warning', 'Band {sheetBand} of the record file ({what}) was not heard.'],
  'sheet-band-extra': ['note', 'Band {band} ({what}) was heard, but the record file does not have it there.'],
  'sheet-band-ambiguous': ['note', 'Band {band} could be band {one} or band {other} of the record file: nothing tells them apart, so the record file is not used for it.'],
  'sheet-motion-differs': ['warning', 'Band {band} sounds {heard}, but the record file has {cut} there: the record file is used. The leak is strong or a channel is weak: check both.'],
  'sheet-not-this-record': ['error', 'The record file "{name}" does not fit: {matched} of {heard} bands agree. Check record and side.'],
  'sheet-wrong-speed': ['warning', 'All tones are {percent} % off the record file: the record was played at {playedRpm} instead of {rpm} rpm.'],
  'sheet-channels-swapped': ['error', 'Left and right are swapped: the record file fits only with the channels exchanged. Check cartridge leads and cables.'],
  'sheet-one-channel-inverted': ['error', 'One channel is inverted: {count} {count?band|bands} cut lateral or vertical {count?is|are} heard the other way round. Check the cartridge leads.'],
  'sheet-order-unknown': ['note', 'Channel order is not known: no one-sided band of the record file was matched.'],
  // — figures —
  'band-spoiled': ['error', 'Band {band} is not measured: it clips or misses samples, and no {leastS} s of it are clean.'],
  'band-unread': ['warning', 'Band {band} is not measured: it was told too late, or otherwise, while it played. Measure the recording of it as a file.'],
  withheld: ['note', '{quantity:title} is withheld: {why}.'],
  // — advice —
} as const satisfies Record<string, readonly [Severity, string]>;

export type ProblemCode = keyof typeof problems;
