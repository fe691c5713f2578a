import { COMMANDS } from '#shared/run/commands.ts';
import type { Command } from '#shared/run/commands.ts';

/** The codes that the station prints itself: command cards, container bins, orders and sacks. Read in either case. */

export type OurCode =
  | { readonly kind: 'command'; readonly command: Command }
  | { readonly kind: 'container'; readonly id: string }
  | { readonly kind: 'order'; readonly id: string }
  | { readonly kind: 'sack'; readonly carrier: string };

/** "BFC-SET-ASIDE" */
export function commandCode(command: Command): string {
  return `BFC-${command.toUpperCase()}`;
}

/** "BFB-POUCH-10X13" */
export function containerCode(id: string): string {
  return `BFB-${id.toUpperCase()}`;
}

/** "BFO-1047" */
export function orderCode(id: string): string {
  return `BFO-${id.toUpperCase()}`;
}

/** "BFH-MERROW-POST": the card of the sack that a carrier takes */
export function sackCode(carrier: string): string {
  return `BFH-${carrier.toUpperCase()}`;
}

/** Our own code in a text, or null. Ids of containers come out in lower case; orders as printed. */
export function parseOurCode(text: string): OurCode | null {
  const match = /^BF([CBOH])-([\x21-\x7e]+)$/i.exec(text);
  const id = match?.[2] ?? '';
  switch (match?.[1]?.toUpperCase()) {
    case 'C': {
      const command = COMMANDS.find((each) => each === id.toLowerCase());
      return command === undefined ? null : { kind: 'command', command };
    }
    case 'B':
      return { kind: 'container', id: id.toLowerCase() };
    case 'O':
      return { kind: 'order', id };
    case 'H':
      return { kind: 'sack', carrier: id.toLowerCase() };
    default:
      return null;
  }
}
