import { handOverDocument } from '#drivers/printer/documents/hand-over.ts';
import { sackCardsDocument } from '#drivers/printer/documents/sack-cards.ts';
import type { PrintDocument } from '#drivers/printer/document.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { carrierName } from './carriers.ts';
import { sackCode } from '#shared/codes/our-codes.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatMass, type Mass } from '#shared/units/mass.ts';
import type { Sheet } from '#shared/wire/hand-over.ts';
import type { Language } from '#shared/words/language.ts';

/** The sheet of a collection on a bench's paper. */
export function sheetPaper(sheet: Sheet, shop: Shop, language: Language): PrintDocument {
  const words = PAPER_WORDS[language];
  const mass = (each: Mass) => formatMass(each, shop.units.mass, shop.units.massPlaces, language);
  return handOverDocument({
    language,
    shop: shop.name,
    carrier: sheet.name[language],
    day: sheet.day,
    collection: sheet.at,
    parcels: sheet.parcels.map((parcel) => ({
      order: parcel.of > 1 ? `${parcel.order} ${String(parcel.number)}/${String(parcel.of)}` : parcel.order,
      number: parcel.label ?? words.checkedByEye,
      service: parcel.service[language],
      weight: mass(parcel.mass),
    })),
    totalWeight: mass(sheet.mass),
  });
}

/** A card for each carrier that comes. */
export function sackCards(shop: Shop, language: Language): PrintDocument {
  const carriers = [...new Set(shop.collections.map(({ carrier }) => carrier))];
  return sackCardsDocument(
    PAPER_WORDS[language].sackCards,
    carriers.map((carrier) => ({
      code: sackCode(carrier),
      carrier: carrierName(shop, carrier)[language],
      times: shop.collections
        .filter((each) => each.carrier === carrier)
        .map(({ at, days }) => (days === undefined ? at : `${at} (${days.join(' ')})`))
        .join(', '),
    })),
  );
}
