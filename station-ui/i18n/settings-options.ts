import { COMMANDS, type Command } from '#shared/run/commands.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import type { Language } from '#shared/words/language.ts';
import { ROW_OPTIONS } from './settings-row-options.ts';

/** What a choice of the shop's files means; the file's own word stands beside it. */
const OPTIONS: Readonly<Record<string, readonly [en: string, es: string]>> = {
  en: ['English', 'inglés'],
  es: ['Spanish', 'español'],
  oz: ['ounces', 'onzas'],
  lb: ['pounds', 'libras'],
  g: ['grams', 'gramos'],
  kg: ['kilograms', 'kilogramos'],
  in: ['inches', 'pulgadas'],
  cm: ['centimetres', 'centímetros'],
  mm: ['millimetres', 'milímetros'],
  'set-aside': ['set aside', 'apartar'],
  'item-missing': ['a piece is missing', 'falta una prenda'],
  'go-without': ['send it without a piece', 'enviarlo sin una prenda'],
  'item-damaged': ['a piece is damaged', 'prenda dañada'],
  'pay-next-bracket': ['pay the next bracket', 'pagar el tramo siguiente'],
  'print-again': ['print again', 'imprimir otra vez'],
  release: ['return the order', 'devolver el pedido'],
  must: ['is always kept', 'se cumple siempre'],
  prefer: ['is kept where it can be', 'se cumple si se puede'],
  pouch: ['pouch', 'sobre'],
  card: ['card mailer', 'sobre de cartón'],
  carton: ['carton', 'caja'],
  'pockets-lithium': ['pockets: lithium cells, aerosols', 'bolsillos: pilas de litio, aerosoles'],
  'film-bag-children': ['film bag and children', 'bolsa de plástico y niños'],
  knife: ['knife', 'cuchillo'],
  lifting: ['lifting', 'levantar peso'],
  'lifting-care': ['lifting with care', 'levantar con cuidado'],
  'must-not-press': ['must not be pressed', 'no se debe aplastar'],
  top: ['top', 'prenda de arriba'],
  legs: ['legs', 'perneras'],
  skirt: ['skirt', 'falda'],
  dress: ['dress', 'vestido'],
  strip: ['strip', 'tira'],
  block: ['block, not folded', 'bloque, no se dobla'],
  collar: ['collar', 'cuello'],
  placket: ['button placket', 'tapeta'],
  zip: ['zip', 'cremallera'],
  'chest-pocket': ['chest pocket', 'bolsillo de pecho'],
  'front-pockets': ['front pockets', 'bolsillos delanteros'],
  waistband: ['waistband', 'cinturilla'],
  cuffs: ['cuffs', 'puños'],
  lapels: ['lapels', 'solapas'],
  packer: ['packer', 'empaqueta'],
  supervisor: ['supervisor', 'supervisa'],
  owner: ['owner', 'dueña o dueño'],
  full: ['in full', 'entero'],
  short: ['short', 'corto'],
  brief: ['brief', 'breve'],
  quiet: ['quiet', 'callado'],
  good: ['good', 'bien'],
  fair: ['fair', 'regular'],
  poor: ['poor', 'mal'],
  off: ['goes on', 'sigue'],
  warn: ['comes with a warning', 'lleva un aviso'],
  'gate:block': ['is not given', 'no se da'],
  simulated: ['simulated', 'simulado'],
  tcp: ['over the network', 'por la red'],
  serial: ['serial line', 'línea serie'],
  'serial-adapter': ['serial line by its USB adapter', 'línea serie por su adaptador USB'],
  'device-file': ['device file', 'archivo de aparato'],
  hid: ['USB, at this computer', 'USB, en este equipo'],
  'hid-on-screen': ['USB, at the bench’s screen', 'USB, en la pantalla de la mesa'],
  hb44: ['NIST Handbook 44, class III', 'NIST Handbook 44, clase III'],
  r76: ['OIML R 76, class III', 'OIML R 76, clase III'],
  own: ['your own figure', 'valor propio'],
  'in-service': ['in service', 'en servicio'],
  acceptance: ['acceptance', 'aceptación'],
  verification: ['verification', 'verificación'],
  none: ['answers nothing', 'no responde'],
  escpos: ['ESC/POS', 'ESC/POS'],
  zpl: ['ZPL', 'ZPL'],
  screen: ['of the bench’s screen', 'de la pantalla de la mesa'],
  alsa: ['plugged into this computer', 'conectado a este equipo'],
  program: ['a program', 'un programa'],
  always: ['always', 'siempre'],
  'push-to-talk': ['while a key is held', 'mientras se pulsa una tecla'],
  'after-wake-phrase': ['after the wake phrase', 'tras la frase de aviso'],
  point: ['point', 'punto'],
  comma: ['comma', 'coma'],
};

/** What a choice is called; a number stands for itself, and what has no words for the file's own. */
export function optionName(path: string, value: string | number, language: Language): string {
  const steps = path.split('.');
  const key = steps.at(-1) === 'key' ? (steps.at(-2) ?? '') : (steps.at(-1) ?? '');
  const found = ROW_OPTIONS[`${key}:${String(value)}`] ?? OPTIONS[`${key}:${String(value)}`];
  if (found === undefined && key === 'footSwitchKeys' && isCommand(value)) return PHRASES[language][value];
  return (found ?? OPTIONS[String(value)] ?? ROW_OPTIONS[String(value)])?.[language === 'en' ? 0 : 1] ?? String(value);
}

function isCommand(value: string | number): value is Command {
  return COMMANDS.some((each) => each === value);
}

/** Whether there are words for a choice. */
export function hasOptionName(path: string, value: string | number): boolean {
  if (typeof value === 'number' || optionName(path, value, 'en') !== value) return true;
  return value in OPTIONS || value in ROW_OPTIONS;
}
