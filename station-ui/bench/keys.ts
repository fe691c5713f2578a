import type { Command } from '#shared/run/commands.ts';

/** Keys a foot switch or a keyboard sends, by KeyboardEvent.code. */
export interface KeyMap {
  /** press the main command */
  readonly main: readonly string[];
  readonly commands: Readonly<Record<string, Command>>;
}

export const DEFAULT_KEYS: KeyMap = {
  main: ['Space', 'Enter', 'NumpadEnter', 'PageDown'],
  commands: { ArrowLeft: 'back', PageUp: 'back', Escape: 'cancel' },
};

/** What a key turned out to mean. */
export type KeyMeaning =
  | { readonly means: 'half-read' }
  | { readonly means: 'scan'; readonly text: string }
  | { readonly means: 'main' }
  | { readonly means: 'command'; readonly command: Command };

export interface PressedKey {
  /** KeyboardEvent.key */
  readonly key: string;
  /** KeyboardEvent.code */
  readonly code: string;
  /** milliseconds */
  readonly at: number;
}

/** Between the keys of a scanner lie 0-2 ms, of a fast typist 80; a slow tablet may hold keys up. */
export const BURST_GAP_MS = 45;
/** A shorter burst is two feet on a switch, not a code. */
const SHORTEST_CODE = 3;
/** A scan is at most this long; more is a stuck key. */
const LONGEST_CODE = 256;

/**
 * Tells scanner bursts from single keys, without a clock of its own: `press` takes a key, `rest` is called when no key has
 * come for {@link BURST_GAP_MS}. Either may return what the keys meant.
 */
export class KeySorter {
  private keys: PressedKey[] = [];

  constructor(private readonly map: () => KeyMap = () => DEFAULT_KEYS) {}

  /** keys are being held back: a burst may be under way */
  get running(): boolean {
    return this.keys.length > 0;
  }

  press(key: PressedKey): readonly KeyMeaning[] {
    const last = this.keys.at(-1);
    const before = last !== undefined && key.at - last.at > BURST_GAP_MS ? this.rest() : [];
    this.keys.push(key);
    const ended = (key.key === 'Enter' || key.key === 'Tab') && this.keys.length > SHORTEST_CODE;
    return ended ? [...before, ...this.scan()] : before;
  }

  private scan(): readonly KeyMeaning[] {
    const text = this.taken()
      .map(({ key }) => key)
      .filter((key) => key.length === 1)
      .join('')
      .trim();
    return text.length >= SHORTEST_CODE && text.length <= LONGEST_CODE ? [{ means: 'scan', text }] : [];
  }

  private taken(): readonly PressedKey[] {
    const { keys } = this;
    this.keys = [];
    return keys;
  }

  rest(): readonly KeyMeaning[] {
    const keys = this.taken();
    // A burst that stops without its end is half a code: never guessed.
    if (keys.length > SHORTEST_CODE) return [{ means: 'half-read' }];
    if (keys.length !== 1) return [];
    const [single] = keys;
    if (single === undefined) return [];
    const { main, commands } = this.map();
    if (main.includes(single.code)) return [{ means: 'main' }];
    const command = commands[single.code];
    return command === undefined ? [] : [{ means: 'command', command }];
  }
}

/** True inside a field where a person types: keys there are left alone. */
function typing(event: KeyboardEvent): boolean {
  const [target] = event.composedPath();
  return (
    target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement
  );
}

function focusedButton(event: KeyboardEvent): HTMLElement | null {
  const [target] = event.composedPath();
  return target instanceof HTMLElement &&
    target.matches('button:focus-visible, a[href]:focus-visible, summary:focus-visible')
    ? target
    : null;
}

/**
 * Listens to keys before any element does. Keys of a burst never reach a button; a single Space or Enter presses the button
 * that the keyboard stands on, else it is the foot switch. Returns how to stop listening.
 */
export function listenToKeys(
  handle: (meaning: KeyMeaning) => void,
  map: () => KeyMap = () => DEFAULT_KEYS,
): () => void {
  const sorter = new KeySorter(map);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let standing: HTMLElement | null = null;

  const tell = (meanings: readonly KeyMeaning[]): void => {
    for (const meaning of meanings) {
      if (meaning.means === 'main' && standing?.isConnected === true) standing.click();
      else handle(meaning);
    }
    if (meanings.length > 0) standing = null;
  };
  const down = (event: KeyboardEvent): void => {
    if (typing(event) || event.ctrlKey || event.altKey || event.metaKey) return;
    const { main, commands } = map();
    const character = event.key.length === 1;
    const endOfBurst = event.key === 'Tab' && sorter.running;
    if (!character && !endOfBurst && !main.includes(event.code) && !Object.hasOwn(commands, event.code)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (event.repeat) return;
    clearTimeout(timer);
    standing =
      event.code === 'Space' || event.code === 'Enter' || event.code === 'NumpadEnter' ? focusedButton(event) : null;
    tell(sorter.press({ key: event.key, code: event.code, at: event.timeStamp }));
    timer = setTimeout(() => {
      tell(sorter.rest());
    }, BURST_GAP_MS);
  };
  /** A button is clicked by Space when the key comes up. */
  const up = (event: KeyboardEvent): void => {
    if (typing(event) || (event.code !== 'Space' && event.code !== 'Enter' && event.code !== 'NumpadEnter')) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  addEventListener('keydown', down, { capture: true });
  addEventListener('keyup', up, { capture: true });
  return () => {
    clearTimeout(timer);
    removeEventListener('keydown', down, { capture: true });
    removeEventListener('keyup', up, { capture: true });
  };
}
