/**
 * What a packer can say, scan or press. One list serves buttons, command cards, voice and the foot switch.
 * The words shown and spoken for each are in the screen's language files.
 */
export const COMMANDS = [
  /** go on: the main thing to do here */
  'next',
  'back',
  'repeat',
  'set-aside',
  'help',
  /** the stack does not close in this container */
  'too-tight',
  /** a piece that should be here is not */
  'item-missing',
  /** the piece that is named is not on its shelf: the order is sent without it, and it follows */
  'go-without',
  /** a piece is damaged or something was found in a pocket */
  'item-damaged',
  'zero-scale',
  'weigh-again',
  'make-lighter',
  'pay-next-bracket',
  'print-again',
  /** the label cannot be scanned: its number is given by hand */
  'enter-number',
  /** that number from its first digit again */
  'start-over',
  /** explain more of each fold */
  'tell-more',
  /** explain less of each fold */
  'tell-less',
  /** learn and look at one's own progress, on invented orders */
  'practice',
  /** fold the pieces of several orders ahead that go into one container */
  'fold-ahead',
  /** what lies on the set-aside shelf */
  'aside-list',
  /** the order goes back to the others, for any bench */
  'release',
  /** what is shown here, on paper */
  'print-list',
  /** who packs here leaves the bench */
  'sign-off',
  'confirm',
  'cancel',
] as const;
export type Command = (typeof COMMANDS)[number];

export const GIVEN_BY = ['touch', 'key', 'scan', 'camera', 'voice', 'scale', 'station'] as const;
/** How an input reached the station. */
export type GivenBy = (typeof GIVEN_BY)[number];
