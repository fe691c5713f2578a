/**
 * What a terminal could take for a command, or show in another order than it is written: C0 and C1 controls and DEL (ECMA-48)
 * other than tab and line feed, Unicode's line separators and direction overrides (UAX #9).
 */
// eslint-disable-next-line no-control-regex -- they are what is looked for
const OBEYED = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

const escaped = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** A text for a terminal: signs that it would obey are written out, as JSON writes them; tabs and line feeds stay. */
export function terminalText(text: string): string {
  return text.replace(OBEYED, escaped);
}
