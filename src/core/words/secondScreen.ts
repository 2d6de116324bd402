/** A phone or tablet beside the deck that shows the live figure: at the bench, on that screen, and from the server. */
// biome-ignore format: one entry a line merges easily
export const secondScreenWords = {
  // — at the bench —
  'second-what': 'Shows the live figure on a phone or tablet in the same network, and nothing else of this program. It can only be read.',
  'second-plain': 'The network carries the figure and the code unencrypted: use a network that you trust.',
  'second-how': 'Scan the picture or type the address there, then the code.',
  'second-connected': 'A screen shows the figure.',
  'second-away': 'The screen that was let in is not connected now; it comes back by itself.',
  'second-off-bench': 'The second screen is off.',
  'second-off-tries': 'The second screen turned itself off: {count} wrong codes were entered.',
  'second-off-window': 'The second screen turned itself off: the page that turned it on was closed.',
  'second-off-stopped': 'The second screen is off: the program was stopped.',
  'second-no-network': 'This computer has no address in a private network. Join a network, or name the address with platterside serve --second-screen ADDRESS.',
  'second-not-here': 'This computer has no address {address} now. Turn the second screen on again.',
  'second-ports-taken': 'No port could be opened at {address} for the second screen. Turn it on again.',
  'second-not-built': 'The page of the second screen has not been built yet: run npm run build, then start the server again.',
  // — on the second screen —
  'second-type-code': 'Type the code that the bench screen shows.',
  'second-code-wrong': 'That is not the code on the bench screen now. Read it again.',
  'second-wait': 'One try a second: wait a moment, then try again.',
  'second-unreachable': 'The bench does not answer. Trying again.',
  'second-ended': 'The second screen was turned off at the bench.',
  'second-other': 'Another screen was let in, or the code was renewed at the bench.',
  'second-not-listening': 'The bench is not listening now.',
  'second-no-figure': 'No figure yet.',
  'second-old': 'No news from the bench for {seconds:.0} s.',
} as const;
