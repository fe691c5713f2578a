import { badInput, wrongUsage } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { lengthDocument, massDocument } from './documents.ts';
import { languageOption } from './language-option.ts';
import { optional, required, type Options } from './options.ts';
import { dayOption, shopOption } from './shop-option.ts';
import { table } from './table.ts';
import { AskedError, askedMass, askedParcel, askedRoute } from '#server/office/rates/asked-parcel.ts';
import { reasonWords } from '#shared/rating/explain.ts';
import type { NextEdge } from '#shared/rating/next-edges.ts';
import { nextEdges } from '#shared/rating/next-edges.ts';
import { quote } from '#shared/rating/quote.ts';
import { RatingError } from '#shared/rating/rating-error.ts';
import type { Offer, RatedParcel, Refusal, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromBase } from '#shared/units/length.ts';
import { formatMass, formatMassPlain, massFromBase } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

/** What the options say, with the option's name in front of what is wrong. */
function asked<Value>(read: () => Value): Value {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof AskedError)) throw error;
    badInput(`--${error.field}: ${error.message}`);
  }
}

function parcelOption(options: Options, shop: Shop): RatedParcel {
  const container = optional(options, 'container');
  const size = optional(options, 'size');
  const soft = optional(options, 'soft');
  const roll = optional(options, 'roll');
  if ([container, size, soft, roll].filter((text) => text !== undefined).length !== 1) {
    wrongUsage('expected one of --container, --size, --soft and --roll');
  }
  return asked(() => askedParcel({ container, size, soft, roll, thickness: optional(options, 'thickness') }, shop));
}

function routeOption(options: Options, shop: Shop): Route {
  const zone = optional(options, 'zone');
  const to = optional(options, 'to');
  if ((zone === undefined) === (to === undefined)) wrongUsage('expected either --zone or --to');
  const country = optional(options, 'country') ?? shop.from.country;
  const place = to === undefined ? undefined : { postcode: to, country };
  return asked(() => askedRoute(zone, place, shop, optional(options, 'from')));
}

/** An offer with its reasons as sentences. */
export function offerDocument(offer: Offer, language: Language) {
  return {
    service: offer.service,
    carrier: offer.carrier,
    price: offer.price,
    rule: offer.rule,
    zone: offer.zone,
    billedMass: massDocument(offer.billedMass),
    bracketCeiling: offer.bracketCeiling === null ? null : massDocument(offer.bracketCeiling),
    nextPrice: offer.nextPrice,
    cubicTier: offer.cubicTier,
    surcharges: offer.surcharges.map(({ name, label, price }) => ({ name, label: label[language], price })),
    ...(offer.days === undefined ? {} : { days: offer.days }),
    reasons: offer.reasons.map((reason) => reasonWords(reason, language)),
  };
}

/** An offer and how far its price is from changing. */
interface WithEdges {
  readonly offer: Offer;
  readonly edges: readonly NextEdge[];
}

function edgeDocument({ leads, along, by, price, reason }: NextEdge, language: Language) {
  const distance =
    along === 'mass' ? { mass: massDocument(massFromBase(by)) } : { length: lengthDocument(lengthFromBase(by)) };
  return { leads, along, by: distance, price, words: reasonWords(reason, language) };
}

function text(offers: readonly WithEdges[], refused: readonly Refusal[], shop: Shop, language: Language): string {
  const { mass: unit, massPlaces } = shop.units;
  const priced = offers.map(({ offer, edges }) => [
    offer.service,
    formatMoney(offer.price),
    offer.cubicTier === null ? offer.rule : `${offer.rule} ${offer.cubicTier}`,
    formatMass(offer.billedMass, unit, massPlaces),
    offer.bracketCeiling === null ? '' : formatMassPlain(offer.bracketCeiling, unit),
    offer.reasons.map((reason) => reasonWords(reason, language)).join('\n'),
    edges.map(({ reason }) => reasonWords(reason, language)).join('\n'),
  ]);
  const why = refused.map((refusal) => [refusal.service, reasonWords(refusal.why, language)]);
  const parts = [table(['service', 'price', 'rule', 'billed', 'up to', 'why', 'next edges'], priced)];
  if (why.length > 0) parts.push(table(['refused by', 'why'], why));
  return parts.join('\n');
}

function run(options: Options, surroundings: Surroundings): Outcome {
  const weight = required(options, 'weight');
  const shop = shopOption(options, surroundings);
  const language = languageOption(options, shop);
  const parcel = parcelOption(options, shop);
  const mass = asked(() => askedMass(weight));
  const route = routeOption(options, shop);
  const day = dayOption(options, shop, surroundings);
  try {
    const { offers: bare, refused } = quote(shop.rates, parcel, mass, route, day);
    const offers = bare.map((offer) => ({
      offer,
      edges: nextEdges(shop.rates, offer.service, parcel, mass, route, day),
    }));
    const document = {
      day,
      offers: offers.map(({ offer, edges }) => ({
        ...offerDocument(offer, language),
        nextEdges: edges.map((edge) => edgeDocument(edge, language)),
      })),
      refused: refused.map(({ service, carrier, why }) => ({
        service,
        carrier,
        code: why.code,
        why: reasonWords(why, language),
      })),
    };
    return { document, text: text(offers, refused, shop, language), complaints: [] };
  } catch (error) {
    if (!(error instanceof RatingError)) throw error;
    badInput(error.message);
  }
}

/** What every service asks for a parcel. */
export const quoteCommand: Command = {
  usage: `quote --container ID [--thickness 1in] | --size 10x8x2in | --soft 15x12in[x1in] | --roll 30x3in
    --weight 15.9oz  --zone N | --to POSTCODE [--country US] [--from POSTCODE]
    [--on YYYY-MM-DD] [--language en|es] [--config FOLDER]`,
  options: [
    'container',
    'thickness',
    'size',
    'soft',
    'roll',
    'weight',
    'zone',
    'from',
    'to',
    'country',
    'on',
    'language',
    'config',
  ],
  run,
};
