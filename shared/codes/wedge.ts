import { FNC1 } from './gs1.ts';

/**
 * Tells a keyboard-wedge scanner's burst of keys from a person's typing.
 *
 * A key is held back until the next one comes or a short pause passes: a burst becomes a scan and none of its keys
 * reaches the page (a space would press the focused button); anything else is handed back as keys.
 */

export interface WedgeKey {
  /** KeyboardEvent.key; FNC1 where the keys mean that; '' for a shortcut, which is no character */
  readonly key: string;
  /** KeyboardEvent.code: the place of the key, whatever the layout; '' for a shortcut */
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
  /** key codes that are never held back unless a burst is running: foot switch, shortcuts */
  readonly letThrough: ReadonlySet<string>;
}

export const WEDGE_OPTIONS: WedgeOptions = {
  gapMs: 35,
  shortest: 4,
  letThrough: new Set(),
};

/**
 * A burst in both of its readings. A scanner sends keys, not characters: one that was set for this keyboard's layout is
 * right as typed, one that is set as most leave the factory is right by place, as a US keyboard has the keys.
 */
export interface WedgeScan {
  readonly text: string;
  /** the other reading, where it differs */
  readonly otherwise: string | null;
}

export interface WedgeState {
  /** the first keys, kept until it is sure that they are a burst */
  readonly held: readonly WedgeKey[];
  /** how many keys of a burst came */
  readonly keys: number;
  /** null once a key was no character in this reading */
  readonly typed: string | null;
  readonly placed: string | null;
  readonly lastAt: number;
  /** when quick keys last broke off without an end */
  readonly brokenAt: number;
}

export const WEDGE_IDLE: WedgeState = { held: [], keys: 0, typed: '', placed: '', lastAt: 0, brokenAt: -Infinity };

export interface WedgeStep {
  readonly state: WedgeState;
  /** the page must not see this key: stop and prevent the event */
  readonly swallow: boolean;
  /** a whole code was read */
  readonly scan: WedgeScan | null;
  /** keys that were held back and turned out to be typing, oldest first */
  readonly typed: readonly WedgeKey[];
  /** a burst without its end, too long, or with a key in it that is no character: dropped, never guessed */
  readonly halfRead: boolean;
}

const LONGEST = 256;
/** Quick keys that follow broken ones within this time are the rest of the same code: its tail is another code. */
const REST_MS = 300;
const ENDS: ReadonlySet<string> = new Set(['Enter', 'Tab']);
const MODIFIERS: ReadonlySet<string> = new Set(['Shift', 'AltGraph', 'CapsLock', 'Control', 'Alt', 'Meta']);

/** Whether the keys that came are a scanner's for sure. */
export function isBurst(options: WedgeOptions, state: WedgeState): boolean {
  return state.keys >= options.shortest;
}

/** Takes the next key down. Call {@link wedgePause} first when time has passed since the last one. */
export function wedgeKey(options: WedgeOptions, state: WedgeState, key: WedgeKey): WedgeStep {
  const before = wedgePause(options, state, key.time);
  const { held, keys, typed, placed } = before.state;
  const running = held.length > 0;
  const pass = (swallow: boolean, next: WedgeState): WedgeStep => ({ ...before, state: next, swallow });

  if (MODIFIERS.has(key.key)) return pass(running, before.state);
  if (ENDS.has(key.key)) {
    if (!isBurst(options, before.state)) {
      return { ...pass(false, WEDGE_IDLE), typed: [...before.typed, ...held] };
    }
    const scan = readings(before.state);
    return { ...pass(true, WEDGE_IDLE), scan, halfRead: scan === null };
  }
  const character = typedCharacter(key);
  const place = placedCharacter(key);
  const isNone = character === null && place === null;
  const isRest = key.time - before.state.brokenAt <= REST_MS;
  if (!running && (isNone || options.letThrough.has(key.code))) return pass(false, WEDGE_IDLE);
  return pass(true, {
    held: isBurst(options, before.state) ? held : [...held, key],
    keys: keys + 1,
    typed: isRest ? null : joined(typed, character),
    placed: isRest ? null : joined(placed, place),
    lastAt: key.time,
    brokenAt: before.state.brokenAt,
  });
}

/** Tells what to do when no key came until `time`; call it from a timer of `gapMs` after the last key. */
export function wedgePause(options: WedgeOptions, state: WedgeState, time: number): WedgeStep {
  const nothing: WedgeStep = { state, swallow: false, scan: null, typed: [], halfRead: false };
  if (state.held.length === 0 || time - state.lastAt <= options.gapMs) return nothing;
  // A single key is a person's.
  const broken = state.held.length > 1 ? { ...WEDGE_IDLE, brokenAt: state.lastAt } : WEDGE_IDLE;
  if (isBurst(options, state)) return { ...nothing, state: broken, halfRead: true };
  return { ...nothing, state: broken, typed: state.held };
}

/** A text that is longer than any code is none. */
function joined(text: string | null, character: string | null): string | null {
  return text === null || character === null || text.length >= LONGEST ? null : text + character;
}

function readings({ typed, placed }: WedgeState): WedgeScan | null {
  const text = typed ?? placed;
  if (text === null) return null;
  return { text, otherwise: placed === text ? null : placed };
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

function typedCharacter(key: WedgeKey): string | null {
  return Array.from(key.key).length === 1 ? key.key : null;
}

function placedCharacter(key: WedgeKey): string | null {
  if (key.key === FNC1) return FNC1;
  const letter = /^Key([A-Z])$/.exec(key.code)?.[1];
  if (letter !== undefined) return key.shift ? letter : letter.toLowerCase();
  const numpad = /^Numpad(\d)$/.exec(key.code)?.[1];
  if (numpad !== undefined) return numpad;
  const digit = /^Digit(\d)$/.exec(key.code)?.[1];
  if (digit !== undefined) return key.shift ? (SHIFTED_DIGITS[Number(digit)] ?? null) : digit;
  return PLACES[key.code]?.[key.shift ? 1 : 0] ?? null;
}
