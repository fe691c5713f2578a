import { carrierName } from '#server/office/hand-over/carriers.ts';
import { containerName, personName } from '#server/office/names.ts';
import { rowOf } from './order-page.ts';
import { findOrder } from '#server/store/orders.ts';
import type { Store } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { parcelsOfOrder, sackById, type ParcelOnItsWay } from '#server/store/sacks.ts';
import { serviceName } from '#shared/run/view/service-name.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromBase } from '#shared/units/mass.ts';
import type { OrderDetail, OrderParcel, ParcelPlace } from '#shared/wire/search.ts';

/** All that is known of an order, to say where it is; null where there is no such order. */
export async function orderDetail(store: Store, shop: Shop, id: string): Promise<OrderDetail | null> {
  const stored = await findOrder(store, id);
  if (stored === null) return null;
  const { order } = stored;
  const came = await store.selectFrom('shop_order').select('came_at').where('id', '=', id).executeTakeFirst();
  const begun = await store
    .selectFrom('run')
    .select(['packer', 'started_at'])
    .where('order_id', '=', id)
    .orderBy('started_at', 'desc')
    .executeTakeFirst();
  const pieces = await findPieces(
    store,
    order.pieces.map(({ sku }) => sku),
  );
  const parcels = await parcelsOfOrder(store, id);
  return {
    ...rowOf(stored, parcels, shop),
    timeZone: shop.timeZone,
    address: order.address,
    postcode: order.to.postcode,
    country: order.to.country,
    arriveBy: order.arriveBy ?? null,
    note: order.note ?? null,
    cameAt: came?.came_at ?? null,
    asidePlace: stored.asidePlace,
    packer: personName(shop, begun?.packer ?? null),
    begunAt: begun?.started_at ?? null,
    lines: order.pieces.map(({ sku, count }) => {
      const piece = pieces.get(sku);
      return { sku, count, title: piece?.title ?? null, place: piece?.place ?? null };
    }),
    parcels: await Promise.all(parcels.map((parcel) => shown(store, shop, parcel))),
    released: await lastRelease(store, shop, id),
    leftOut: (order.leftOut ?? []).map((each) => ({ ...each, by: personName(shop, each.by) })),
    restOf: order.restOf ?? null,
    unit: shop.units.mass,
    places: shop.units.massPlaces,
  };
}

async function lastRelease(store: Store, shop: Shop, id: string): Promise<OrderDetail['released']> {
  const row = await store
    .selectFrom('change_record')
    .select(['at', 'who', 'place'])
    .where('what', '=', 'order-released')
    .where('about', '=', id)
    .orderBy('id', 'desc')
    .executeTakeFirst();
  return row === undefined ? null : { at: row.at, by: personName(shop, row.who), from: row.place };
}

async function shown(store: Store, shop: Shop, parcel: ParcelOnItsWay): Promise<OrderParcel> {
  const { id, number, of, label, pieces, verdict, finishedAt, bench } = parcel;
  return {
    ...{ id, number, of, label, pieces, verdict, finishedAt },
    container: containerName(shop, parcel.container),
    carrier: carrierName(shop, parcel.carrier),
    service: serviceName(shop, parcel.service),
    bench: shop.benches.find((each) => each.id === bench)?.name ?? bench,
    reading: massFromBase(parcel.reading),
    packer: personName(shop, parcel.packer),
    place: await placeOf(store, parcel),
  };
}

async function placeOf(store: Store, { stays, leftAt, sack }: ParcelOnItsWay): Promise<ParcelPlace> {
  if (stays !== null) return { at: 'stays', reason: stays };
  if (leftAt !== null) return { at: 'left', when: leftAt, sheet: sack };
  if (sack === null) return { at: 'waits' };
  const loaded = await sackById(store, sack);
  return { at: 'sack', collection: loaded === null ? '' : `${loaded.day} ${loaded.at}` };
}
