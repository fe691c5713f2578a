import type { PhotoDue, PhotoSubject, PhotoTrouble } from '#shared/proof/types.ts';
import type { Mass } from '#shared/units/mass.ts';

/** A photo on its way from a screen, or why there is none. `id` is unique: delivered twice it is kept once. */
export type PhotoSent = PhotoDue & {
  readonly id: string;
  /** how long before it was sent it was taken, in milliseconds: it may have waited for a lost link */
  readonly ago: number;
} & ({ readonly jpeg: Uint8Array } | { readonly missed: PhotoTrouble });

/** One photo of an order as the office sees it. */
export interface PhotoView {
  readonly id: string;
  readonly parcel: number;
  readonly what: PhotoSubject;
  /** epoch ms */
  readonly takenAt: number;
  readonly bench: string;
  readonly person: string | null;
  /** of its parcel, as it was weighed; null where it was never finished */
  readonly reading: Mass | null;
  readonly is:
    | {
        readonly kept: true;
        readonly width: number;
        readonly height: number;
        readonly bytes: number;
        readonly until: number;
      }
    | { readonly kept: false; readonly missed: PhotoTrouble }
    | { readonly kept: false; readonly removedAt: number };
}

/**
 * HTTP contract:
 * GET /api/orders/:id/photos -> PhotoView[], the oldest first
 * GET /api/photos/:id -> the JPEG; with ?download to be saved as a file
 */
