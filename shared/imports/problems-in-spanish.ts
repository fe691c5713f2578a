import { translator, type TextRules } from '#shared/words/text-rules.ts';
import type { Language } from '#shared/words/language.ts';

/** What reading a file of pieces or orders says, by its English words. */
const SPANISH: TextRules = [
  // the whole file
  [
    'expected a table with a header line; the file is empty',
    'se esperaba una tabla con encabezado; el archivo está vacío',
  ],
  ['expected lines below the header; there are none', 'se esperaban líneas bajo el encabezado; no hay ninguna'],
  [
    'line {}: expected every quoted cell to end with a quote; one of this record does not',
    'línea {}: se esperaba que cada celda entre comillas acabara en comillas; en este registro una no acaba',
  ],
  ['line {}: expected a CSV record; {}', 'línea {}: se esperaba un registro CSV; {}'],
  [
    'expected a CSV table; this file holds bytes that are no text',
    'se esperaba una tabla CSV; este archivo contiene bytes que no son texto',
  ],
  ['expected a CSV table; this is {}', 'se esperaba una tabla CSV; esto es {}'],
  [
    'a zip archive or a spreadsheet workbook; save the sheet as CSV first',
    'un archivo zip o un libro de hoja de cálculo; guarde antes la hoja como CSV',
  ],
  [
    'an older spreadsheet workbook; save the sheet as CSV first',
    'un libro de hoja de cálculo antiguo; guarde antes la hoja como CSV',
  ],
  ['a PNG picture', 'una imagen PNG'],
  ['a JPEG picture', 'una imagen JPEG'],
  ['a GIF picture', 'una imagen GIF'],
  ['a PDF document', 'un documento PDF'],
  ['a gzip archive', 'un archivo gzip'],
  [
    'line {}: expected a column for {}; found the columns {}',
    'línea {}: se esperaba una columna para {}; están las columnas {}',
  ],
  [
    'line {}: expected one column {} for {}; found it as columns {} and {}',
    'línea {}: se esperaba una sola columna {} para {}; son las columnas {} y {}',
  ],
  [
    'line {}: expected the header here; it seems to be on line {}: delete the lines above it',
    'línea {}: se esperaba aquí el encabezado; parece estar en la línea {}: borre las líneas de encima',
  ],
  [
    'line {}: expected the columns of pieces or of orders; found the columns {}',
    'línea {}: se esperaban columnas de prendas o de pedidos; están las columnas {}',
  ],
  [
    'expected a file of at most {} MB; this one has {} MB',
    'se esperaba un archivo de {} MB como mucho; este tiene {} MB',
  ],
  [
    'This preview is no longer here. Choose the file again.',
    'Esta vista previa ya no está. Elija el archivo otra vez.',
  ],
  ['Expected a file of at most {} MB.', 'Se esperaba un archivo de {} MB como mucho.'],
  [
    'The pieces that this file needs were not stored. Store them first, or choose the file again.',
    'Las prendas que este archivo necesita no se guardaron. Guárdelas antes, o elija el archivo otra vez.',
  ],
  ['expected a file that is new; found what {} held', 'se esperaba un archivo nuevo; hay lo que tenía {}'],
  ['line {}, column {}: expected {}; found {}', 'línea {}, columna {}: se esperaba {}; hay {}'],
  [
    'line {}: expected {} cells, as the header has; found {}',
    'línea {}: se esperaban {} celdas, como el encabezado; hay {}',
  ],
  ['{} and for {}', '{} y otra para {}'],
  // cells
  ['a table that was refused before: {}', 'una tabla que ya se rechazó: {}'],
  ['{} cells, as the header has', '{} celdas, como el encabezado'],
  ['{} cells', '{} celdas'],
  ['an empty cell', 'una celda vacía'],
  [
    'a value, not the sign of a formula that failed or of a column that was too narrow',
    'un valor, no la señal de una fórmula que falló o de una columna demasiado estrecha',
  ],
  [
    'a value, not a formula; save the sheet with its values',
    'un valor, no una fórmula; guarde la hoja con sus valores',
  ],
  [
    'all digits: a spreadsheet has rounded this one; format the column as text',
    'todas las cifras: una hoja de cálculo ha redondeado esta; dé a la columna formato de texto',
  ],
  ['at most {} characters', 'como mucho {} caracteres'],
  // codes
  [
    'a code of up to 40 letters, digits and signs without blanks',
    'un código de hasta 40 letras, cifras y signos sin espacios',
  ],
  ['each SKU once', 'cada SKU una sola vez'],
  ['each piece once', 'cada prenda una sola vez'],
  ['a code that scans as a piece', 'un código que se lea como prenda'],
  ['a number that nothing else has', 'un número que no tenga nada más'],
  ['{}, which scans as {}', '{}, que se lee como {}'],
  ['{}, which is the code of {}', '{}, que es el código de {}'],
  ["a parcel's label", 'una etiqueta de paquete'],
  ['the card of a sack', 'la tarjeta de un saco'],
  ['a command card', 'una tarjeta de órdenes'],
  ['a damaged code', 'un código dañado'],
  ['a badge', 'una tarjeta de persona'],
  ['a container', 'un embalaje'],
  ['an order', 'un pedido'],
  ['a piece', 'una prenda'],
  ['{}, which line {} has too', '{}, que también está en la línea {}'],
  ['{} twice on line {}', '{} dos veces en la línea {}'],
  // pieces
  ['a kind: {}', 'un tipo: {}'],
  ['a size of {} or nothing: {}', 'una talla de {} o nada: {}'],
  ['a cloth or nothing: {}', 'un tejido o nada: {}'],
  [
    'a country, by its two-letter code (ISO 3166-1) or its name',
    'un país, por su código de dos letras (ISO 3166-1) o su nombre',
  ],
  ['a tariff number of the Harmonized System, such as {}', 'una partida arancelaria del Sistema Armonizado, como {}'],
  ['a mass above zero such as {}', 'un peso mayor que cero como {}'],
  ['a length above zero such as {}', 'una longitud mayor que cero como {}'],
  ['an amount in {} such as {}', 'una cantidad en {} como {}'],
  ['{} with fewer decimals', '{} con menos decimales'],
  ['{}, but smaller', '{}, pero menor'],
  // orders
  ['1, since every piece is one of a kind', '1, porque cada prenda es única'],
  ['the name of the buyer', 'el nombre del comprador'],
  ['a ship-by time such as {} or {}', 'una hora de envío como {} o {}'],
  ['a ship-by time', 'una hora de envío'],
  ['a day without a time, such as {} or {}', 'un día sin hora, como {} o {}'],
  ["a service of this shop's rate cards or nothing: {}", 'un servicio de las tarifas de esta tienda o nada: {}'],
  ['{} or later, since it may leave then', '{} o más tarde, porque puede salir entonces'],
  ['one or more SKUs', 'uno o más SKU'],
  ['the SKU of a piece that was imported', 'el SKU de una prenda importada'],
  [
    'a postcode of five digits such as {} (a spreadsheet may have dropped a leading zero)',
    'un código postal de cinco cifras como {} (una hoja de cálculo pudo quitar un cero inicial)',
  ],
  ['a postcode of up to ten letters and digits', 'un código postal de hasta diez letras y cifras'],
  ['a postcode', 'un código postal'],
  ['a country code such as {}, or its name', 'un código de país como {}, o su nombre'],
  [
    'the same as on line {}, where order {} begins, or nothing',
    'lo mismo que en la línea {}, donde empieza el pedido {}, o nada',
  ],
  ['at most {} pieces in one order; divide it into several', 'como mucho {} prendas en un pedido; divídalo en varios'],
  ['a piece that this order was not sent without', 'una prenda sin la que no se haya enviado este pedido'],
  ['{} pieces', '{} prendas'],
  ['an order that is not yet packed', 'un pedido que aún no se haya embalado'],
  ['order {}, which is {} ({} would change)', 'el pedido {}, que está {} (cambiaría {})'],
  ['being packed', 'embalándose'],
  ['packed', 'embalado'],
  ['cancelled', 'cancelado'],
  [
    'combined with others: take them apart on the page Orders first',
    'unido a otros: sepárelos antes en la página Pedidos',
  ],
  ['a piece that no other open order has', 'una prenda que no tenga otro pedido abierto'],
  ['{} on line {}, which belongs to {}', '{} en la línea {}, que es del {}'],
  ['order {}, which was imported before', 'pedido {}, importado antes'],
  ['order {} on line {}', 'pedido {} de la línea {}'],
  // a record, as the owner recognises it
  ['{}, {}: 1 piece', '{}, {}: 1 prenda'],
  ['{}, {}: {} pieces', '{}, {}: {} prendas'],
  ['{} and {} more', '{} y {} más'],
];

/** The Spanish of a text of an import, or null where there is none. */
export const importProblemInSpanish = translator(SPANISH);

/** A text of an import in a language; what has no translation stays as it is rather than be lost. */
export function importText(english: string, language: Language): string {
  return language === 'en' ? english : (importProblemInSpanish(english) ?? english);
}
