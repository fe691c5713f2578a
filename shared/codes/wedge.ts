/**
 * Tells a keyboard-wedge scanner's burst of keys from a person's typing.
 *
 * A key is held back until the next one comes or a short pause passes: a burst becomes a scan and none of its keys
 * reaches the page (a space would press the focused button); anything else is handed back as keys.
 */

export interface WedgeKey {
  /** KeyboardEvent.key */
  readonly key: string;
  /** KeyboardEvent.code: the place of the key, whatever the layout */
  readonly code: string;
  readonly shift: boolean;
  /** milliseconds, from any steady clock */
  readonly time: number;
}

export interface WedgeOptions {
  /** longest gap between two keys of a burst, in milliseconds */
  readonly gapMs: number;
  /** a burst has at least this many characters */
  readonly shortest: number;
  /** `as-typed` takes what the layout made of the key; `by-place` reads the key codes as a US keyboard has them */
  readonly characters: 'as-typed' | 'by-place';
  /** key codes that are never held back unless a burst is running: foot switch, shortcuts */
  readonly letThrough: ReadonlySet<string>;
}

export const WEDGE_OPTIONS: WedgeOptions = {
  gapMs: 35,
  shortest: 4,
  characters: 'as-typed',
  letThrough: new Set(),
};

export interface WedgeState {
  /** the first keys, kept until it is sure that they are a burst */
  readonly held: readonly WedgeKey[];
  readonly text: string;
  readonly lastAt: number;
  /** longer than any code, or with a key in it that is no character: this burst is no code whatever follows */
  readonly spoiled: boolean;
}

export const WEDGE_IDLE: WedgeState = { held: [], text: '', lastAt: 0, spoiled: false };

export interface WedgeStep {
  readonly state: WedgeState;
  /** the page must not see this key: stop and prevent the event */
  readonly swallow: boolean;
  /** a whole code was read */
  readonly scan: string | null;
  /** keys that were held back and turned out to be typing, oldest first */
  readonly typed: readonly WedgeKey[];
  /** a burst without its end, or too long: dropped, never guessed */
  readonly halfRead: string | null;
}

const LONGEST = 256;
const ENDS: ReadonlySet<string> = new Set(['Enter', 'Tab']);
const MODIFIERS: ReadonlySet<string> = new Set(['Shift', 'AltGraph', 'CapsLock']);

/** Takes the next key down. Call {@link wedgePause} first when time has passed since the last one. */
export function wedgeKey(options: WedgeOptions, state: WedgeState, key: WedgeKey): WedgeStep {
  const before = wedgePause(options, state, key.time);
  const { held, text, spoiled } = before.state;
  const running = held.length > 0;
  const pass = (swallow: boolean, next: WedgeState): WedgeStep => ({ ...before, state: next, swallow });

  if (MODIFIERS.has(key.key)) return pass(running, before.state);
  if (ENDS.has(key.key)) {
    if (text.length >= options.shortest) {
      return { ...pass(true, WEDGE_IDLE), ...(spoiled ? { halfRead: text } : { scan: text }) };
    }
    return { ...pass(false, WEDGE_IDLE), typed: [...before.typed, ...held] };
  }
  const character = characterOf(key, options);
  if (!running && (character === null || options.letThrough.has(key.code))) return pass(false, WEDGE_IDLE);
  const sure = text.length >= options.shortest;
  const full = text.length >= LONGEST;
  return pass(true, {
    held: sure ? held : [...held, key],
    text: full ? text : text + (character ?? ''),
    lastAt: key.time,
    spoiled: spoiled || full || character === null,
  });
}

/** Tells what to do when no key came until `time`; call it from a timer of `gapMs` after the last key. */
export function wedgePause(options: WedgeOptions, state: WedgeState, time: number): WedgeStep {
  const nothing: WedgeStep = { state, swallow: false, scan: null, typed: [], halfRead: null };
  if (state.held.length === 0 || time - state.lastAt <= options.gapMs) return nothing;
  if (state.text.length >= options.shortest) return { ...nothing, state: WEDGE_IDLE, halfRead: state.text };
  return { ...nothing, state: WEDGE_IDLE, typed: state.held };
}

const SHIFTED_DIGITS = [')', '!', '@', '#', '$', '%', '^', '&', '*', '('];
/** Plain and shifted characters of the other keys of a US keyboard, by code. */
const PLACES: Readonly<Record<string, readonly [string, string]>> = {
  Space: [' ', ' '],
  Minus: ['-', '_'],
  Equal: ['=', '+'],
  BracketLeft: ['[', '{'],
  BracketRight: [']', '}'],
  Backslash: ['\\', '|'],
  Semicolon: [';', ':'],
  Quote: ["'", '"'],
  Backquote: ['`', '~'],
  Comma: [',', '<'],
  Period: ['.', '>'],
  Slash: ['/', '?'],
  NumpadAdd: ['+', '+'],
  NumpadSubtract: ['-', '-'],
  NumpadMultiply: ['*', '*'],
  NumpadDivide: ['/', '/'],
  NumpadDecimal: ['.', '.'],
};

function characterOf(key: WedgeKey, options: WedgeOptions): string | null {
  if (options.characters === 'as-typed') return Array.from(key.key).length === 1 ? key.key : null;
  const letter = /^Key([A-Z])$/.exec(key.code)?.[1];
  if (letter !== undefined) return key.shift ? letter : letter.toLowerCase();
  const numpad = /^Numpad(\d)$/.exec(key.code)?.[1];
  if (numpad !== undefined) return numpad;
  const digit = /^Digit(\d)$/.exec(key.code)?.[1];
  if (digit !== undefined) return key.shift ? (SHIFTED_DIGITS[Number(digit)] ?? null) : digit;
  return PLACES[key.code]?.[key.shift ? 1 : 0] ?? null;
}
