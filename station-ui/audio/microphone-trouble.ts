/** Why there is no microphone; the words that say how to mend it are the language files'. */
export const MICROPHONE_TROUBLES = [
  /** browsers give no microphone to a page that came over http:// from another computer */
  'page-not-secure',
  'forbidden',
  'none-found',
  'in-use',
  'wrong-rate',
  'unplugged',
  /** it is open and gives nothing but zeros: switched off at the microphone or by the system; it ends by itself */
  'only-zeros',
  'too-old',
] as const;
export type MicrophoneTrouble = (typeof MICROPHONE_TROUBLES)[number];
