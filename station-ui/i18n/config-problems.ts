import type { Language } from '#shared/words/language.ts';

/**
 * What the check of the shop's files says, by its English words: `{}` stands for what differs. The first that fits counts, and
 * what stands in a place is put into Spanish too where it is one of these itself.
 */
const SPANISH: readonly (readonly [english: string, spanish: string])[] = [
  // what was found
  ['nothing', 'nada'],
  ['none', 'nada'],
  ['an empty value', 'un valor vacío'],
  ['an empty file', 'un archivo vacío'],
  ['no such file', 'ningún archivo así'],
  ['no such folder', 'ninguna carpeta así'],
  ['no such file (is {} meant to be it?)', 'ningún archivo así (¿será {}?)'],
  ['no .yaml file in it', 'ningún archivo .yaml en ella'],
  ['a file that may not be read', 'un archivo que no se puede leer'],
  ['a folder', 'una carpeta'],
  ['a file', 'un archivo'],
  ['no folder to look in', 'ninguna carpeta donde mirar'],
  ['bytes that are not UTF-8', 'bytes que no son UTF-8'],
  ['an error ({})', 'un error ({})'],
  ['an alias that cannot be followed ({})', 'un alias que no lleva a nada ({})'],
  ['a list ({}', 'una lista ({}'],
  ['a list {}', 'una lista {}'],
  ['a mapping ({}', 'un grupo de claves ({}'],
  ['a mapping {}', 'un grupo de claves {}'],
  ['{}, which {} has too', '{}, que también tiene {}'],
  // pedals
  [
    'a list of key codes, or key codes by main or a command, such as {}',
    'una lista de códigos de tecla, o códigos de tecla por main o por una orden, como {}',
  ],
  ['each key to mean one thing', 'que cada tecla signifique una sola cosa'],
  ['{} for {} and for {}', '{} para {} y para {}'],
  // labels from outside
  [
    'simulated, or an address that begins with https:// (http:// only on this computer), without a name or password in it',
    'simulated, o una dirección que empiece por https:// (http:// solo en este ordenador), sin nombre ni contraseña',
  ],
  ['the name of an environment variable', 'el nombre de una variable de entorno'],
  ['where the secret is read: {}', 'dónde se lee el secreto: {}'],
  ['no less than firstRetrySeconds', 'no menos que firstRetrySeconds'],
  ['escpos for a simulated label printer', 'escpos para una impresora de etiquetas simulada'],
  // what the prices say together
  ['{} (service {})', '{} (servicio {})'],
  ['currency: expected {} as on the card of {}, found {}', 'moneda: se esperaba {} como en la tarifa de {}, hay {}'],
  [
    '{}: the service {} of {} is also on a card of {} {}',
    '{}: el servicio {} de {} está también en una tarifa de {} {}',
  ],
  ['the service {} of {} is also on a card of {} {}', 'el servicio {} de {} está también en una tarifa de {} {}'],
  ['no card sells the service {} {}', 'ninguna tarifa vende el servicio {} {}'],
  ['no price is in force {}', 'ningún precio está vigente {}'],
  ['prices {} and {} are both in force {}', 'los precios {} y {} están vigentes a la vez {}'],
  ['two dimensional rules are in force {}', 'dos reglas por volumen están vigentes {}'],
  ['no dimensional rule is in force {}', 'ninguna regla por volumen está vigente {}'],
  ['no rule for zones is in force {}', 'ninguna regla de zonas está vigente {}'],
  ['no limit {} is in force {}', 'ningún límite {} está vigente {}'],
  ['the limit {} is not in force {}', 'el límite {} no está vigente {}'],
  [
    'the limit {} is in force twice {}: the narrower counts',
    'el límite {} está vigente dos veces {}: cuenta el más estrecho',
  ],
  ['a discount {} is not in force {}', 'el descuento {} no está vigente {}'],
  ['a surcharge {} is not in force {}', 'el recargo {} no está vigente {}'],
  ['a discount {} is in force twice {}', 'el descuento {} está vigente dos veces {}'],
  ['a surcharge {} is in force twice {}', 'el recargo {} está vigente dos veces {}'],
  ['{} ends on {}, before it begins on {}', '{} acaba el {}, antes de empezar el {}'],
  ['{} is on no day in force: {}', '{} no está vigente ningún día: {}'],
  [
    'the smallest mass is above the largest: no mass is taken',
    'el peso mínimo supera el máximo: no se admite ningún peso',
  ],
  [
    'zone {} has prices, but no zone rule of the card gives it',
    'la zona {} tiene precios, pero ninguna regla de la tarifa la da',
  ],
  [
    'the discount {} is for parcels over a size: a larger parcel would be cheaper',
    'el descuento {} es para paquetes de más de una medida: uno mayor sería más barato',
  ],
  [
    'prices fall as the mass grows and volume counts as mass: a larger parcel would be cheaper',
    'los precios bajan con el peso y el volumen cuenta como peso: un paquete mayor sería más barato',
  ],
  ['on every day', 'todos los días'],
  ['from {} until {}', 'desde el {} hasta el {}'],
  ['from {}', 'desde el {}'],
  ['until {}', 'hasta el {}'],
  ['the card', 'la tarifa'],
  ['the service', 'el servicio'],
  ['a price', 'un precio'],
  ['a limit', 'un límite'],
  ['a discount', 'un descuento'],
  ['a surcharge', 'un recargo'],
  ['a rule for zones', 'una regla de zonas'],
  ['a dimensional rule', 'una regla por volumen'],
  ['one currency on every card', 'una sola moneda en todas las tarifas'],
  ['a service on one card at a time', 'un servicio en una sola tarifa a la vez'],
  ['one price in force on a day', 'un solo precio vigente cada día'],
  ['a price on every day of the service', 'un precio para cada día del servicio'],
  ['one dimensional rule in force on a day', 'una sola regla por volumen vigente cada día'],
  [
    'a largest mass on every day of a service without weight brackets',
    'un peso máximo para cada día de un servicio sin tramos de peso',
  ],
  ['a rule that gives the zone', 'una regla que dé la zona'],
  ['prices that do not fall as a parcel grows', 'precios que no bajen al crecer el paquete'],
  [
    'a service sold on every day from its first card to its last',
    'un servicio a la venta cada día, de su primera tarifa a la última',
  ],
  ['dimensional rules that follow on one another', 'reglas por volumen que sigan unas a otras'],
  ['a discount or surcharge in force once at a time', 'un descuento o recargo vigente una sola vez'],
  [
    'the days of one discount or surcharge following on one another',
    'que los días de un descuento o recargo sigan unos a otros',
  ],
  ['a limit in force once at a time', 'un límite vigente una sola vez'],
  ['the days of one limit following on one another', 'que los días de un límite sigan unos a otros'],
  ['a smallest mass that is not above the largest', 'un peso mínimo que no supere el máximo'],
  ['a rule for zones on every day of the card', 'una regla de zonas para cada día de la tarifa'],
  ['days within those of what it belongs to', 'días dentro de los de aquello a lo que pertenece'],
  ['a last day that is not before the first', 'un último día que no sea anterior al primero'],
  // rate cards
  ['a price such as {}', 'un precio como {}'],
  ['{} prices, one per zone', '{} precios, uno por zona'],
  ['none: this zone ends in the row before', 'nada: esta zona acaba en la fila anterior'],
  ['a price: a zone has at least its first bracket', 'un precio: una zona tiene al menos su primer tramo'],
  ['more than in the row before', 'más que en la fila anterior'],
  [
    'the price falls below that of the row before; {} accepts it',
    'el precio baja del de la fila anterior; {} lo admite',
  ],
  ['a zone is named twice', 'una zona aparece dos veces'],
  ['a mass above nothing', 'un peso mayor que nada'],
  ['a step above nothing', 'un paso mayor que nada'],
  ['a step of at least one minor unit', 'un paso de un céntimo al menos'],
  ['the fewest days first', 'primero el menor número de días'],
  ['the container {} has a fee twice', 'el embalaje {} tiene dos tarifas'],
  ['the service {} is on this card twice', 'el servicio {} está dos veces en esta tarifa'],
  [
    'a limit {}: this service has no weight brackets to end it',
    'un límite {}: este servicio no tiene tramos de peso que lo acaben',
  ],
  [
    'a per cent such as {}, at most four decimals and {}',
    'un tanto por ciento como {}, con cuatro decimales como mucho y hasta {}',
  ],
  ['distances that rise, and only the last band without one', 'distancias que suban, y solo la última banda sin ella'],
  ['a beginning such as {} or two of equal length such as {}', 'un comienzo como {} o dos de igual longitud como {}'],
  ['an amount such as {}, {} or {}', 'una cantidad como {}, {} o {}'],
  ['a currency code of three letters such as {}', 'un código de moneda de tres letras como {}'],
  ['{}, the currency of shop.yaml', '{}, la moneda de shop.yaml'],
  // quantities and what any file may get wrong
  ['a number and its unit such as {} or {}', 'un número y su unidad como {} o {}'],
  ['a number and a unit such as {} or {}', 'un número y una unidad como {} o {}'],
  ['a decimal number of {}', 'un número decimal de {}'],
  ['oz, lb, g or kg', 'oz, lb, g o kg'],
  ['in, cm or mm', 'in, cm o mm'],
  ['{} in {}', '{} en {}'],
  ['mass: {} is finer than this station counts ({})', 'peso: {} es más fino de lo que cuenta el puesto ({})'],
  ['mass: {} is larger than this station counts ({})', 'peso: {} es mayor de lo que cuenta el puesto ({})'],
  ['length: {} is {}', 'longitud: {} es {}'],
  [
    'length: the fraction in {} is finer than this station counts ({})',
    'longitud: la fracción de {} es más fina de lo que cuenta el puesto ({})',
  ],
  ['finer than this station counts ({})', 'más fino de lo que cuenta el puesto ({})'],
  ['larger than this station counts ({})', 'mayor de lo que cuenta el puesto ({})'],
  ['lower-case letters, digits and hyphens', 'minúsculas, cifras y guiones'],
  ['a day such as {}', 'un día como {}'],
  ['something that can hold', 'algo que pueda ser'],
  ['text that is not empty', 'un texto que no esté vacío'],
  ['text (in quotes: {})', 'un texto (entre comillas: {})'],
  ['text', 'un texto'],
  ['a whole number', 'un número entero'],
  ['a number', 'un número'],
  ['true or false', 'true o false'],
  ['a list', 'una lista'],
  ['a mapping', 'un grupo de claves'],
  ['a readable YAML file', 'un archivo YAML que se pueda leer'],
  ['valid YAML', 'YAML válido'],
  ['each key once', 'cada clave una sola vez'],
  ['no further key', 'ninguna clave más'],
  ['only the keys {}', 'solo las claves {}'],
  ['at least {} in the list', 'al menos {} en la lista'],
  ['at least one of {}', 'al menos uno de {}'],
  ['at least one', 'al menos uno'],
  ['at least {}', 'al menos {}'],
  ['at most {}', 'como mucho {}'],
  ['more than {}', 'más de {}'],
  ['less than the inside length', 'menos que el largo interior'],
  ['less than {}', 'menos de {}'],
  ['a folder with at least one rate card', 'una carpeta con al menos una tarifa'],
  ["a folder with the shop's files", 'una carpeta con los archivos de la tienda'],
  ['one of the sizes {}', 'una de las tallas {}'],
  ['one of {} (did you mean {}?)', 'uno de {} (¿quiso decir {}?)'],
  ['one of {}', 'uno de {}'],
  ['{} (did you mean {}?)', '{} (¿quiso decir {}?)'],
  ['a container of {}: {}', 'un embalaje de {}: {}'],
  ['a recipe of {}: {}', 'una receta de {}: {}'],
  ['a cloth of {}: {}', 'un tejido de {}: {}'],
  ['a kind of {}: {}', 'una clase de {}: {}'],
  ['a wrap of {}: {}', 'una envoltura de {}: {}'],
  ['a carrier with a rate card: {}', 'un transportista con tarifa: {}'],
  ['a path to {}', 'una ruta a {}'],
  ['each collection once', 'cada recogida una sola vez'],
  ['a badge of its own', 'una tarjeta propia'],
  ['a badge that is no container id', 'una tarjeta que no sea el id de un embalaje'],
  ['a header of one field only', 'un encabezado de un solo campo'],
  // the other files
  ['a length above 0', 'una longitud mayor que 0'],
  ['a length of 0 or more', 'una longitud de 0 o más'],
  ['a mass above 0', 'un peso mayor que 0'],
  ['a mass above zero', 'un peso mayor que cero'],
  ['a mass of 0 or more', 'un peso de 0 o más'],
  ['a mass of zero or more', 'un peso de cero o más'],
  ['zero or more', 'cero o más'],
  ['0.00 or more', '0.00 o más'],
  ['{} for the outline {}', '{} para el contorno {}'],
  ['an inseam shorter than the length', 'un tiro de pierna más corto que el largo'],
  ['none: a block is not folded', 'nada: un bloque no se dobla'],
  [
    'a fraction such as {}, at least {} and below {} so that the fold closes',
    'una fracción como {}, de {} al menos y menor que {} para que el doblez cierre',
  ],
  ['a thickness above thicknessPressed', 'un grosor mayor que thicknessPressed'],
  ['at most 4.6 times thicknessPressed', 'como máximo 4.6 veces thicknessPressed'],
  ['a depth for a carton', 'un fondo para una caja'],
  ['no depth for a {}', 'ningún fondo para {}'],
  ['an outside no smaller than the inside', 'un exterior no menor que el interior'],
  ['an order of day, month and year such as {} or {}', 'un orden de día, mes y año como {} o {}'],
  ['a time of day such as {}', 'una hora como {}'],
  ['an amount such as {}, in quotes', 'una cantidad como {}, entre comillas'],
  ['an amount such as {}', 'una cantidad como {}'],
  ['a currency code of three capital letters ({})', 'un código de moneda de tres mayúsculas ({})'],
  ['a country code of two capital letters such as {}', 'un código de país de dos mayúsculas como {}'],
  ['a country code of two capital letters ({})', 'un código de país de dos mayúsculas ({})'],
  ['an IANA time zone such as {}', 'una zona horaria IANA como {}'],
  [
    '3 to 32 letters, digits or signs without spaces, as a barcode has',
    'de 3 a 32 letras, cifras o signos sin espacios, como en un código de barras',
  ],
  ['text in quotes, such as {}', 'un texto entre comillas, como {}'],
  ['a path that begins with /', 'una ruta que empiece por /'],
  ['a division above zero', 'una división mayor que cero'],
  ['a drift of zero or more', 'una deriva de cero o más'],
  ['{} for a simulated scale', '{} para una báscula simulada'],
  ['a form of your own', 'una forma propia'],
  [
    'a mass that the scale may carry: no more than its capacity',
    'un peso que la báscula soporte: no más que su capacidad',
  ],
  ['a capacity above the division', 'una capacidad mayor que la división'],
  ['a whole number of bytes: a multiple of 8', 'un número entero de bytes: un múltiplo de 8'],
  ['a key code such as {} or {}', 'un código de tecla como {} o {}'],
];

interface Rule {
  readonly pattern: RegExp;
  readonly spanish: string;
}

const RULES: readonly Rule[] = SPANISH.map(([english, spanish]) => ({
  pattern: new RegExp(`^${english.replace(/[.*+?^$()|[\]\\/]/g, '\\$&').replaceAll('{}', '(.+?)')}$`, 's'),
  spanish,
}));

/** Values that stand for themselves in any language: quoted words, numbers, names, lists of them. */
const ITSELF = /^(["'[{(<-]|[\d.,]|true$|false$|null$|[\w./-]+$)/;

/** The Spanish of a text of the check, or null where there is none. */
export function spanishOf(english: string): string | null {
  for (const { pattern, spanish } of RULES) {
    const match = pattern.exec(english);
    if (match === null) continue;
    const values = match.slice(1);
    return spanish.replace(/\{\}/g, () => {
      const value = values.shift() ?? '';
      return ITSELF.test(value) ? value : (spanishOf(value) ?? value);
    });
  }
  return ITSELF.test(english) ? english : null;
}

/** A text of the check in a language; what has no translation stays as it is rather than be lost. */
export function configText(english: string, language: Language): string {
  return language === 'en' ? english : (spanishOf(english) ?? english);
}

/** "rate-cards/merrow-post.yaml:12 services[0].prices:" */
export function placeIn(file: string, line: number | null, path: string): string {
  return `${file}${line === null ? '' : `:${String(line)}`}${path === '' ? '' : ` ${path}`}:`;
}
