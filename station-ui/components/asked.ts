import type { Command } from '#shared/run/commands.ts';
import type { SetAsideReason } from '#shared/run/types.ts';

/** What an element of the bench asks for when it is touched. */
export interface Asked {
  readonly command: Command;
  readonly reason?: SetAsideReason;
}

/** Tells the bench that a command was touched. */
export function ask(from: HTMLElement, asked: Asked): void {
  from.dispatchEvent(new CustomEvent<Asked>('bf-asked', { detail: asked, bubbles: true, composed: true }));
}
