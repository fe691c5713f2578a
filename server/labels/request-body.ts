import { parcelKey, sizeOf, type Shipment } from '#server/office/shipments/shipments-csv.ts';
import { findOrder } from '#server/store/orders.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { customsGaps, customsLines, goesAbroad } from '#shared/labels/customs.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import { addMass, massDigits, massFromBase } from '#shared/units/mass.ts';
import { LABEL_VERSION, type CustomsGap, type LabelRequest, type LabelType } from '#shared/wire/label.ts';

/** What a request is made from; kept with it, so that it can be made anew when an address or a customs fact was mended. */
export interface LabelFacts extends Omit<Shipment, 'label'> {
  readonly key: string;
  readonly replaces: string | null;
}

export function factsOf({ parcel, grams }: Shipment): LabelFacts {
  return { parcel, grams, key: parcelKey(parcel), replaces: null };
}

/** What a bench can print, what keeps its sharpness best first; a picture or a document is shown where it cannot. */
function acceptedBy({ labelPrinter }: Pick<BenchConfig, 'labelPrinter'>): readonly LabelType[] {
  const raw: readonly LabelType[] =
    labelPrinter === undefined ? [] : labelPrinter.speaks === 'escpos' ? ['escpos', 'png'] : ['zpl'];
  return [...new Set<LabelType>([...raw, 'pdf', 'png'])];
}

export interface MadeRequest {
  readonly request: LabelRequest;
  /** what the customs must be told and nobody has said: with these it may not be sent */
  readonly gaps: readonly CustomsGap[];
}

/** The request as it is to be sent, from the order and the pieces as they are stored now. */
export async function requestBody(
  store: StoreOrTransaction,
  shop: Shop,
  { parcel, grams, key, replaces }: LabelFacts,
): Promise<MadeRequest> {
  const order = (await findOrder(store, parcel.order))?.order;
  const pieces = await findPieces(store, parcel.pieces);
  const bench = shop.benches.find(({ id }) => id === parcel.bench);
  const abroad = order !== undefined && goesAbroad(order, shop);
  const customs = abroad ? customsLines(parcel.pieces, pieces, shop, grams) : null;
  const sides = sizeOf(parcel, shop);
  const mass = addMass(massFromBase(parcel.reading), massFromBase(parcel.toCome));
  return {
    gaps: customsGaps(customs ?? [], (sku) => pieces.get(sku)?.title ?? sku),
    request: {
      version: LABEL_VERSION,
      key,
      replaces,
      order: parcel.order,
      parcel: { number: parcel.number, of: parcel.of },
      bench: parcel.bench,
      from: { address: shop.address, ...shop.from },
      to: {
        name: order?.buyer ?? '',
        address: order?.address ?? [],
        postcode: parcel.postcode,
        country: order?.to.country ?? '',
      },
      carrier: parcel.carrier,
      service: parcel.service,
      container: parcel.container,
      size: sides.length === 0 ? null : { sides, unit: shop.units.length },
      mass: { amount: massDigits(mass, shop.units.mass, 2), unit: shop.units.mass },
      postage: { minor: parcel.owed.minor, currency: parcel.owed.currency },
      customs,
      accepts: acceptedBy(bench ?? {}),
    },
  };
}
