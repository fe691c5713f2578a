import { calendarDay } from '#server/calendar.ts';
import { findPieces } from '#server/store/pieces.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { findOrder } from '#server/store/orders.ts';
import { parcelsBetween, weighedOver, type ParcelOfReport } from '#server/store/reports.ts';
import { shared, type ParcelFact } from '#shared/reports/report.ts';
import type { Comparison } from '#shared/planning/comparison.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { containersIn, usedBy } from '#shared/supplies/used-by-parcel.ts';
import { massFromBase, toGrams } from '#shared/units/mass.ts';

/** Container, wrap and what else a parcel takes, at the prices of the shop's files; minor units, a float. */
function materialOf(parcel: ParcelOfReport, shop: Shop): number {
  const containers = containersIn(parcel.container);
  const cost = containers.reduce((sum, id) => sum + (shop.containers.get(id)?.cost.minor ?? 0), 0);
  const wrap = (shop.wraps.get(parcel.wrap)?.costPerPiece.minor ?? 0) * parcel.pieces.length;
  // Containers and wraps have prices of their own; supplies that stand for them must not count twice.
  const others = (shop.supplies ?? []).filter(
    ({ container, uses }) => container === undefined && uses.every(({ wraps }) => wraps === undefined),
  );
  const type = shop.containers.get(containers[0] ?? '')?.type ?? null;
  const used = usedBy({ containers, type, pieces: parcel.pieces.length, wrap: parcel.wrap }, others);
  const rest = others.map(({ id, pack, packCost }) => ((used.get(id) ?? 0) / pack) * (packCost?.minor ?? 0));
  return rest.reduce((sum, each) => sum + each, cost + wrap);
}

function share(compared: Comparison | null, parts: number): Comparison | null {
  if (compared === null) return null;
  const part = (amount: number | null) => (amount === null ? null : amount / parts);
  return {
    planned: compared.planned / parts,
    ladder: part(compared.ladder),
    carton: part(compared.carton),
  };
}

export interface Period {
  /** epoch milliseconds, first counted in and last not */
  readonly first: number;
  readonly last: number;
}

/** Every finished parcel of a period as reports count it, all from what is stored. */
export async function parcelFacts(
  store: StoreOrTransaction,
  shop: Shop,
  { first, last }: Period,
): Promise<{ readonly facts: readonly ParcelFact[]; readonly parcels: readonly ParcelOfReport[] }> {
  const parcels = await parcelsBetween(store, first, last);
  const again = await weighedOver(store, first, last);
  const pieces = await findPieces(store, [...new Set(parcels.flatMap((each) => each.pieces))]);
  const paid = new Map<string, number | null>();
  for (const { order } of parcels) {
    if (!paid.has(order)) paid.set(order, (await findOrder(store, order))?.order.paidPostage?.minor ?? null);
  }
  const finishedBefore = new Map<string, number>();
  const facts = parcels.map((parcel): ParcelFact => {
    const kinds = new Set(parcel.pieces.map((sku) => pieces.get(sku)?.kind ?? ''));
    const [kind = ''] = kinds;
    const begun = finishedBefore.get(parcel.run) ?? parcel.startedAt;
    finishedBefore.set(parcel.run, parcel.finishedAt);
    const ours = parcel.reading + parcel.toCome;
    const ofOrder = paid.get(parcel.order) ?? null;
    return {
      order: parcel.order,
      number: parcel.number,
      day: calendarDay(parcel.finishedAt, shop.timeZone),
      kind: kinds.size > 1 ? 'mixed' : kind,
      container: parcel.container,
      service: parcel.service,
      person: parcel.packer ?? '',
      postage: parcel.owed.minor,
      paid: ofOrder === null ? null : (shared(ofOrder, parcel.of)[parcel.number - 1] ?? null),
      compared: share(parcel.compared, parcel.of),
      because: parcel.because,
      decided: parcel.decided,
      before: parcel.number === 1 ? (again.get(parcel.run) ?? null) : null,
      material: materialOf(parcel, shop),
      seconds: begun === null ? null : (parcel.finishedAt - begun) / 1000,
      correctedBy: parcel.carriers === null ? null : toGrams(massFromBase(parcel.carriers - ours)),
      correctedUp: parcel.carriers !== null && parcel.carriers > parcel.ceiling,
    };
  });
  return { facts, parcels };
}
