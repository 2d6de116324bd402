/** The practice deck on the page, and what is told beside live pictures. */
// biome-ignore format: one entry a line merges easily
export const practiceWords = {
  'practice-source': 'The practice deck is worked out on this computer: its clock is exact, and its faults are those that were set.',
  'practice-what': 'An invented deck plays an invented record in this browser, silently, and is listened to as a real one is. Turn its knobs and watch the figures; or let an exercise hide faults and find them. Nothing of it enters this job.',
  'practice-apart': 'An invented deck and record. Nothing of it enters this job.',
  'practice-in-step': 'Speed, balance and earths change while the record plays. For everything else the arm goes up by itself, as at the bench, and comes down again at the first band.',
  'practice-unmarked': 'The knobs tell no figure: listen to a pass, do what is advised, listen again. The arm goes up by itself for a move.',
  'practice-few-bands': 'No advice: too few bands were heard.',
  'practice-loud': 'Turn the volume right down first, and raise it slowly: test tones harm tweeters and ears. Not while a real deck is listened to nearby.',
  'practice-silent-fast': 'Silent at eight times the speed.',
  'practice-left': 'Left is what the deck still has; its ± is half a click. The last reading is the tool’s own figure with its ± (k = 2), from before the last move where no pass came after it: twist by the tracking error, height by the vertical tracking error.',
  'practice-drawn-tilt': 'Drawn at random: tilt {tiltFrom} to {tiltTo}°, either way round.',
  'practice-drawn-all': 'Drawn at random: tilt {tiltFrom} to {tiltTo}°, twist {twistFrom} to {twistTo}°, height {heightFrom} to {heightTo} mm, speed {speedFrom} to {speedTo} %, eccentricity {offFrom} to {offTo} mm, either way round.',
  'scope-what': 'Across is lateral, up is vertical; one-sided tones lean. Scaled to the peak. The phase is that of the tone that plays; its ± is what single looks scatter.',
  'turned-while-playing': 'The headshell was turned {seconds:.0} s ago, while this band plays: its reading began anew there.',
  'strip-waits': 'Play a tone: its speed is drawn here.',
  'strip-span': 'From {low:+.2} to {high:+.2} % against {against}; a point every 10 ms, each {scatter} (k = 2, from its neighbours). One turn is {turnS:.2} s. Rests on the input’s clock.',
  'earth-caution': 'Loudspeakers off or volume fully down. Touch bare metal of arm and chassis only, nothing inside the deck and no mains part; never take off a protective earth to stop a hum. The arm on its rest, guard on.',
  'earth-how': 'A part that is earthed takes no notice of a hand; 3 dB either way, and more than ±, is notice. Levels are the mean of three seconds, ± with k = 2.',
  'earth-lift-first': 'Lift the arm first: a tone hides the hum.',
  'sound-guide-caution': 'Turn the volume of that output down first, and raise it slowly. The tone must not reach the stylus: choose headphones or a loudspeaker that is no part of the turntable’s chain.',
  'may-be-cleared': 'This browser may clear these recordings when its disk grows full: save what you need as a file.',
} as const;
