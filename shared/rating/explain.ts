import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { moneyTextIn } from '#shared/units/money.ts';
import type { Language, Localised } from '#shared/words/language.ts';
import type { Reason } from './types.ts';

/** {name} stands for the value of that name, in the language where the value has one. */
const SENTENCES: Readonly<Record<string, Localised>> = {
  card: { en: 'Price list of {name}, in force from {from}', es: 'Tarifa de {name}, vigente desde {from}' },
  'zone-given': { en: 'Zone {zone}, as given', es: 'Zona {zone}, la indicada' },
  'zone-flat': { en: 'Zone {zone} for {country}', es: 'Zona {zone} para {country}' },
  'zone-distance': {
    en: 'Zone {zone}: {postcode} is {distance} away',
    es: 'Zona {zone}: {postcode} está a {distance}',
  },
  'zone-chart': {
    en: "Zone {zone} for {postcode} on the carrier's chart",
    es: 'Zona {zone} para {postcode} según la tabla del transportista',
  },
  'weight-bracket': {
    en: '{mass} pays the bracket up to {upTo}: {price}',
    es: '{mass} paga el tramo de hasta {upTo}: {price}',
  },
  'flat-fee': { en: 'Flat fee for {container}: {price}', es: 'Tarifa plana para {container}: {price}' },
  sides: { en: 'Sides as measured', es: 'Lados tal como se midieron' },
  'sides-down': {
    en: 'Each side down to a whole {step}: {sides}',
    es: 'Cada lado hacia abajo a múltiplos de {step}: {sides}',
  },
  'sides-nearest': {
    en: 'Each side to the nearest {step}: {sides}',
    es: 'Cada lado al múltiplo más próximo de {step}: {sides}',
  },
  'sides-up': {
    en: 'Each side up to a whole {step}: {sides}',
    es: 'Cada lado hacia arriba a múltiplos de {step}: {sides}',
  },
  'cubic-box': {
    en: '{volume} is cubic tier {tier} (up to {upTo}): {price}',
    es: '{volume} es el nivel cúbico {tier} (hasta {upTo}): {price}',
  },
  'cubic-soft': {
    en: 'Length + width {sum} is cubic tier {tier} (up to {upTo}): {price}',
    es: 'Largo + ancho {sum} es el nivel cúbico {tier} (hasta {upTo}): {price}',
  },
  'dimensional-exempt': { en: 'Not over {volume}: the scale decides', es: 'No supera {volume}: decide la báscula' },
  dimensional: {
    en: 'Volume / {divisor}, up to the next {step}, is {billed}: more than the {mass} on the scale',
    es: 'Volumen / {divisor}, hacia arriba a {step}, da {billed}: más que los {mass} de la báscula',
  },
  'dimensional-below': {
    en: 'Volume / {divisor}, up to the next {step}, is {billed}: not more than the {mass} on the scale',
    es: 'Volumen / {divisor}, hacia arriba a {step}, da {billed}: no más que los {mass} de la báscula',
  },
  surcharge: { en: '{name}: {price} more', es: '{name}: {price} más' },
  'surcharge-per-cent': {
    en: '{name}: {perCent} % of {base}, {rounding} {step}: {price} more',
    es: '{name}: {perCent} % de {base}, {rounding} {step}: {price} más',
  },
  discount: { en: '{name}: {price}', es: '{name}: {price}' },
  'discount-per-cent': {
    en: '{name}: {perCent} % of {base}, {rounding} {step}: {price}',
    es: '{name}: {perCent} % de {base}, {rounding} {step}: {price}',
  },
  'next-cheaper-mass': { en: '{by} lighter would cost {price}', es: 'Con {by} menos costaría {price}' },
  'next-dearer-mass': { en: 'More than {by} heavier costs {price}', es: 'Con más de {by} más cuesta {price}' },
  'heaviest-mass': {
    en: 'More than {by} heavier and this service refuses it',
    es: 'Con más de {by} más, este servicio no lo acepta',
  },
  'lightest-mass': {
    en: 'More than {by} lighter and this service refuses it',
    es: 'Con más de {by} menos, este servicio no lo acepta',
  },
  'lightest-mass-at-once': {
    en: 'Any lighter and this service refuses it',
    es: 'Con algo menos de peso, este servicio no lo acepta',
  },
  'next-dearer-mass-at-once': { en: 'Any heavier costs {price}', es: 'Con algo más de peso cuesta {price}' },
  'heaviest-mass-at-once': {
    en: 'Any heavier and this service refuses it',
    es: 'Con algo más de peso, este servicio no lo acepta',
  },
  'next-cheaper-side': {
    en: '{by} less on the {side} would cost {price}',
    es: 'Con {by} menos de {side} costaría {price}',
  },
  'next-dearer-side': {
    en: 'More than {by} added to the {side} costs {price}',
    es: 'Con más de {by} más de {side} cuesta {price}',
  },
  'largest-side': {
    en: 'More than {by} added to the {side} and this service refuses it',
    es: 'Con más de {by} más de {side}, este servicio no lo acepta',
  },
  'next-dearer-side-at-once': {
    en: 'Anything added to the {side} costs {price}',
    es: 'Con algo más de {side} cuesta {price}',
  },
  'largest-side-at-once': {
    en: 'Anything added to the {side} and this service refuses it',
    es: 'Con algo más de {side}, este servicio no lo acepta',
  },
  'container-type': { en: 'Does not take a {type}', es: 'No admite este tipo de embalaje ({type})' },
  'own-packaging': {
    en: '{container} is packaging of {owner} and goes only by the services made for it',
    es: '{container} es embalaje de {owner} y solo va con los servicios hechos para él',
  },
  'only-in-container': { en: 'Valid only in {containers}', es: 'Solo vale en {containers}' },
  'needs-box': {
    en: 'Priced for cartons only, and this is not one',
    es: 'Solo para cajas, y esto no lo es',
  },
  'needs-soft': {
    en: 'Priced for soft packs only, and this is not one',
    es: 'Solo para paquetes blandos, y este no lo es',
  },
  'thickness-unknown': { en: 'Needs the thickness of the pack', es: 'Hace falta el grosor del paquete' },
  'destination-refused': { en: 'Does not serve {postcode} {country}', es: 'No llega a {postcode} {country}' },
  'destination-not-served': {
    en: 'No zone on this card covers {postcode} {country}',
    es: 'Ninguna zona de esta tarifa cubre {postcode} {country}',
  },
  'unknown-postcode': {
    en: 'Postcode {postcode} ({country}) is not known, so it has no zone',
    es: 'No se conoce el código postal {postcode} ({country}), así que no tiene zona',
  },
  'too-far': {
    en: '{postcode} is {distance} away, beyond the last zone',
    es: '{postcode} está a {distance}, más allá de la última zona',
  },
  'zone-not-on-card': { en: 'Has no price for zone {zone}', es: 'No tiene precio para la zona {zone}' },
  'too-heavy': {
    en: '{by} too heavy: {mass} against at most {most}',
    es: 'Pesa {by} de más: {mass} frente a {most} como máximo',
  },
  'billed-too-heavy': {
    en: '{by} too heavy as billed by volume: {billed} against at most {most}',
    es: '{by} de más según el volumen: {billed} frente a {most} como máximo',
  },
  'too-light': {
    en: '{by} too light: {mass} against at least {least}',
    es: 'Le faltan {by} de peso: {mass} frente a {least} como mínimo',
  },
  'too-small': {
    en: '{by} too small: the {side} is {now}, at least {least}',
    es: 'Le faltan {by}: el {side} mide {now}, mínimo {least}',
  },
  'too-large': { en: 'Too large', es: 'Demasiado grande' },
  'too-voluminous': {
    en: '{by} too large: {volume} against at most {most}',
    es: 'Sobran {by}: {volume} frente a {most} como máximo',
  },
  'over-longest-side': {
    en: '{by} too long: the longest side is {side}, at most {most}',
    es: 'Sobran {by} de largo: el lado más largo mide {side}, máximo {most}',
  },
  'over-second-side': {
    en: '{by} too wide: the second side is {side}, at most {most}',
    es: 'Sobran {by} de ancho: el segundo lado mide {side}, máximo {most}',
  },
  'over-shortest-side': {
    en: '{by} too thick: {side} against at most {most}',
    es: 'Sobran {by} de grosor: {side} frente a {most} como máximo',
  },
  'over-length-and-girth': {
    en: 'Length and girth {by} too large: {side}, at most {most}',
    es: 'Largo más contorno, {by} de más: {side}, máximo {most}',
  },
  'over-sum-of-sides': {
    en: 'The three sides together are {by} too large: {side}, at most {most}',
    es: 'Los tres lados juntos suman {by} de más: {side}, máximo {most}',
  },
  'over-length-and-two-diameters': {
    en: 'Length and twice the diameter {by} too large: {side}, at most {most}',
    es: 'Largo más dos diámetros, {by} de más: {side}, máximo {most}',
  },
  'beyond-soft-tiers': {
    en: '{by} too large for cubic: length + width is {sum}, the last tier ends at {most}',
    es: '{by} de más para la tarifa cúbica: largo + ancho son {sum} y el último nivel acaba en {most}',
  },
  'beyond-box-tiers': {
    en: '{by} too large for cubic: {volume}, the last tier ends at {most}',
    es: '{by} de más para la tarifa cúbica: {volume} y el último nivel acaba en {most}',
  },
  'not-on-day': {
    en: 'Not on sale on {day} (from {from}, until {until})',
    es: 'No se vende el {day} (desde {from}, hasta {until})',
  },
};

/** Values that are words themselves. */
const VALUE_WORDS: Readonly<Record<string, Localised>> = {
  'round-up': { en: 'up to a whole', es: 'hacia arriba a múltiplos de' },
  'round-down': { en: 'down to a whole', es: 'hacia abajo a múltiplos de' },
  'round-nearest': { en: 'to the nearest', es: 'al múltiplo más próximo de' },
  pouch: { en: 'pouch', es: 'bolsa' },
  card: { en: 'card envelope', es: 'sobre de cartón' },
  carton: { en: 'carton', es: 'caja' },
  'first-side': { en: 'first side', es: 'primer lado' },
  'second-side': { en: 'second side', es: 'segundo lado' },
  'third-side': { en: 'third side', es: 'tercer lado' },
  'longest-side': { en: 'longest side', es: 'lado más largo' },
  'middle-side': { en: 'second side', es: 'segundo lado' },
  'shortest-side': { en: 'shortest side', es: 'lado más corto' },
  diameter: { en: 'diameter', es: 'diámetro' },
  thickness: { en: 'thickness', es: 'grosor' },
  length: { en: 'length', es: 'largo' },
  width: { en: 'width', es: 'ancho' },
};
const WORDED = new Set(['type', 'side', 'rounding']);

/** The sentence of a reason; the same wherever it is shown. An unknown code comes out as itself with its values. */
export function reasonWords(reason: Reason, language: Language): string {
  const sentence = SENTENCES[reason.code]?.[language];
  if (sentence === undefined) {
    const values = Object.entries(reason.values).map(([name, value]) => `${name} ${value}`);
    return [reason.code, ...values].join(' · ');
  }
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = reason.values[`${name}.${language}`] ?? reason.values[name] ?? '';
    const word = WORDED.has(name) ? VALUE_WORDS[value]?.[language] : undefined;
    return word ?? (value === '' ? '…' : quantitiesIn(moneyTextIn(value, language), language));
  });
}

/** Every code that has a sentence, so that a test can hold the engine to it. */
export const REASON_CODES: readonly string[] = Object.keys(SENTENCES);
