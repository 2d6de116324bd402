/** Listening live: the input, its level, what to do about it. */
// biome-ignore format: one entry a line merges easily
export const liveWords = {
  // — the input as the browser gives it —
  'browser-without-workers':
    'This browser has no background workers, which reading and listening need: open the page in a current Firefox, Chromium or Safari. Typing, geometry and reports work here.',
  'browser-without-audio':
    'This browser lets a page neither listen nor play: open the page in a current Firefox, Chromium or Safari, or record the side and drop its file here.',
  'input-processed': 'The browser still processes the sound ({what}): what it gives is not what the cartridge gives. Choose another input or another browser.',
  'input-one-channel': 'This input has one channel; both channels of the cartridge were expected. Choose a stereo line input.',
  'input-resampled': 'The input runs at {input:.0} Hz and the browser would convert it to {given:.0} Hz. Set the sound card to one of both, then listen again.',
  'input-usual-rate': 'The input runs at 44.1 kHz because nothing else was asked for. Where the sound card can do 96 kHz, stop and choose that sample rate; if it is refused, the sound server is set to 44.1 kHz: set its default rate to that of the card.',
  'input-other-rate': 'The browser gives this input at {given:.0} Hz, not at the {asked:.0} Hz that was chosen. Listen again, set the sound card to that rate, or choose its own.',
  'input-processing-unknown': 'The browser does not say whether it processes the sound ({what}): compare one pass with a recorded file first.',
  'input-clock': 'Speed and wow rest on the clock of this input and on the browser: let a recorded file be the evidence.',
  // — what its samples tell —
  'input-not-connected': 'No sound source is connected.',
  'input-dead': 'Nothing comes from this input: exact zeros for {seconds:.1} s. It may have been switched off, unplugged or muted.',
  'input-stopped': 'The sound input has stopped: no sample for {seconds:.1} s. Check its cable, then listen again.',
  'input-copies': 'Right is a copy of left: the input is mono or summed. Choose the stereo input, and check that no program mixes it down.',
  'input-dead-channel': 'The {channel} channel is dead. Check its lead and the input.',
  'input-filled': '{count} {count?block was|blocks were} filled with zeros: the computer could not keep up. Close other programs; what plays now is read around them.',
  'input-lost': '{frames} {frames?sample was|samples were} lost on the way; zeros replace them, and what plays now is read around them.',
  'level-clipping': 'Clipping: turn the gain down by 6 dB, then watch the loudest band again.',
  'level-hot': 'Too high: the peak is {peakDb:.1} dBFS. Turn the gain down by {by:.0} dB.',
  'level-good': 'Good level: the peak is {peakDb:.1} dBFS.',
  'level-low': 'Too low: the peak is {peakDb:.1} dBFS. Turn the gain up by {by:.0} dB.',
  'level-nothing': 'No tone yet: the peak is {peakDb:.1} dBFS. Set the tip down on a test band.',
  'channels-apart': 'Stereo: left and right differ, as those of a cartridge do.',
  // — guidance —
  'guide-turn': 'Turn {way}, about {by:.2}°.',
  'guide-good-once': 'Inside the limit once. Play it again to be sure.',
  'guide-good-enough': 'Good enough: inside the limit twice. Leave it, and tighten the screws.',
  'guide-wait': 'Hold still: the reading is settling.',
  'guide-both-bands': 'Play a left-only and a right-only tone of the same pitch: the tilt needs both.',
  'earth-no-hum': 'No mains line rises out of the noise (under {db:.0} dBFS): the earths need no check.',
  'earth-go-on': 'Hum is there. Touch the next part and hold it.',
  'earth-all-joined': 'No part takes notice of a hand: the joints are good. Look for a second earth path, a transformer or motor near the cartridge, or a lead’s screen.',
  'earth-joint-arm-earth': 'The earth lead from the deck to the preamp is bad: clean both ends, tighten them, and look for a break.',
  'earth-joint-arm': 'The joint between arm tube and its earth terminal is bad: look at the wire and its screw under the arm.',
  'earth-joint-headshell': 'The joint between headshell and arm tube is bad: clean the contact faces and tighten the collar or screw.',
  'earth-joint-chassis': 'The chassis is not joined to the earth terminal: clean and tighten its lead.',
  'sound-guide-same-device': 'The guide would play through the device that the turntable is heard by. Choose another output, for instance headphones.',
  'sound-guide-unknown-device': 'The browser does not say which device the guide would play through: it stays silent.',
} as const;
