/** What somebody may have changed that others must be able to ask about later. */
export const CHANGES = [
  'settings-changed',
  'settings-restored',
  'prices-imported',
  'prices-read-again',
  'order-cancelled',
  'order-reopened',
  'order-released',
  'order-sent-in-part',
  'order-rest-here',
  'order-address',
  'orders-combined',
  'orders-parted',
  'orders-imported',
  'pieces-imported',
  'corrections-imported',
  'lessons-reset',
  'stock-changed',
  'skill-withdrawn',
  'token-made',
  'token-revoked',
  'device-stood-in',
  'pin-set',
  'pin-removed',
  'device-paired',
  'device-removed',
  'signed-in-failed',
  'locked-out',
  'buyer-purged',
  'buyer-exported',
  'kept-time-over',
  'backup-made',
  'store-restored',
  'store-moved',
  'log-level',
  'diagnostics-taken',
  'data-taken-out',
  'shop-begun',
  'settings-by-hand',
  'person-added',
  'person-removed',
  'role-changed',
  'badge-changed',
  'device-changed',
  'device-told',
  'network-set',
  'reference-checked',
  'print-settled',
  'pairing-code-made',
  'import-source-kept',
  'import-source-removed',
  'label-sent-again',
  'label-numbers-read',
  'sack-closed',
  'parcel-kept-here',
  'voice-enrolled',
  'voice-forgotten',
] as const;
export type ChangeWhat = (typeof CHANGES)[number];

/** The short facts that a change may come with. */
export const CHANGE_DETAILS = [
  'added',
  'address',
  'as',
  'at',
  'before',
  'bench',
  'by',
  'changed',
  'days',
  'device',
  'entry',
  'fields',
  'file',
  'follows',
  'from',
  'keys',
  'kind',
  'may',
  'orders',
  'pieces',
  'refused',
  'removed',
  'role',
  'rows',
  'seconds',
  'simulated',
  'taken',
  'task',
  'to',
  'user',
  'while',
  'with',
] as const;
export type ChangeDetail = (typeof CHANGE_DETAILS)[number];
export type ChangeDetails = Readonly<Partial<Record<ChangeDetail, string>>>;

/** Where it was done: an office page, a bench, the command line, the watched folder, or by the station itself. */
export const CHANGE_PLACES = ['office', 'bench', 'console', 'folder', 'station'] as const;
export type ChangePlace = (typeof CHANGE_PLACES)[number];

/**
 * One change that was made. `about` names the order, file, person or device by its id, `details` are short facts such as how
 * many; neither holds a buyer's name or address.
 */
export interface Change {
  readonly what: ChangeWhat;
  readonly about: string;
  /** staff id; null where nobody had signed in */
  readonly who: string | null;
  readonly from: ChangePlace;
  readonly details?: ChangeDetails;
}
