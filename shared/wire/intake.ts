import type { AddressDoubt } from '#shared/addresses/types.ts';
import type { ImportSubject } from './office.ts';

/** What another system needs to send pieces and orders; the token itself is shown once and never kept. */
export interface IntakeToken {
  readonly id: number;
  readonly name: string;
  readonly may: readonly ImportSubject[];
  /** epoch milliseconds */
  readonly madeAt: number;
  readonly usedAt: number | null;
  readonly revokedAt: number | null;
}

export interface NewIntakeToken {
  readonly token: string;
  readonly tokens: readonly IntakeToken[];
}

/** A record that was refused: which of the list, counted from 1, and which field. */
export interface RefusedRecord {
  readonly record: number;
  readonly field: string | null;
  readonly expected: string;
  readonly found: string;
}

/**
 * GET  /api/intake-tokens -> IntakeToken[]
 * POST /api/intake-tokens { name, may } -> NewIntakeToken
 * POST /api/intake-tokens/:id/revoke -> IntakeToken[]
 *
 * POST /api/intake/:subject with `Authorization: Bearer TOKEN` and a JSON list of records -> IntakeAnswer. All of it is
 * stored, or nothing. 400 no JSON; 401 no token, an unknown or a revoked one; 403 a token for the other subject; 409 a bench
 * took one of the orders meanwhile; 413 too large; 422 with `refused`, each by its place in the list.
 */
export interface IntakeAnswer {
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly unchanged: number;
  /** orders that are stored and whose address should be asked about */
  readonly doubts: readonly { readonly order: string; readonly doubts: readonly AddressDoubt[] }[];
}
