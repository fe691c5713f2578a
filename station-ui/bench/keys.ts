import { FNC1 } from '#shared/codes/gs1.ts';
import { WEDGE_IDLE, WEDGE_OPTIONS, isBurst, wedgeKey, wedgePause } from '#shared/codes/wedge.ts';
import type { WedgeKey, WedgeOptions, WedgeScan, WedgeState, WedgeStep } from '#shared/codes/wedge.ts';
import type { Command } from '#shared/run/commands.ts';
import type { BenchView } from '#shared/wire/views.ts';
import { fieldBefore, fieldOf } from './field-guard.ts';

/** Keys a foot switch or a keyboard sends, by KeyboardEvent.code. */
export interface KeyMap {
  /** press the main command */
  readonly main: readonly string[];
  readonly commands: Readonly<Record<string, Command>>;
  /** a number is being entered: digit keys are its digits */
  readonly digits?: boolean;
}

const DEFAULT_KEYS: KeyMap = {
  main: ['Space', 'Enter', 'NumpadEnter', 'PageDown'],
  commands: {
    ArrowLeft: 'back',
    PageUp: 'back',
    Escape: 'cancel',
    ArrowRight: 'confirm',
    NumpadAdd: 'tell-more',
    NumpadSubtract: 'tell-less',
  },
};

/** The shop's foot switch presses the main command, beside the keys that always do; to a number keys give its digits. */
export function keysOf(view: Pick<BenchView, 'task' | 'footSwitchKeys' | 'pedals'> | null): KeyMap {
  const pedals = view?.pedals ?? {};
  // A key that the shop gave another meaning has lost its usual one.
  const usual = DEFAULT_KEYS.main.filter((code) => !Object.hasOwn(pedals, code));
  const main = [...usual, ...(view?.footSwitchKeys ?? [])];
  const commands = { ...DEFAULT_KEYS.commands, ...pedals };
  if (view?.task.at !== 'label' || view.task.entering === undefined) return { main, commands };
  return { main, commands: { ...commands, Backspace: 'back' }, digits: true };
}

/** What keys turned out to mean. */
export type KeyMeaning =
  | { readonly means: 'scan'; readonly scan: WedgeScan; /** as keyboard events tell time */ readonly at: number }
  | { readonly means: 'half-read' }
  | { readonly means: 'digit'; readonly digit: string }
  | { readonly means: 'main' }
  | { readonly means: 'command'; readonly command: Command };

/** What a single key means; null where it means nothing here. */
export function meaningOf(code: string, map: KeyMap): KeyMeaning | null {
  if (map.main.includes(code)) return { means: 'main' };
  const digit = map.digits === true ? /^(?:Digit|Numpad)(\d)$/.exec(code)?.[1] : undefined;
  if (digit !== undefined) return { means: 'digit', digit };
  const command = Object.hasOwn(map.commands, code) ? map.commands[code] : undefined;
  return command === undefined ? null : { means: 'command', command };
}

/** On a busy tablet the next key may wait behind the timer; keys are told apart by their own times, so waiting is safe. */
const PATIENCE_MS = 30;
/** Two quick keys are hardly a person's: the rest of the code is worth waiting for. */
const PATIENCE_WITH_A_BURST_MS = 250;
const PRESSES_A_BUTTON: ReadonlySet<string> = new Set(['Space', 'Enter', 'NumpadEnter']);

/** The button that a person stands on. */
function focusedButton(event: KeyboardEvent): HTMLElement | null {
  const [target] = event.composedPath();
  return target instanceof HTMLElement && target.matches('button, a[href]') ? target : null;
}

/** What a key is to the wedge. Shortcuts are none of its characters, but for the one that stands for FNC1 (common practice). */
function wedgeKeyOf(event: KeyboardEvent): WedgeKey {
  const { code, shiftKey: shift, timeStamp: time } = event;
  // A layout's third characters come with AltGr, which some systems tell as Control and Alt together.
  const shortcut = !event.getModifierState('AltGraph') && (event.ctrlKey || event.altKey || event.metaKey);
  if (!shortcut || /^(Control|Alt|Meta)/.test(event.key)) return { key: event.key, code, shift, time };
  const separates = event.ctrlKey && !event.altKey && !event.metaKey && code === 'BracketRight';
  return { key: separates ? FNC1 : '', code: '', shift, time };
}

/**
 * Listens to keys before any element does. Keys of a scanner's burst never reach a button, and what of them reached a
 * field is taken back; a single Space or Enter presses the button that the keyboard stands on, else it is the foot switch.
 * Returns how to stop listening.
 */
export function listenToKeys(
  handle: (meaning: KeyMeaning) => void,
  map: () => KeyMap = () => DEFAULT_KEYS,
  options: WedgeOptions = WEDGE_OPTIONS,
): () => void {
  let state: WedgeState = WEDGE_IDLE;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let standing: HTMLElement | null = null;
  /** where a person may be typing, and how to make it as it was before the first key of a burst */
  let field: { readonly restore: () => void } | null = null;
  // A touched button keeps the focus; a foot on the switch must not press it again. Only Tab leads to a button.
  let wentByTab = false;

  const single = (code: string): KeyMeaning | null => {
    const meaning = meaningOf(code, map());
    if (meaning === null) return null;
    if (standing?.isConnected === true && PRESSES_A_BUTTON.has(code)) standing.click();
    else handle(meaning);
    return meaning;
  };
  const take = (step: WedgeStep, at: number): void => {
    state = step.state;
    if (step.scan !== null) handle({ means: 'scan', scan: step.scan, at });
    if (step.halfRead) handle({ means: 'half-read' });
    if (field !== null) return;
    // More than one is a switch that bounces: it was pressed once. In a field, and as digits, they were typed.
    step.typed.some((key) => {
      const meaning = single(key.code);
      return meaning !== null && meaning.means !== 'digit';
    });
  };
  /** No key is held back for ever: what did not settle yet is asked about again. */
  const listenOn = (): void => {
    const patience = state.held.length > 1 ? PATIENCE_WITH_A_BURST_MS : PATIENCE_MS;
    timer = setTimeout(() => {
      const now = performance.now();
      take(wedgePause(options, state, now), now);
      if (state.held.length > 0) listenOn();
    }, options.gapMs + patience);
  };
  const down = (event: KeyboardEvent): void => {
    const swallow = (): void => {
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    const inField = fieldOf(event);
    if (event.repeat) {
      if (inField === null && event.key !== 'Tab') swallow();
      return;
    }
    const key = wedgeKeyOf(event);
    if (state.held.length === 0) {
      if (key.code === '' && key.key !== FNC1) return;
      if (event.key === 'Tab') wentByTab = true;
      standing = wentByTab ? focusedButton(event) : null;
      field = inField === null ? null : fieldBefore(inField);
    }
    clearTimeout(timer);
    const wasBurst = isBurst(options, state);
    const step = wedgeKey(options, state, key);
    take(step, event.timeStamp);
    if (field === null) {
      if (step.swallow || (step.typed.length === 0 && single(event.code) !== null)) swallow();
    } else if (wasBurst || isBurst(options, state)) {
      // A person does not type this fast: what the first keys left in the field is taken out again.
      if (!wasBurst) field.restore();
      swallow();
    }
    listenOn();
  };
  /** A button is clicked by Space when the key comes up. */
  const up = (event: KeyboardEvent): void => {
    if (fieldOf(event) !== null || !PRESSES_A_BUTTON.has(event.code)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  const touched = (): void => {
    wentByTab = false;
  };
  addEventListener('pointerdown', touched, { capture: true });
  addEventListener('keydown', down, { capture: true });
  addEventListener('keyup', up, { capture: true });
  return () => {
    clearTimeout(timer);
    removeEventListener('pointerdown', touched, { capture: true });
    removeEventListener('keydown', down, { capture: true });
    removeEventListener('keyup', up, { capture: true });
  };
}
