import type { ParcelPlan } from './types.ts';
import type { RuleKind } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { formatMass, massFromGrams, toGrams } from '#shared/units/mass.ts';
import { formatMoney, moneyTextIn, subtractMoney } from '#shared/units/money.ts';
import type { Language, Localised } from '#shared/words/language.ts';

export const ESTIMATE_WARNINGS = [
  'under-a-bracket',
  'over-a-bracket',
  'not-weighed',
  'assumed',
  'not-cubic',
  'snug',
  'container-by-zone',
  'unserved',
] as const;

/** Something to know before a piece is listed; a code with its values, put into words here. */
export interface EstimateWarning {
  readonly code: (typeof ESTIMATE_WARNINGS)[number];
  readonly values: Readonly<Record<string, string>>;
}

/** Within so many standard deviations of a ceiling the price may be the other one. */
const CLOSE = 2;

function bracketWarnings({ mass, prices }: ParcelPlan, shop: Shop): EstimateWarning[] {
  const { mass: unit, massPlaces } = shop.units;
  const words = (grams: number) => formatMass(massFromGrams(grams), unit, massPlaces);
  const at = prices.steps.findIndex(({ ceiling }) => mass.mean <= toGrams(ceiling));
  const [before, here, after] = [prices.steps[at - 1], prices.steps[at], prices.steps[at + 1]];
  if (here === undefined) return [];
  const found: EstimateWarning[] = [];
  const under = toGrams(here.ceiling) - mass.mean;
  if (under < CLOSE * mass.sd) {
    const more = after === undefined ? '' : formatMoney(subtractMoney(after.price, here.price));
    found.push({ code: 'under-a-bracket', values: { by: words(under), ceiling: words(toGrams(here.ceiling)), more } });
  }
  const over = before === undefined ? Infinity : mass.mean - toGrams(before.ceiling);
  if (before !== undefined && over < CLOSE * mass.sd) {
    const less = formatMoney(subtractMoney(here.price, before.price));
    found.push({ code: 'over-a-bracket', values: { by: words(over), ceiling: words(toGrams(before.ceiling)), less } });
  }
  return found;
}

const isCubic = (rule: RuleKind) => rule === 'cubic-box' || rule === 'cubic-soft';

/** A shop that sells cubic services counts on them; here none takes the parcel as it will be packed. */
function willNotGoCubic(parcel: ParcelPlan, shop: Shop): boolean {
  const sold = shop.rates.cards.some(({ services }) =>
    services.some(({ prices }) => prices.some(({ rule }) => isCubic(rule))),
  );
  return sold && ![parcel.prices, ...parcel.otherServices].some(({ rule }) => isCubic(rule));
}

/** @param promised the parcel that is promised, one of `parcels`, which has one for each zone */
export function warningsFor(
  promised: ParcelPlan,
  parcels: readonly ParcelPlan[],
  unserved: readonly string[],
  shop: Shop,
): readonly EstimateWarning[] {
  const warnings = bracketWarnings(promised, shop);
  const [piece] = promised.pieces;
  if (piece !== undefined && piece.piece.mass === undefined) warnings.push({ code: 'not-weighed', values: {} });
  const assumed = piece?.fold.assumed ?? [];
  if (assumed.length > 0) warnings.push({ code: 'assumed', values: { what: assumed.join(', ') } });
  if (willNotGoCubic(promised, shop)) {
    warnings.push({ code: 'not-cubic', values: { container: promised.container.name[shop.language] } });
  }
  if (promised.fit.verdict === 'snug') warnings.push({ code: 'snug', values: {} });
  const containers = [...new Set(parcels.map(({ container }) => container.name[shop.language]))];
  if (containers.length > 1)
    warnings.push({ code: 'container-by-zone', values: { containers: containers.join(', ') } });
  if (unserved.length > 0) warnings.push({ code: 'unserved', values: { zones: unserved.join(', ') } });
  return warnings;
}

const SENTENCES: Readonly<Record<EstimateWarning['code'], Localised>> = {
  'under-a-bracket': {
    en: '{by} under the {ceiling} bracket: weigh it',
    es: '{by} por debajo del tramo de {ceiling}: hay que pesarla',
  },
  'over-a-bracket': {
    en: '{by} over {ceiling}: below that it costs {less} less',
    es: '{by} por encima de {ceiling}: por debajo cuesta {less} menos',
  },
  'not-weighed': { en: 'Not weighed: its mass is estimated', es: 'Sin pesar: su masa es una estimación' },
  assumed: { en: 'Assumed, as nobody said: {what}', es: 'Supuesto, porque nadie lo dijo: {what}' },
  'not-cubic': { en: 'Will not go cubic in {container}', es: 'No irá por volumen en {container}' },
  snug: { en: 'Closes only when pressed', es: 'Solo cierra con presión' },
  'container-by-zone': {
    en: 'The best container depends on the zone: {containers}',
    es: 'El mejor embalaje depende de la zona: {containers}',
  },
  unserved: { en: 'Cannot be sent to zone {zones}', es: 'No se puede enviar a la zona {zones}' },
};

const ASSUMED: Readonly<Record<string, Localised>> = {
  size: { en: 'size', es: 'talla' },
  cloth: { en: 'cloth', es: 'tejido' },
};

export function warningWords({ code, values }: EstimateWarning, language: Language): string {
  return SENTENCES[code][language].replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = values[name] ?? '';
    if (name !== 'what') return quantitiesIn(moneyTextIn(value, language), language);
    return value
      .split(', ')
      .map((each) => ASSUMED[each]?.[language] ?? each)
      .join(', ');
  });
}
