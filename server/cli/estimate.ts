import { badInput } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { costDocument, gramsDocument, massDocument } from './documents.ts';
import { importPieces } from './import-files.ts';
import { knownSources, learnedShop } from './data-option.ts';
import { languageOption } from './language-option.ts';
import { optional, required, type Options } from './options.ts';
import { dayOption, shopOption } from './shop-option.ts';
import { table } from './table.ts';
import { zonesWithin, type ZoneWeight } from '#shared/planning/destination-zones.ts';
import { estimatePiece, USUAL_SHARE, type Estimate } from '#shared/planning/estimate.ts';
import { warningWords } from '#shared/planning/estimate-warnings.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatMassPlain } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

/** "5" or, with its weight, "5=0.2". */
function zoneWeight(text: string): ZoneWeight {
  const [, zone = '', weight = '1'] = /^([^=]+)(?:=(\d+(?:\.\d+)?))?$/.exec(text.trim()) ?? [];
  if (zone === '' || !(Number(weight) > 0)) {
    badInput(`--zone: expected a zone, or a zone with its weight such as 5=0.2, found "${text}"`);
  }
  return { zone, weight: Number(weight) };
}

function zonesOption(options: Options, shop: Shop): readonly ZoneWeight[] {
  const known = zonesWithin(shop.from.country, shop.rates);
  const zones = options.texts.get('zone')?.map(zoneWeight) ?? known;
  const unknown = zones.find(({ zone }) => !known.some((each) => each.zone === zone));
  if (unknown === undefined) return zones;
  badInput(`--zone: expected one of ${known.map(({ zone }) => zone).join(', ')}; found "${unknown.zone}"`);
}

function shareOption(options: Options): number {
  const text = optional(options, 'cover');
  if (text === undefined) return USUAL_SHARE;
  const percent = /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
  if (percent > 0 && percent <= 100) return percent / 100;
  badInput(`--cover: expected a percentage above 0 and up to 100, found "${text}"`);
}

function zoneDocument({ zone, parcel, cost }: Estimate['zones'][number]) {
  return {
    zone,
    container: parcel.container.id,
    service: parcel.offer.service,
    postage: parcel.offer.price,
    cost,
    parts: costDocument(parcel.cost),
  };
}

function estimateDocument(estimate: Estimate, language: Language) {
  const { piece, container, service, mass, declared, zones, unserved, charge, warnings } = estimate;
  return {
    piece: piece.sku,
    container: container.id,
    service,
    mass: { expected: gramsDocument(mass.mean), sd: gramsDocument(mass.sd) },
    declared: massDocument(declared),
    cheapest: zoneDocument(zones[0]),
    dearest: zoneDocument(zones.at(-1) ?? zones[0]),
    zones: zones.map(zoneDocument),
    unserved,
    charge,
    warnings: warnings.map((warning) => ({ ...warning, text: warningWords(warning, language) })),
  };
}

function row(estimate: Estimate, shop: Shop, language: Language): readonly string[] {
  const { piece, container, service, declared, zones, charge, warnings } = estimate;
  const [cheapest] = zones;
  const dearest = zones.at(-1) ?? cheapest;
  return [
    piece.sku,
    container.name[language],
    service,
    formatMassPlain(declared, shop.units.mass),
    `${cheapest.zone}: ${formatMoney(cheapest.cost)}`,
    `${dearest.zone}: ${formatMoney(dearest.cost)}`,
    formatMoney(charge),
    warnings.map((warning) => warningWords(warning, language)).join('\n'),
  ];
}

async function run(options: Options, surroundings: Surroundings): Promise<Outcome> {
  const file = required(options, 'pieces');
  const shop = learnedShop(options, shopOption(options, surroundings), surroundings);
  const language = languageOption(options, shop);
  const day = dayOption(options, shop, surroundings);
  const zones = zonesOption(options, shop);
  const share = shareOption(options);
  const pieces = await importPieces(file, shop, surroundings, knownSources(options, surroundings));
  const estimates: Estimate[] = [];
  const failed: string[] = [];
  for (const piece of pieces.records) {
    try {
      estimates.push(estimatePiece({ piece, shop, day, zones, share }));
    } catch (error) {
      if (!isPlanError(error)) throw error;
      failed.push(error.message);
    }
  }
  return {
    document: { day, share, pieces: estimates.map((each) => estimateDocument(each, language)) },
    text: table(
      ['piece', 'container', 'service', 'declare', 'cheapest', 'dearest', 'charge', 'to know'],
      estimates.map((each) => row(each, shop, language)),
    ),
    complaints: [...pieces.complaints, ...failed],
  };
}

/** What to promise for every piece of a file before it is sold. */
export const estimateCommand: Command = {
  usage: `estimate --pieces pieces.csv [--zone N[=WEIGHT]]... [--cover PERCENT]
    [--on YYYY-MM-DD] [--language en|es] [--config FOLDER] [--data FOLDER]`,
  options: ['pieces', 'zone', 'cover', 'on', 'language', 'config', 'data'],
  repeatable: ['zone'],
  run,
};
