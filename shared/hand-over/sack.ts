/** How a parcel stands towards its hand-over. */
export interface ParcelStanding {
  readonly carrier: string;
  /** the sack that it lies in */
  readonly sack: number | null;
  readonly left: boolean;
  /** it was kept back: it never leaves */
  readonly stays: boolean;
}

export const SACK_VERDICTS = ['in', 'already-in', 'wrong-carrier', 'left-before', 'stays', 'not-known'] as const;
export type SackVerdict = (typeof SACK_VERDICTS)[number];

/** What a scan into a carrier's open sack comes to; null is a code that no parcel carries. */
export function sackVerdict(
  parcel: ParcelStanding | null,
  sack: { readonly id: number; readonly carrier: string },
): SackVerdict {
  if (parcel === null) return 'not-known';
  if (parcel.stays) return 'stays';
  if (parcel.left) return 'left-before';
  if (parcel.carrier !== sack.carrier) return 'wrong-carrier';
  return parcel.sack === sack.id ? 'already-in' : 'in';
}

/**
 * Whether a parcel that is labelled and has not left should have: it was finished on an earlier day of the shop, or before
 * its carrier last drove off.
 */
export function isOverdue(
  parcel: { readonly finishedDay: string; readonly finishedAt: number },
  today: string,
  lastClosed: number | null,
): boolean {
  return parcel.finishedDay < today || (lastClosed !== null && parcel.finishedAt < lastClosed);
}
