import { carrierName, collectionNow } from './carriers.ts';
import { calendarDay } from '#server/calendar.ts';
import { instantOf, wallTimeAt } from '#server/office/local-time.ts';
import { findOrder } from '#server/store/orders.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import {
  closedSacks,
  countWaiting,
  lastClosings,
  openSacks,
  parcelsInSack,
  sackById,
  waitingParcels,
  waitingSince,
  type ParcelOnItsWay,
  type Sack,
} from '#server/store/sacks.ts';
import { isOverdue } from '#shared/hand-over/sack.ts';
import { serviceName } from '#shared/run/view/service-name.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { addMass, massFromBase, ZERO_MASS, type Mass } from '#shared/units/mass.ts';
import type { BenchSack, CarrierSack, HandedParcel, HandOverView, Sheet, SheetRow } from '#shared/wire/hand-over.ts';

const SHEETS_SHOWN = 30;

/** Turns stored parcels into what a page shows of them. */
class ParcelDesk {
  readonly #store: StoreOrTransaction;
  readonly #shop: Shop;
  readonly #today: string;
  readonly #closings: ReadonlyMap<string, number>;

  private constructor(store: StoreOrTransaction, shop: Shop, today: string, closings: ReadonlyMap<string, number>) {
    this.#store = store;
    this.#shop = shop;
    this.#today = today;
    this.#closings = closings;
  }

  static async at(store: StoreOrTransaction, shop: Shop, now: number): Promise<ParcelDesk> {
    return new ParcelDesk(store, shop, calendarDay(now, shop.timeZone), await lastClosings(store));
  }

  async row(parcel: ParcelOnItsWay): Promise<HandedParcel> {
    const { id, order, number, of, label, carrier, finishedAt, bench } = parcel;
    const stored = await findOrder(this.#store, order);
    return {
      id,
      order,
      number,
      of,
      label,
      buyer: stored?.order.buyer ?? '',
      carrier,
      service: serviceName(this.#shop, parcel.service),
      mass: addMass(massFromBase(parcel.reading), massFromBase(parcel.toCome)),
      finishedAt,
      bench,
      overdue: this.overdue(parcel),
    };
  }

  overdue({ carrier, finishedAt, leftAt, stays }: ParcelOnItsWay): boolean {
    if (leftAt !== null || stays !== null) return false;
    const finishedDay = calendarDay(finishedAt, this.#shop.timeZone);
    return isOverdue({ finishedDay, finishedAt }, this.#today, this.#closings.get(carrier) ?? null);
  }
}

function total(parcels: readonly HandedParcel[]): Mass {
  return addMass(ZERO_MASS, ...parcels.map(({ mass }) => mass));
}

/** A parcel as a page shows it. */
export async function handedParcel(
  store: StoreOrTransaction,
  shop: Shop,
  parcel: ParcelOnItsWay,
  now: number,
): Promise<HandedParcel> {
  return (await ParcelDesk.at(store, shop, now)).row(parcel);
}

/** Every carrier's next collection with what is in its sack and what is missing, what is overdue, and the sheets so far. */
export async function handOverView(store: StoreOrTransaction, shop: Shop, now: number): Promise<HandOverView> {
  const desk = await ParcelDesk.at(store, shop, now);
  const rows: { readonly row: HandedParcel; readonly sack: number | null }[] = [];
  for (const parcel of await waitingParcels(store)) rows.push({ row: await desk.row(parcel), sack: parcel.sack });
  const sacks = await openSacks(store);
  const ids = [...shop.collections, ...sacks, ...rows.map(({ row }) => row)].map(({ carrier }) => carrier);
  const carriers = [...new Set(ids)].map((carrier): CarrierSack => {
    const sack = sacks.find((each) => each.carrier === carrier) ?? null;
    const own = rows.filter(({ row }) => row.carrier === carrier);
    const isIn = (each: (typeof own)[number]) => sack !== null && each.sack === sack.id;
    const inSack = own.filter(isIn).map(({ row }) => row);
    const collection = sack ?? collectionNow(shop, carrier, now);
    return {
      carrier,
      name: carrierName(shop, carrier),
      collection: collection === null ? null : { day: collection.day, at: collection.at },
      sack: sack?.id ?? null,
      bench: sack?.bench ?? null,
      inSack,
      missing: own.filter((each) => !isIn(each)).map(({ row }) => row),
      mass: total(inSack),
    };
  });
  const sheets: SheetRow[] = [];
  for (const sack of await closedSacks(store, SHEETS_SHOWN)) sheets.push((await sheetOf(store, shop, sack, now)).row);
  return {
    now,
    timeZone: shop.timeZone,
    unit: shop.units.mass,
    places: shop.units.massPlaces,
    carriers,
    overdue: rows.map(({ row }) => row).filter(({ overdue }) => overdue),
    sheets,
  };
}

async function sheetOf(
  store: StoreOrTransaction,
  shop: Shop,
  sack: Sack,
  now: number,
): Promise<{ readonly row: SheetRow; readonly parcels: readonly ParcelOnItsWay[] }> {
  const parcels = await parcelsInSack(store, sack.id);
  const mass = parcels.map(({ reading, toCome }) => addMass(massFromBase(reading), massFromBase(toCome)));
  const row = {
    id: sack.id,
    carrier: sack.carrier,
    name: carrierName(shop, sack.carrier),
    day: sack.day,
    at: sack.at,
    closedAt: sack.closedAt ?? now,
    closedBy: shop.staff.find(({ id }) => id === sack.closedBy)?.name ?? sack.closedBy,
    count: parcels.length,
    mass: addMass(ZERO_MASS, ...mass),
  };
  return { row, parcels };
}

/** The sheet of a sack; null where there is none. */
export async function sheetView(store: StoreOrTransaction, shop: Shop, id: number, now: number): Promise<Sheet | null> {
  const sack = await sackById(store, id);
  if (sack === null) return null;
  const desk = await ParcelDesk.at(store, shop, now);
  const { row, parcels } = await sheetOf(store, shop, sack, now);
  const shown: HandedParcel[] = [];
  for (const parcel of parcels) shown.push(await desk.row(parcel));
  return { ...row, shop: shop.name, parcels: shown };
}

/** What a bench shows of parcels on their way: the sack that its scanner loads, and how many should have left. */
export async function benchHandOver(
  store: StoreOrTransaction,
  shop: Shop,
  bench: string,
  now: number,
): Promise<{ readonly sack: BenchSack | null; readonly overdue: number }> {
  const overdue = await overdueParcels(store, shop, now);
  const sack = (await openSacks(store)).find((each) => each.bench === bench);
  if (sack === undefined) return { sack: null, overdue };
  const { all, inSack } = await countWaiting(store, sack.carrier, sack.id);
  return {
    overdue,
    sack: { carrier: carrierName(shop, sack.carrier), at: sack.at, count: inSack, missing: all - inSack },
  };
}

/** Only parcels that may be overdue are read: those of today's day are thousands, and are looked at after every order. */
async function overdueParcels(store: StoreOrTransaction, shop: Shop, now: number): Promise<number> {
  const closings = await lastClosings(store);
  const today = calendarDay(now, shop.timeZone);
  const begun = instantOf({ ...wallTimeAt(now, shop.timeZone), hour: 0, minute: 0 }, shop.timeZone);
  const waiting = await waitingSince(store, Math.max(begun, ...closings.values()));
  return waiting.filter(({ carrier, finishedAt }) => {
    const finishedDay = finishedAt < begun ? '' : today;
    return isOverdue({ finishedDay, finishedAt }, today, closings.get(carrier) ?? null);
  }).length;
}
