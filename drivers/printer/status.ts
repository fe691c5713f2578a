import type { DeviceCondition } from '../health.ts';

/** Queries that a printer answers at once, whatever it is doing: DLE EOT n. */
export const STATUS_QUERIES = {
  printer: Uint8Array.of(0x10, 0x04, 1),
  offline: Uint8Array.of(0x10, 0x04, 2),
  error: Uint8Array.of(0x10, 0x04, 3),
  paper: Uint8Array.of(0x10, 0x04, 4),
} as const;
export type StatusQuery = keyof typeof STATUS_QUERIES;
export const STATUS_ORDER: readonly StatusQuery[] = ['printer', 'offline', 'error', 'paper'];

/** A query that is answered only once everything before it is printed: GS r 1. */
export const ACKNOWLEDGE_QUERY = Uint8Array.of(0x1d, 0x72, 1);

/** What one byte from a printer is. */
export type PrinterFrame =
  | { readonly kind: 'status'; readonly byte: number }
  | { readonly kind: 'acknowledge'; readonly paperOut: boolean; readonly nearEnd: boolean }
  | { readonly kind: 'discarded'; readonly byte: number };

/** Tells the answers apart by their fixed bits: real-time status has bits 1 and 4 set, the acknowledgement bit 4 clear. */
export function decodePrinterByte(byte: number): PrinterFrame {
  if ((byte & 0x93) === 0x12) return { kind: 'status', byte };
  if ((byte & 0x90) === 0) return { kind: 'acknowledge', nearEnd: (byte & 0x03) !== 0, paperOut: (byte & 0x0c) !== 0 };
  return { kind: 'discarded', byte };
}

/** How a printer is, from the answers to the four queries. */
export interface PrinterStatus {
  readonly offline: boolean;
  readonly coverOpen: boolean;
  readonly paperOut: boolean;
  readonly nearEnd: boolean;
  readonly error: boolean;
}

export function readStatus(answers: Readonly<Record<StatusQuery, number>>): PrinterStatus {
  return {
    offline: (answers.printer & 0x08) !== 0,
    coverOpen: (answers.offline & 0x04) !== 0,
    paperOut: (answers.offline & 0x20) !== 0 || (answers.paper & 0x60) === 0x60,
    error: (answers.offline & 0x40) !== 0 || (answers.error & 0x68) !== 0,
    nearEnd: (answers.paper & 0x0c) === 0x0c,
  };
}

/** True when a printer in this state takes a document. */
export function canPrint(status: PrinterStatus): boolean {
  return !(status.offline || status.coverOpen || status.paperOut || status.error);
}

export function conditionOf(status: PrinterStatus): DeviceCondition {
  if (status.coverOpen) return { state: 'attention', trouble: 'cover-open' };
  if (status.paperOut) return { state: 'attention', trouble: 'paper-out' };
  if (status.error) return { state: 'faulty', trouble: 'fault' };
  if (status.offline) return { state: 'attention', trouble: 'offline' };
  if (status.nearEnd) return { state: 'attention', trouble: 'paper-near-end' };
  return { state: 'working', trouble: 'none' };
}
