import type { EarlierWhy, NetworkAtStart, SectionName, TextKind } from '#shared/wire/settings.ts';
import type { Language } from '#shared/words/language.ts';

/** What the page "Settings" says. */
export interface SettingsWords {
  readonly title: string;
  readonly how: (folder: string) => string;
  readonly who: string;
  readonly nobody: string;
  readonly parts: string;
  readonly sections: Readonly<Record<SectionName, string>>;
  readonly forms: string;
  readonly asText: string;
  readonly earlier: string;
  readonly ofFile: (file: string) => string;
  readonly shared: string;
  readonly atNextStart: (names: string) => string;
  readonly network: Readonly<Record<NetworkAtStart, string>>;
  readonly whenIdle: (names: string) => string;
  readonly edit: string;
  readonly add: string;
  readonly copy: string;
  readonly remove: string;
  readonly reallyRemove: (id: string) => string;
  readonly keep: string;
  readonly entryId: string;
  readonly entryIdHint: string;
  readonly adding: string;
  readonly changing: (id: string) => string;
  readonly save: string;
  readonly cancel: string;
  readonly given: string;
  readonly choose: string;
  readonly yes: string;
  readonly no: string;
  readonly fallback: (value: string) => string;
  readonly hints: Readonly<Record<TextKind | 'amount' | 'per-cent' | 'price' | 'prices', string>>;
  readonly more: string;
  readonly up: string;
  readonly down: string;
  readonly range: (least: number | null, most: number | null) => string;
  readonly problem: (expected: string, found: string) => string;
  readonly problemsHere: string;
  readonly warningsHere: string;
  readonly written: string;
  readonly same: string;
  readonly stillWrong: string;
  readonly meanwhile: string;
  readonly readAgain: string;
  readonly check: string;
  readonly holds: string;
  readonly changes: string;
  readonly textOf: (file: string) => string;
  readonly line: string;
  readonly until: string;
  readonly why: Readonly<Record<EarlierWhy, (who: string | null) => string>>;
  readonly whyColumn: string;
  readonly noEarlier: string;
  readonly compare: string;
  readonly restore: string;
  readonly restoreTo: (when: string) => string;
  readonly marks: Readonly<Record<'same' | 'gone' | 'come' | 'gap', string>>;
  readonly noDifference: string;
  readonly trouble: (when: string) => string;
  readonly mend: string;
}

const en: SettingsWords = {
  title: 'Settings',
  how: (folder) =>
    `The shop’s files in ${folder}. A change is held against all files before it is written, counts at once, and leaves comments and the order of the file alone. What a file was before is kept.`,
  who: 'Who changes it',
  nobody: 'not said',
  parts: 'Parts of the settings',
  sections: {
    shop: 'Shop',
    containers: 'Containers',
    wraps: 'Wraps',
    garments: 'Garments',
    cloths: 'Cloths',
    recipes: 'Recipes',
    supplies: 'Supplies',
    'supply-rules': 'Shelf rules',
    staff: 'Staff',
    people: 'Guidance and care',
    benches: 'Benches and devices',
    imports: 'Files that come in',
    'rate-card': 'Rate card',
    services: 'Services',
  },
  forms: 'As a form',
  asText: 'As text',
  earlier: 'Earlier versions',
  ofFile: (file) => `in ${file}`,
  shared: 'This file lies outside the folder: another shop may use it too, and only this one is checked.',
  atNextStart: (names) =>
    `At the next start of the server: ${names}. Benches come and go, and voice changes, only then.`,
  network: {
    opens:
      'At the next start of the server the local network can reach it: over HTTPS, and everybody signs in. Set the owner’s PIN first (page “Access”); tablets then learn to trust it as the server’s console says.',
    closes: 'At the next start of the server only this computer can reach it. Tablets are shut out.',
    'names-change': 'The further names of this computer count from the next start of the server on.',
    'decided-elsewhere':
      'Who can reach the server is decided where it is started (BENCHFOLD_HOST or --lan), not by this setting.',
  },
  whenIdle: (names) => `As soon as it packs no order: ${names}. Its devices are then opened anew.`,
  edit: 'Change',
  add: 'Add',
  copy: 'Copy',
  remove: 'Remove',
  reallyRemove: (id) => `Remove “${id}”?`,
  keep: 'Keep it',
  entryId: 'id',
  entryIdHint: 'by which other files name it',
  adding: 'A new entry',
  changing: (id) => `Change “${id}”`,
  save: 'Save',
  cancel: 'Leave as it is',
  given: 'said in the file',
  choose: 'choose …',
  yes: 'yes',
  no: 'no',
  fallback: (value) => `${value} where it is left empty`,
  hints: {
    plain: '',
    mass: 'such as 15.9 oz or 451 g',
    length: 'such as 12 1/4 in or 31 cm',
    money: 'such as 4.10',
    day: 'such as 2026-11-25',
    time: 'such as 16:30',
    volume: 'such as 0.10 ft3 or 1728 in3',
    fraction: 'what is left, such as 2/3',
    postcodes: 'such as 558 or 550-567',
    amount: 'pieces as a number, or a length such as 66 m',
    'per-cent': 'such as 7.25',
    price: 'such as 4.10',
    prices:
      'one for each zone, with blanks between, such as 4.10 4.25; none where a zone is not served; or one for all',
  },
  more: 'Add a row',
  up: 'Up',
  down: 'Down',
  range: (least, most) =>
    least === null
      ? most === null
        ? ''
        : `at most ${most}`
      : most === null
        ? `${least} or more`
        : `${least} to ${most}`,
  problem: (expected, found) => `expected ${expected}; found ${found}`,
  problemsHere: 'Nothing was written. This does not hold:',
  warningsHere: 'Worth a look:',
  written: 'Written. What it was before is kept.',
  same: 'Nothing is different, so nothing was written.',
  stillWrong: 'Written. The shop goes on as it was until the other files hold too:',
  meanwhile: 'The file was changed meanwhile, so nothing was written. Read it again and make the change anew.',
  readAgain: 'Read again',
  check: 'Check',
  holds: 'This holds.',
  changes: 'What is different',
  textOf: (file) => `Text of ${file}`,
  line: 'line',
  until: 'so until',
  why: {
    changed: (who) => (who === null ? 'changed here' : `changed here by ${who}`),
    restored: (who) => (who === null ? 'an earlier version was restored' : `${who} restored an earlier version`),
    'by-hand': () => 'the file was changed by hand',
    removed: (who) => (who === null ? 'taken away' : `${who} took it away`),
  },
  whyColumn: 'then',
  noEarlier: 'This file was not changed yet.',
  compare: 'Compare',
  restore: 'Restore this version',
  restoreTo: (when) => `What restoring the version of ${when} would change`,
  marks: { same: '', gone: 'goes', come: 'comes', gap: '…' },
  noDifference: 'It is what the file is now.',
  trouble: (when) => `The shop’s files cannot be used as they lie there since ${when}. The shop goes on as it was.`,
  mend: 'Mend it',
};

const es: SettingsWords = {
  title: 'Ajustes',
  how: (folder) =>
    `Los archivos de la tienda en ${folder}. Un cambio se comprueba con todos los archivos antes de escribirlo, vale enseguida y respeta los comentarios y el orden del archivo. Se guarda cómo era antes.`,
  who: 'Quién lo cambia',
  nobody: 'sin decir',
  parts: 'Partes de los ajustes',
  sections: {
    shop: 'Tienda',
    containers: 'Embalajes',
    wraps: 'Envolturas',
    garments: 'Prendas',
    cloths: 'Tejidos',
    recipes: 'Recetas',
    supplies: 'Suministros',
    'supply-rules': 'Reglas del estante',
    staff: 'Personal',
    people: 'Guía y cuidado',
    benches: 'Mesas y aparatos',
    imports: 'Archivos que entran',
    'rate-card': 'Tarifa',
    services: 'Servicios',
  },
  forms: 'Como formulario',
  asText: 'Como texto',
  earlier: 'Versiones anteriores',
  ofFile: (file) => `en ${file}`,
  shared: 'Este archivo está fuera de la carpeta: otra tienda puede usarlo también, y solo se comprueba esta.',
  atNextStart: (names) =>
    `En el próximo arranque del servidor: ${names}. Las mesas aparecen o se quitan, y la voz cambia, solo entonces.`,
  network: {
    opens:
      'Desde el próximo arranque del servidor la red local puede llegar a él: por HTTPS, y todos se identifican. Ponga antes el PIN de la propiedad (página «Acceso»); las tabletas aprenden a confiar en él como dice la consola del servidor.',
    closes: 'Desde el próximo arranque del servidor solo este ordenador puede llegar a él. Las tabletas quedan fuera.',
    'names-change': 'Los otros nombres de este ordenador cuentan desde el próximo arranque del servidor.',
    'decided-elsewhere':
      'Quién puede llegar al servidor se decide donde se arranca (BENCHFOLD_HOST o --lan), no con este ajuste.',
  },
  whenIdle: (names) => `En cuanto no prepare ningún pedido: ${names}. Entonces se abren de nuevo sus aparatos.`,
  edit: 'Cambiar',
  add: 'Añadir',
  copy: 'Copiar',
  remove: 'Quitar',
  reallyRemove: (id) => `¿Quitar «${id}»?`,
  keep: 'Dejarlo',
  entryId: 'id',
  entryIdHint: 'con el que otros archivos lo nombran',
  adding: 'Una entrada nueva',
  changing: (id) => `Cambiar «${id}»`,
  save: 'Guardar',
  cancel: 'Dejarlo como está',
  given: 'indicado en el archivo',
  choose: 'elegir …',
  yes: 'sí',
  no: 'no',
  fallback: (value) => `${value} si se deja vacío`,
  hints: {
    plain: '',
    mass: 'como 15.9 oz o 451 g',
    length: 'como 12 1/4 in o 31 cm',
    money: 'como 4.10',
    day: 'como 2026-11-25',
    time: 'como 16:30',
    volume: 'como 0.10 ft3 o 1728 in3',
    fraction: 'lo que queda, como 2/3',
    postcodes: 'como 558 o 550-567',
    amount: 'piezas como número, o un largo como 66 m',
    'per-cent': 'como 7.25',
    price: 'como 4.10',
    prices: 'uno por zona, separados por espacios, como 4.10 4.25; none donde no se llega; o uno para todas',
  },
  more: 'Añadir una fila',
  up: 'Subir',
  down: 'Bajar',
  range: (least, most) =>
    least === null
      ? most === null
        ? ''
        : `como mucho ${most}`
      : most === null
        ? `${least} o más`
        : `de ${least} a ${most}`,
  problem: (expected, found) => `se espera ${expected}; hay ${found}`,
  problemsHere: 'No se escribió nada. Esto no vale:',
  warningsHere: 'Conviene mirarlo:',
  written: 'Escrito. Se guarda cómo era antes.',
  same: 'No hay nada distinto, así que no se escribió nada.',
  stillWrong: 'Escrito. La tienda sigue como estaba hasta que valgan también los demás archivos:',
  meanwhile: 'El archivo cambió entretanto, así que no se escribió nada. Vuelva a leerlo y repita el cambio.',
  readAgain: 'Leer otra vez',
  check: 'Comprobar',
  holds: 'Esto vale.',
  changes: 'Qué es distinto',
  textOf: (file) => `Texto de ${file}`,
  line: 'línea',
  until: 'así hasta',
  why: {
    changed: (who) => (who === null ? 'se cambió aquí' : `lo cambió aquí ${who}`),
    restored: (who) => (who === null ? 'se recuperó una versión anterior' : `${who} recuperó una versión anterior`),
    'by-hand': () => 'se cambió el archivo a mano',
    removed: (who) => (who === null ? 'se quitó' : `lo quitó ${who}`),
  },
  whyColumn: 'entonces',
  noEarlier: 'Este archivo no ha cambiado todavía.',
  compare: 'Comparar',
  restore: 'Recuperar esta versión',
  restoreTo: (when) => `Qué cambiaría al recuperar la versión de ${when}`,
  marks: { same: '', gone: 'se va', come: 'viene', gap: '…' },
  noDifference: 'Es como el archivo está ahora.',
  trouble: (when) =>
    `Los archivos de la tienda no se pueden usar como están desde ${when}. La tienda sigue como estaba.`,
  mend: 'Arreglarlo',
};

export const settingsWords: Readonly<Record<Language, SettingsWords>> = { en, es };
