import type { Planned } from './plan-job.ts';
import { readParcel, writtenParcel } from './written-parcel.ts';
import type { OrderPlan } from '#shared/planning/types.ts';

type Ok = Extract<Planned, { ok: true }>;

/** What came of planning as it crosses to another thread: parcels as text, which is read in a fraction of the time of a copy. */
export type PortablePlanned =
  | Exclude<Planned, Ok>
  | (Omit<Ok, 'plan'> & { readonly plan: Omit<OrderPlan, 'parcels'>; readonly parcels: readonly string[] });

export function portablePlanned(planned: Planned): PortablePlanned {
  if (!planned.ok) return planned;
  const { parcels, ...plan } = planned.plan;
  return { ...planned, plan, parcels: parcels.map(writtenParcel) };
}

export function plannedFrom(portable: PortablePlanned): Planned {
  if (!portable.ok) return portable;
  const { parcels, plan, ...rest } = portable;
  return { ...rest, plan: { ...plan, parcels: parcels.map(readParcel) } };
}
