import { encodeWithReport, type Encoded } from '#drivers/printer/encode.ts';
import type { MarginWarning } from '#drivers/printer/documents/margin-warning.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { slipWords } from './slip-words.ts';
import { withPostcode } from '#shared/addresses/address-lines.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import { parcelHere } from '#shared/run/here.ts';
import { nextBracket, owed, settledBracket } from '#shared/run/pay.ts';
import type { RunState, Weighing } from '#shared/run/types.ts';
import { languageOf } from '#shared/run/view/bench-view.ts';
import { lighterChoices } from '#shared/run/view/lighter.ts';
import { serviceName } from '#shared/run/view/service-name.ts';
import type { LeftOut, Order, ParcelPlan } from '#shared/planning/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import {
  formatMass,
  formatMassPlain,
  massFromBase,
  subtractMass,
  type Mass,
  type MassUnit,
} from '#shared/units/mass.ts';
import { formatMoney, subtractMoney } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

/**
 * The bytes of the slip for the parcel that was just weighed, its warning first where one is due.
 * @param titles of the pieces that the order goes without, by SKU
 */
export function slipBytes(
  state: RunState,
  shop: Shop,
  bench: BenchConfig,
  titles: ReadonlyMap<string, { readonly title: string }> = new Map(),
): Encoded {
  const parcel = parcelHere(state);
  const weighing = state.progress[state.parcel]?.weighing;
  if (parcel === undefined || !weighing || state.order === null) throw new Error('a slip without a weighed parcel');
  const { order } = state;
  const language = languageOf(state, shop);
  const words = slipWords[language];
  const { reading, verdict } = weighing;
  const shown = (mass: Mass) => formatMass(mass, reading.unit, reading.places, language);
  const fine = (mass: Mass) => formatMass(mass, reading.unit, reading.places + 1, language);
  const warning = warningOf(state, parcel, weighing, shop, language);
  const paid = weighing.decided === 'pay-next-bracket' ? owed(parcel, weighing) : null;
  const ceiling = paid?.ceiling ?? verdict.ceiling;
  const document = slipDocument({
    language,
    shop: { name: shop.name, address: shop.address.filter((line) => line !== shop.name) },
    order: order.id,
    orderCode: orderCode(order.id),
    buyer: buyerLines(order),
    pieces: parcel.pieces.map(({ piece }) => ({ sku: piece.sku, title: piece.title })),
    ...(order.leftOut === undefined ? {} : { missing: missingLines(order.leftOut, titles, language) }),
    container: parcel.container.name[language],
    service: serviceName(shop, (settledBracket(state) ?? parcel.offer).service)[language],
    reading: shown(reading.mass),
    margin: words.below(
      fine(subtractMass(ceiling, verdict.total)),
      plainCeiling(ceiling, reading.unit, language),
      fine(verdict.uncertainty),
    ),
    thanks: shop.slip.thanks[language],
    returns: shop.slip.returns[language],
    ...(warning === null ? {} : { warning }),
  });
  return encodeWithReport(document, bench.printer);
}

/** A piece that the order goes without, as the buyer is told. */
function missingLines(
  leftOut: readonly LeftOut[],
  titles: ReadonlyMap<string, { readonly title: string }>,
  language: Language,
): readonly string[] {
  const words = slipWords[language];
  return leftOut.map(({ sku, follows }) => {
    const title = titles.get(sku)?.title;
    const piece = title === undefined ? sku : `${title} (${sku})`;
    return follows === null ? words.comesNot(piece) : words.follows(piece, follows);
  });
}

function buyerLines({ buyer, address, to }: Order): readonly string[] {
  return [buyer, ...withPostcode(address, to.postcode)];
}

function plainCeiling(ceiling: Mass, unit: MassUnit, language: Language): string {
  return formatMassPlain(ceiling, unit, language);
}

/** What the packer is warned of at close and over, and what each way out costs. */
function warningOf(
  state: RunState,
  parcel: ParcelPlan,
  { reading, verdict, because, decided }: Weighing,
  shop: Shop,
  language: Language,
): MarginWarning | null {
  if ((because !== 'close' && because !== 'over') || decided === 'pay-next-bracket') return null;
  const words = slipWords[language];
  const fine = (mass: Mass) => formatMass(mass, reading.unit, reading.places + 1, language);
  const next = nextBracket(state);
  const free = formatMoney(subtractMoney(parcel.offer.price, parcel.offer.price), language);
  const [lighter] = lighterChoices(parcel, shop);
  const choices = [
    { name: words.weighAgain, cost: free },
    {
      name:
        lighter === undefined
          ? words.makeLighter
          : words.makeLighterBy(lighter.what[language], fine(massFromBase(lighter.mass))),
      cost: free,
    },
    ...(next === null
      ? []
      : [
          {
            name:
              next.service === parcel.offer.service
                ? words.payNext
                : words.payOther(serviceName(shop, next.service)[language]),
            cost: `${formatMoney(next.price, language)} (+${formatMoney(subtractMoney(next.price, parcel.offer.price), language)})`,
          },
        ]),
  ];
  return {
    verdict: because,
    ceiling: plainCeiling(verdict.ceiling, reading.unit, language),
    reading: formatMass(reading.mass, reading.unit, reading.places, language),
    toCome: fine(parcel.toCome.mass),
    uncertainty: fine(verdict.uncertainty),
    choices,
  };
}
