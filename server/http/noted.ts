import type { Request } from 'express';
import type { AppParts } from './app.ts';
import { whoOf } from '#server/access/who.ts';
import { recordChange } from '#server/store/changes.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import type { ChangeDetails, ChangeWhat } from '#shared/audit/changes.ts';

/** A change that a request of the office makes, to be kept. Facts are ids and counts, never a buyer's name or address. */
export interface Noted {
  readonly what: ChangeWhat;
  readonly about: string;
  readonly details?: ChangeDetails;
}

export type Note = (request: Request, noted: Noted, store?: StoreOrTransaction) => Promise<void>;

/** Keeps who made a change in the office: in the transaction that makes it where one is given. */
export function notes({ store, clock }: Pick<AppParts, 'store' | 'clock'>): Note {
  return (request, noted, within = store) =>
    recordChange(within, { ...noted, who: whoOf(request).person, from: 'office' }, clock.now());
}
