import { WEDGE_IDLE, WEDGE_OPTIONS, wedgeKey, wedgePause } from '#shared/codes/wedge.ts';
import type { WedgeKey, WedgeOptions, WedgeState, WedgeStep } from '#shared/codes/wedge.ts';
import type { Command } from '#shared/run/commands.ts';

/** Keys a foot switch or a keyboard sends, by KeyboardEvent.code. */
export interface KeyMap {
  /** press the main command */
  readonly main: readonly string[];
  readonly commands: Readonly<Record<string, Command>>;
}

export const DEFAULT_KEYS: KeyMap = {
  main: ['Space', 'Enter', 'NumpadEnter', 'PageDown'],
  commands: {
    ArrowLeft: 'back',
    PageUp: 'back',
    Escape: 'cancel',
    NumpadAdd: 'tell-more',
    NumpadSubtract: 'tell-less',
  },
};

/** What keys turned out to mean. */
export type KeyMeaning =
  | { readonly means: 'scan'; readonly text: string; /** when, as keyboard events tell time */ readonly at: number }
  | { readonly means: 'half-read' }
  | { readonly means: 'main' }
  | { readonly means: 'command'; readonly command: Command };

/** What a single key means; null where it means nothing here. */
export function meaningOf(code: string, map: KeyMap): KeyMeaning | null {
  if (map.main.includes(code)) return { means: 'main' };
  const command = Object.hasOwn(map.commands, code) ? map.commands[code] : undefined;
  return command === undefined ? null : { means: 'command', command };
}

/** On a busy tablet the next key may wait behind the timer; keys are told apart by their own times, so waiting is safe. */
const PATIENCE_MS = 30;
const PRESSES_A_BUTTON: ReadonlySet<string> = new Set(['Space', 'Enter', 'NumpadEnter']);

/** True inside a field where a person types: keys there are left alone. */
function typing(event: KeyboardEvent): boolean {
  const [target] = event.composedPath();
  return (
    target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement
  );
}

/** The button that a person stands on. */
function focusedButton(event: KeyboardEvent): HTMLElement | null {
  const [target] = event.composedPath();
  return target instanceof HTMLElement && target.matches('button, a[href]') ? target : null;
}

/**
 * Listens to keys before any element does. Keys of a scanner's burst never reach a button; a single Space or Enter presses
 * the button that the keyboard stands on, else it is the foot switch. Returns how to stop listening.
 */
export function listenToKeys(
  handle: (meaning: KeyMeaning) => void,
  map: () => KeyMap = () => DEFAULT_KEYS,
  options: WedgeOptions = WEDGE_OPTIONS,
): () => void {
  let state: WedgeState = WEDGE_IDLE;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let standing: HTMLElement | null = null;
  // A touched button keeps the focus; a foot on the switch must not press it again. Only Tab leads to a button.
  let wentByTab = false;

  const single = (code: string): boolean => {
    const meaning = meaningOf(code, map());
    if (meaning === null) return false;
    if (standing?.isConnected === true && PRESSES_A_BUTTON.has(code)) standing.click();
    else handle(meaning);
    return true;
  };
  const take = (step: WedgeStep, at: number): void => {
    state = step.state;
    if (step.scan !== null) handle({ means: 'scan', text: step.scan, at });
    if (step.halfRead !== null) handle({ means: 'half-read' });
    // More than one is a switch that bounces: it was pressed once.
    step.typed.some((key) => single(key.code));
  };
  /** No key is held back for ever: what did not settle yet is asked about again. */
  const listenOn = (): void => {
    timer = setTimeout(() => {
      const now = performance.now();
      take(wedgePause(options, state, now), now);
      if (state.held.length > 0) listenOn();
    }, options.gapMs + PATIENCE_MS);
  };
  const down = (event: KeyboardEvent): void => {
    if (typing(event) || event.ctrlKey || event.altKey || event.metaKey) return;
    const swallow = (): void => {
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    if (event.repeat) {
      if (event.key !== 'Tab') swallow();
      return;
    }
    if (event.key === 'Tab' && state.held.length === 0) wentByTab = true;
    if (state.held.length === 0) standing = wentByTab ? focusedButton(event) : null;
    clearTimeout(timer);
    const key: WedgeKey = { key: event.key, code: event.code, shift: event.shiftKey, time: event.timeStamp };
    const step = wedgeKey(options, state, key);
    take(step, event.timeStamp);
    if (step.swallow || (step.typed.length === 0 && single(event.code))) swallow();
    listenOn();
  };
  /** A button is clicked by Space when the key comes up. */
  const up = (event: KeyboardEvent): void => {
    if (typing(event) || !PRESSES_A_BUTTON.has(event.code)) return;
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
