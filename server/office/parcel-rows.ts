import type { ParcelRow } from './exports/parcels-csv.ts';
import type { StoredOrder } from '#server/store/orders.ts';
import type { StoredParcel } from '#server/store/parcels.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { addMass, massDigits, massFromBase, MASS_UNITS, subtractMass } from '#shared/units/mass.ts';

/** Finished parcels as the rows of the export. Masses are in the unit that the scale showed. */
export function parcelRows(
  parcels: readonly StoredParcel[],
  orders: ReadonlyMap<string, StoredOrder>,
  shop: Shop,
): readonly ParcelRow[] {
  return parcels.map((parcel) => {
    const unit = MASS_UNITS.find((each) => each === parcel.readingUnit) ?? shop.units.mass;
    const reading = massFromBase(parcel.reading);
    const total = addMass(reading, massFromBase(parcel.toCome));
    const digits = (mass: typeof total) => massDigits(mass, unit, 4).replace(/\.?0+$/, '');
    const order = orders.get(parcel.order)?.order;
    return {
      order: parcel.order,
      parcel: String(parcel.number),
      parcels: String(parcel.of),
      buyer: order?.buyer ?? '',
      postcode: parcel.postcode,
      country: order?.to.country ?? '',
      pieces: parcel.pieces.join(' '),
      container: parcel.container,
      carrier: parcel.carrier,
      service: parcel.service,
      zone: parcel.zone,
      reading: digits(reading),
      finalMass: digits(total),
      massUnit: unit,
      verdict: parcel.verdict,
      margin: digits(subtractMass(massFromBase(parcel.ceiling), total)),
      decided: parcel.decided ?? '',
      price: amount(parcel.owed.minor),
      currency: parcel.owed.currency,
      label: parcel.label ?? (parcel.labelByEye ? 'checked by eye' : ''),
      bench: parcel.bench,
      packedBy: shop.staff.find((each) => each.id === parcel.packer)?.name ?? '',
      finishedAt: new Date(parcel.finishedAt).toISOString(),
    };
  });
}

/** Minor units as whole units with two decimals. */
function amount(minor: number): string {
  const digits = String(Math.abs(minor)).padStart(3, '0');
  return `${minor < 0 ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`;
}
