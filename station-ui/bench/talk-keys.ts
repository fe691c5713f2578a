/**
 * Listens to the keys that are held to talk, before any element does. A key that comes up unseen, because the page lost
 * the keyboard, is let go. Returns how to stop listening.
 */
export function listenToTalkKeys(codes: () => readonly string[], hold: (held: boolean) => void): () => void {
  const held = new Set<string>();
  const down = (event: KeyboardEvent): void => {
    if (!codes().includes(event.code)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (held.size === 0) hold(true);
    held.add(event.code);
  };
  const up = (event: KeyboardEvent): void => {
    if (!held.delete(event.code)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (held.size === 0) hold(false);
  };
  const away = (): void => {
    if (held.size > 0) hold(false);
    held.clear();
  };
  addEventListener('keydown', down, { capture: true });
  addEventListener('keyup', up, { capture: true });
  addEventListener('blur', away);
  return () => {
    away();
    removeEventListener('keydown', down, { capture: true });
    removeEventListener('keyup', up, { capture: true });
    removeEventListener('blur', away);
  };
}
