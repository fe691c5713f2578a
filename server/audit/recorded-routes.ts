import type { ROUTES } from '#server/access/route-table.ts';
import type { ChangeDetails, ChangeWhat } from '#shared/audit/changes.ts';

/** A request that was answered well, as the record may see it: ids of its address and what its body says. */
export interface Asked {
  readonly params: Readonly<Record<string, string>>;
  readonly body: unknown;
}

/** What a request is in the record. Facts are ids, names of files and counts, never a secret, a buyer's name or an address. */
export interface Recorded {
  readonly what: ChangeWhat;
  readonly about: string;
  readonly details?: ChangeDetails;
}

export type RecordRule =
  /** recorded when it was done, by what was asked; null where that one changed nothing */
  | { readonly as: (asked: Asked) => Recorded | null }
  /** the route records it itself, in the transaction that makes the change or with what came of it */
  | { readonly itself: readonly ChangeWhat[] }
  /** why nothing is recorded */
  | { readonly not: string };

type Changing = Exclude<keyof typeof ROUTES, `GET ${string}`>;
/** Ways out for data that leaves the station as a file. */
type TakenOut =
  | 'GET /api/exports/parcels.csv'
  | 'GET /api/exports/shipments.csv'
  | 'GET /api/exports/supplies.csv'
  | 'GET /api/exports/report.csv'
  | 'GET /api/privacy/buyer.zip'
  | 'GET /api/diagnostics.zip'
  | 'GET /api/voices/recordings.zip';
export type RecordableRoute = Changing | TakenOut;

const COMPUTES = 'nothing is kept: it only tells what would be';
const PRINTS = 'the print is kept with its job, when it was made and what became of it';
const STOCK = 'what lies in a sack is kept with the sack, and who closed it and when';
const COMES_AND_GOES = 'coming and going is kept as sessions';
const SIMULATED = 'it only moves a simulated device';
const GUIDE = 'it only says where the guide of the first hour stands';

const exported = (file: string): RecordRule => ({ as: () => ({ what: 'data-taken-out', about: file }) });
const begun = (part: string): RecordRule => ({ as: () => ({ what: 'shop-begun', about: part }) });
const inBody = (body: unknown, key: string): string => {
  const value =
    typeof body === 'object' && body !== null ? (body as Readonly<Record<string, unknown>>)[key] : undefined;
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
};

/** Every route that changes something, or takes data out, and how the record of changes tells it. */
export const RECORDED: Readonly<Record<RecordableRoute, RecordRule>> = {
  // A wrong code, PIN or badge is recorded where it is looked at (`server/access/entry.ts`).
  'POST /api/access/set-up': { itself: ['pin-set', 'signed-in-failed', 'locked-out'] },
  'POST /api/access/pair': { itself: ['device-paired', 'signed-in-failed', 'locked-out'] },
  'POST /api/access/sign-in': { itself: ['signed-in-failed', 'locked-out'] },
  'POST /api/access/sign-out': { not: COMES_AND_GOES },
  'POST /api/access/active': { not: COMES_AND_GOES },
  'POST /api/access/codes': { as: () => ({ what: 'pairing-code-made', about: '' }) },
  'POST /api/access/pins': { itself: ['pin-set', 'pin-removed'] },
  'POST /api/access/devices/:id/revoke': {
    as: ({ params }) => ({ what: 'device-removed', about: params['id'] ?? '' }),
  },

  'POST /api/labels/print-again': { not: PRINTS },
  'POST /api/orders/:id/release': { itself: ['order-released'] },
  'POST /api/orders/:id/cancel': { itself: ['order-cancelled'] },
  'POST /api/orders/:id/leave-out': { itself: ['order-sent-in-part'] },
  'POST /api/orders/:id/rest-here': { itself: ['order-rest-here'] },
  'POST /api/orders/:id/reopen': { itself: ['order-reopened'] },
  'POST /api/orders/:id/address': { itself: ['order-address'] },
  'POST /api/addresses/:order/right': {
    as: ({ params }) => ({ what: 'order-address', about: params['order'] ?? '', details: { as: 'right' } }),
  },
  'POST /api/combining': { itself: ['orders-combined'] },
  'POST /api/combining/decline': { not: 'a proposal is only not shown again; the orders stay as they are' },
  'POST /api/combining/:id/part': { itself: ['orders-parted'] },
  'POST /api/imports/:subject/preview': { not: COMPUTES },
  'POST /api/imports/:id/apply': { itself: ['orders-imported', 'pieces-imported'] },
  'POST /api/imports/look': { not: COMPUTES },
  'POST /api/import-sources': { as: ({ body }) => ({ what: 'import-source-kept', about: inBody(body, 'name') }) },
  'POST /api/import-sources/:id/remove': {
    as: ({ params }) => ({ what: 'import-source-removed', about: params['id'] ?? '' }),
  },
  'POST /api/labels/send-again': { as: ({ body }) => ({ what: 'label-sent-again', about: inBody(body, 'key') }) },
  'POST /api/labels/stand-in': { not: SIMULATED },
  'POST /api/labels/numbers': { as: () => ({ what: 'label-numbers-read', about: '' }) },
  'POST /api/hand-over/:carrier/begin': { not: STOCK },
  'POST /api/hand-over/:carrier/scan': { not: STOCK },
  'POST /api/hand-over/:carrier/put': { not: STOCK },
  'POST /api/hand-over/:carrier/take-out': { not: STOCK },
  'POST /api/hand-over/:carrier/close': {
    as: ({ params }) => ({ what: 'sack-closed', about: params['carrier'] ?? '' }),
  },
  'POST /api/hand-over/parcels/:id/keep': {
    as: ({ params }) => ({ what: 'parcel-kept-here', about: params['id'] ?? '' }),
  },
  'POST /api/hand-over/sheets/:id/print': { not: PRINTS },
  'POST /api/hand-over-cards': { not: PRINTS },
  'POST /api/supplies/:item': {
    as: ({ params, body }) => ({
      what: 'stock-changed',
      about: params['item'] ?? '',
      details: { kind: inBody(body, 'kind') },
    }),
  },
  'POST /api/supplies-order-list': { not: PRINTS },
  'POST /api/devices/:bench/documents': { not: PRINTS },
  'POST /api/devices/:bench/zero': {
    not: 'the scale alone is set to zero, as packers do all day; its readings are kept',
  },
  'POST /api/devices/:bench/scale': {
    as: ({ params, body }) => ({
      what: 'device-told',
      about: `${params['bench'] ?? ''} scale`,
      details: { task: inBody(body, 'task') },
    }),
  },
  'POST /api/devices/:bench/test-scan': { not: COMPUTES },
  'POST /api/devices/:bench/jobs/:id': {
    as: ({ params, body }) => ({
      what: 'print-settled',
      about: `${params['bench'] ?? ''} ${params['id'] ?? ''}`,
      details: { as: inBody(body, 'as') },
    }),
  },
  'POST /api/devices/:bench/jobs/:id/copy': { not: PRINTS },
  'POST /api/devices/:bench/reference-check': {
    as: ({ params }) => ({ what: 'reference-checked', about: params['bench'] ?? '' }),
  },
  'POST /api/devices/:bench/simulate': { not: SIMULATED },
  'POST /api/devices/:bench/label-printer': { not: `${PRINTS}; otherwise ${SIMULATED}` },
  'POST /api/devices/:bench/stand-in': { itself: ['device-stood-in'] },
  'POST /api/scale-finding': { not: COMPUTES },
  'POST /api/form-trial': { not: COMPUTES },
  'POST /api/voices/takes': { not: 'a recording is kept with whose it is and when it was made' },
  'POST /api/voices/enrolments': {
    as: ({ body }) => ({
      what: 'voice-enrolled',
      about: inBody(body, 'staff'),
      details: { bench: inBody(body, 'bench') },
    }),
  },
  'DELETE /api/voices/enrolments/:staff/:bench': {
    as: ({ params }) => ({
      what: 'voice-forgotten',
      about: params['staff'] ?? '',
      details: { bench: params['bench'] ?? '' },
    }),
  },
  'POST /api/people/:id/record': { not: PRINTS },
  'POST /api/people/:id/badge': { not: PRINTS },
  'POST /api/people/:id/skills/:skill/withdraw': { itself: ['skill-withdrawn'] },
  'POST /api/rates/what-if': { not: COMPUTES },

  'POST /api/first-run/shop': begun('shop'),
  'POST /api/first-run/containers': begun('containers'),
  'POST /api/first-run/people': begun('people'),
  'POST /api/first-run/prices/drop-stand-in': begun('prices'),
  'POST /api/first-run/steps/:step': { not: GUIDE },
  'POST /api/first-run/put-away': { not: GUIDE },
  'POST /api/backups': { as: () => ({ what: 'backup-made', about: '' }) },
  'POST /api/privacy/purge': { itself: ['buyer-purged'] },
  'POST /api/log-level': { itself: ['log-level'] },
  'POST /api/corrections': { itself: ['corrections-imported'] },
  'POST /api/learned/:kind/reset': { itself: ['lessons-reset'] },
  'POST /api/rates/imports/preview': { not: COMPUTES },
  'POST /api/rates/imports/apply': { itself: ['prices-imported'] },
  'POST /api/rates/reload': { itself: ['prices-read-again'] },
  'POST /api/settings/check': { not: COMPUTES },
  'POST /api/settings/text': { itself: ['settings-changed'] },
  'POST /api/settings/entry': { itself: ['settings-changed'] },
  'POST /api/settings/remove': { itself: ['settings-changed'] },
  'POST /api/settings/rate-card': { itself: ['settings-changed'] },
  'POST /api/settings/rate-card/remove': { itself: ['settings-changed'] },
  'POST /api/settings/restore': { itself: ['settings-restored'] },
  'POST /api/intake-tokens': { itself: ['token-made'] },
  'POST /api/intake-tokens/:id/revoke': { itself: ['token-revoked'] },
  'POST /api/intake/:subject': {
    as: ({ params }) => ({
      what: params['subject'] === 'orders' ? 'orders-imported' : 'pieces-imported',
      about: '',
      details: { by: 'token' },
    }),
  },

  'GET /api/exports/parcels.csv': exported('parcels.csv'),
  'GET /api/exports/shipments.csv': exported('shipments.csv'),
  'GET /api/exports/supplies.csv': exported('supplies.csv'),
  'GET /api/exports/report.csv': exported('report.csv'),
  'GET /api/privacy/buyer.zip': { itself: ['buyer-exported'] },
  'GET /api/diagnostics.zip': { itself: ['diagnostics-taken'] },
  'GET /api/voices/recordings.zip': exported('recordings.zip'),
};
