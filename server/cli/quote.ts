import { badInput, wrongUsage } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { massDocument } from './documents.ts';
import { languageOption } from './language-option.ts';
import { optional, quantity, required, type Options } from './options.ts';
import { dayOption, shopOption } from './shop-option.ts';
import { table } from './table.ts';
import { emptySize } from '#shared/planning/smallest-filled.ts';
import { ratedParcel } from '#shared/planning/rated-parcel.ts';
import { reasonWords } from '#shared/rating/explain.ts';
import { quote } from '#shared/rating/quote.ts';
import { RatingError } from '#shared/rating/rating-error.ts';
import type { Offer, RatedParcel, Refusal, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromDecimal, parseLength, toMillimetres, type Length, type LengthUnit } from '#shared/units/length.ts';
import { formatMass, formatMassPlain, parseMass } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

/** "10x8x2in", "10 in x 8 in x 2 in"; sides without a unit take the last one's, or the shop's. */
function sidesOption(name: string, text: string, counts: readonly number[], shopUnit: LengthUnit): readonly Length[] {
  const sides = text.split(/[x×]/i).map((side) => side.trim());
  if (!counts.includes(sides.length)) {
    badInput(`--${name}: expected ${counts.join(' or ')} sides such as 10x8x2in, found "${text}"`);
  }
  const unit = /[a-z"]+$/i.exec(sides.at(-1) ?? '')?.[0] ?? shopUnit;
  return sides.map((side) => {
    const length = quantity(name, /[a-z"]$/i.test(side) ? side : `${side}${unit}`, parseLength);
    return length > 0 ? length : badInput(`--${name}: expected sides above 0, found "${text}"`);
  });
}

function containerParcel(id: string, options: Options, shop: Shop): RatedParcel {
  const container = shop.containers.get(id);
  if (container === undefined) {
    badInput(`--container: expected one of ${[...shop.containers.keys()].join(', ')}; found "${id}"`);
  }
  const thickness = optional(options, 'thickness');
  const filled = emptySize(container);
  if (thickness === undefined) return ratedParcel(container, filled);
  const [thick = lengthFromDecimal('0', 'mm')] = sidesOption('thickness', thickness, [1], shop.units.length);
  return ratedParcel(container, { ...filled, thickness: toMillimetres(thick) });
}

function parcelOption(options: Options, shop: Shop): RatedParcel {
  const container = optional(options, 'container');
  const size = optional(options, 'size');
  const soft = optional(options, 'soft');
  if ([container, size, soft].filter((text) => text !== undefined).length !== 1) {
    wrongUsage('expected one of --container, --size and --soft');
  }
  if (container !== undefined) return containerParcel(container, options, shop);
  const none = lengthFromDecimal('0', 'mm');
  const longestFirst = (sides: readonly Length[]) => sides.toSorted((a, b) => b - a);
  if (size !== undefined) {
    const [a = none, b = none, c = none] = longestFirst(sidesOption('size', size, [3], shop.units.length));
    return { shape: { form: 'box', sides: [a, b, c] }, containerType: 'carton' };
  }
  const sides = sidesOption('soft', soft ?? '', [2, 3], shop.units.length);
  const [length = none, width = none] = longestFirst(sides.slice(0, 2));
  return { shape: { form: 'soft', length, width, thickness: sides[2] ?? none }, containerType: 'pouch' };
}

function routeOption(options: Options, shop: Shop): Route {
  const zone = optional(options, 'zone');
  const to = optional(options, 'to');
  if ((zone === undefined) === (to === undefined)) wrongUsage('expected either --zone or --to');
  if (zone !== undefined) return { zone };
  const country = optional(options, 'country') ?? shop.from.country;
  const from = { postcode: optional(options, 'from') ?? shop.from.postcode, country: shop.from.country };
  return { from, to: { postcode: to ?? '', country: country.toUpperCase() } };
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

function text(offers: readonly Offer[], refused: readonly Refusal[], shop: Shop, language: Language): string {
  const { mass: unit, massPlaces } = shop.units;
  const priced = offers.map((offer) => [
    offer.service,
    formatMoney(offer.price),
    offer.cubicTier === null ? offer.rule : `${offer.rule} ${offer.cubicTier}`,
    formatMass(offer.billedMass, unit, massPlaces),
    offer.bracketCeiling === null ? '' : formatMassPlain(offer.bracketCeiling, unit),
    offer.reasons.map((reason) => reasonWords(reason, language)).join('\n'),
  ]);
  const why = refused.map((refusal) => [refusal.service, reasonWords(refusal.why, language)]);
  const parts = [table(['service', 'price', 'rule', 'billed', 'up to', 'why'], priced)];
  if (why.length > 0) parts.push(table(['refused by', 'why'], why));
  return parts.join('\n');
}

function run(options: Options, surroundings: Surroundings): Outcome {
  const weight = required(options, 'weight');
  const shop = shopOption(options, surroundings);
  const language = languageOption(options, shop);
  const parcel = parcelOption(options, shop);
  const mass = quantity('weight', weight, parseMass);
  const route = routeOption(options, shop);
  const day = dayOption(options, shop, surroundings);
  try {
    const { offers, refused } = quote(shop.rates, parcel, mass, route, day);
    const document = {
      day,
      offers: offers.map((offer) => offerDocument(offer, language)),
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
  usage: `quote --container ID [--thickness 1in] | --size 10x8x2in | --soft 15x12in[x1in]
    --weight 15.9oz  --zone N | --to POSTCODE [--country US] [--from POSTCODE]
    [--on YYYY-MM-DD] [--language en|es] [--config FOLDER]`,
  options: [
    'container',
    'thickness',
    'size',
    'soft',
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
