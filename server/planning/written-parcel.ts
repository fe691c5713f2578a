import type { ParcelPlan } from '#shared/planning/types.ts';

/** Parcels that were read, with the text that they were read from. */
const texts = new WeakMap<ParcelPlan, string>();

/**
 * A planned parcel as text: so it crosses from the thread that plans, and so it is stored. It is long, for its drawings; the
 * loop that serves benches and scales reads it once and never writes it.
 */
export function writtenParcel(parcel: ParcelPlan): string {
  return texts.get(parcel) ?? JSON.stringify(parcel);
}

export function readParcel(text: string): ParcelPlan {
  const parcel = JSON.parse(text) as ParcelPlan;
  texts.set(parcel, text);
  return parcel;
}
