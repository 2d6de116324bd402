/** A phone or tablet beside the deck that shows the live figure: at the bench, on that screen, and from the server. */
// biome-ignore format: one entry a line merges easily
export const secondScreenWords = {
  // — at the bench —
  'second-what': 'A phone or tablet in the same network shows the live figure, and nothing else of this program. It can only be read.',
  'second-plain': 'The network carries code and figure unencrypted: use a network that you trust.',
  'second-how': 'Open this address on the phone or tablet, then type the code there.',
  'second-code-life': 'The code works once, for three minutes; then a new one is here.',
  'second-connected': 'A screen shows the figure.',
  'second-away': 'The screen that was let in is away. It comes back by itself.',
  'second-off-bench': 'The second screen is off.',
  'second-off-tries': 'The second screen turned itself off: {count} wrong codes were entered.',
  'second-off-window': 'The second screen turned itself off: the page that turned it on was closed.',
  'second-off-stopped': 'The second screen is off: the program was stopped.',
  'second-no-network': 'This computer has no address in a private network. Join a network, or name the address with platterside serve --second-screen ADDRESS.',
  'second-not-here': 'This computer has no address {address} now. Turn the second screen on again.',
  'second-ports-taken': 'No port could be opened at {address} for the second screen. Turn it on again.',
  'second-not-built': 'The page of the second screen has not been built yet: run npm run build, then start the server again.',
  // — what it is told beside the figure —
  'second-record': 'With what the record may hide: ± {total:.1}°.',
  'second-partner': 'The other channel’s band ended {seconds:.0} s ago.',
  'second-practice': 'The practice deck plays: its figures are invented.',
  'second-not-listening': 'The bench is not listening now.',
  'second-no-figure': 'Set the tip down on a test band.',
  // — on the second screen —
  'second-type-code': 'Type the code that the bench screen shows.',
  'second-code-wrong': 'That is not the code on the bench screen now. Read it again.',
  'second-too-fast': 'One try a second: wait a moment, then try again.',
  'second-unreachable': 'The bench does not answer. Trying again.',
  'second-ended': 'The second screen was turned off at the bench.',
  'second-other': 'Another screen was let in, or the code was renewed at the bench.',
  'second-waiting': 'Waiting for the bench.',
  'second-old': 'No news from the bench for {seconds:.0} s: this figure is old.',
} as const;
