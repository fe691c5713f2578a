import { badInput } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { importOrders, importPieces } from './import-files.ts';
import { knownSources, learnedShop } from './data-option.ts';
import { languageOption } from './language-option.ts';
import { optional, required, type Options } from './options.ts';
import { planDocument, rejectionDocument } from './plan-document.ts';
import { dayOption, shopOption } from './shop-option.ts';
import { table } from './table.ts';
import type { Piece } from '#shared/garments/types.ts';
import { whyWords } from '#shared/planning/explain.ts';
import { isPlanError, type PlanError } from '#shared/planning/plan-error.ts';
import { containerById } from '#shared/planning/preferences.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatMass, massFromGrams } from '#shared/units/mass.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

type Planned =
  | { readonly order: Order; readonly plan: OrderPlan }
  | { readonly order: Order; readonly plan: null; readonly error: PlanError };

function planned(
  order: Order,
  pieces: ReadonlyMap<string, Piece>,
  shop: Shop,
  day: Day,
  without: readonly string[],
): Planned {
  try {
    return { order, plan: planOrder({ order, pieces, shop, day, without }) };
  } catch (error) {
    if (!isPlanError(error)) throw error;
    return { order, plan: null, error };
  }
}

function orderDocument(each: Planned, language: Language) {
  if (each.plan !== null) return planDocument(each.plan, language);
  const { error } = each;
  return {
    order: each.order.id,
    parcels: [],
    error: { code: error.code, message: error.message },
    whyNot: error.whyNot.map((rejection) => rejectionDocument(rejection, language)),
  };
}

function rows(plan: OrderPlan, shop: Shop, language: Language): readonly (readonly string[])[] {
  const { mass: unit, massPlaces } = shop.units;
  return plan.parcels.map((parcel, index) => [
    index === 0 ? plan.order : '',
    parcel.pieces.map(({ piece, fold }) => `${piece.sku} ${fold.recipeName[language]}`).join('\n'),
    parcel.container.name[language],
    `${parcel.fit.verdict} ${(parcel.fit.probability * 100).toFixed(0)} %`,
    formatMass(massFromGrams(parcel.mass.mean), unit, massPlaces),
    parcel.offer.service,
    formatMoney(parcel.offer.price),
    formatMoney(money(Math.round(parcel.cost.total), parcel.cost.currency)),
    index === 0 ? whyWords(plan, language) : '',
  ]);
}

async function run(options: Options, surroundings: Surroundings): Promise<Outcome> {
  const files = { pieces: required(options, 'pieces'), orders: required(options, 'orders') };
  const shop = learnedShop(options, shopOption(options, surroundings), surroundings);
  const language = languageOption(options, shop);
  const day = dayOption(options, shop, surroundings);
  const without = options.texts.get('without') ?? [];
  const unknown = without.find((id) => containerById(shop, id) === undefined);
  if (unknown !== undefined) {
    badInput(`--without: expected one of ${[...shop.containers.keys()].join(', ')}; found "${unknown}"`);
  }
  const sources = knownSources(options, surroundings);
  const pieces = await importPieces(files.pieces, shop, surroundings, sources);
  const bySku = new Map(pieces.records.map((piece) => [piece.sku, piece]));
  const orders = await importOrders(files.orders, bySku, shop, surroundings, sources);
  const only = optional(options, 'order');
  const wanted = orders.records.filter(({ id }) => only === undefined || id === only);
  if (only !== undefined && wanted.length === 0) badInput(`--order: no order "${only}" in ${files.orders}`);
  const plans = wanted.map((order) => planned(order, bySku, shop, day, without));
  const failed = plans.flatMap((each) => (each.plan === null ? [each.error.message] : []));
  return {
    document: { day, orders: plans.map((each) => orderDocument(each, language)) },
    text: table(
      ['order', 'pieces', 'container', 'fit', 'mass', 'service', 'postage', 'cost', 'why'],
      plans.flatMap((each) => (each.plan === null ? [] : rows(each.plan, shop, language))),
    ),
    complaints: [...pieces.complaints, ...orders.complaints, ...failed],
  };
}

/** The cheapest plan of every order of a file. */
export const planCommand: Command = {
  usage: `plan --pieces pieces.csv --orders orders.csv [--order ID] [--without CONTAINER]...
    [--on YYYY-MM-DD] [--language en|es] [--config FOLDER] [--data FOLDER]`,
  options: ['pieces', 'orders', 'order', 'without', 'on', 'language', 'config', 'data'],
  repeatable: ['without'],
  run,
};
