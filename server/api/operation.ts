import type { z } from 'zod';
import type { WireAnswers } from '#shared/wire/contract.ts';

export const GROUPS = {
  station: 'Is the server there, and what can be asked of it',
  shop: 'The first hour of a shop',
  orders: 'Orders: lists, search, state, cancelling, combining, addresses',
  incoming: 'Pieces and orders that come in, by file or from another system',
  planning: 'What a piece would go in',
  prices: 'Price lists, quotes and bringing a price list in',
  labels: 'Labels that come from outside, the shipments file and numbers read back',
  handOver: 'Loading the carriers’ sacks and handing them over',
  reports: 'Money, supplies and what was learned',
  people: 'Progress and skills',
  devices: 'Scales, scanners and printers of the benches',
  inside: 'How the station is, and who changed what',
  settings: 'The shop’s files, changed in the office',
  voice: 'Speaking, and the voices of the shop’s people',
} as const;
export type Group = keyof typeof GROUPS;

/** Bytes that are no JSON. */
export interface Media {
  readonly media: string;
  readonly about: string;
}

/** One route as the API's documents show it. The schemas are the ones that the route checks requests with. */
export interface Operation {
  readonly group: Group;
  readonly method: 'get' | 'post' | 'put' | 'delete';
  /** as the router has it: `/api/orders/:id` */
  readonly path: string;
  /** the router's, where it serves several */
  readonly route?: string;
  readonly id: string;
  readonly about: string;
  readonly query?: z.ZodObject;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: z.ZodType | Media;
  readonly answer: keyof WireAnswers | Media;
  /** answers of their own beside the common error */
  readonly otherAnswers?: Readonly<Record<number, keyof WireAnswers>>;
  /** why it may be refused, by status */
  readonly refusals?: Readonly<Record<number, string>>;
  /** kept as it is within a first number of the version; else it serves the pages and may grow with them */
  readonly stable?: true;
  /** sent with a token of the page Import */
  readonly token?: true;
  /** may also answer line by line with how far it is, to `Accept: application/x-ndjson` */
  readonly progress?: true;
}

export const csv = (about: string): Media => ({ media: 'text/csv', about });
export const isMedia = (body: object | string): body is Media => typeof body === 'object' && 'media' in body;
