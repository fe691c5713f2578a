import { CHANGE_DETAILS, type ChangeDetail } from '#shared/audit/changes.ts';
import { ROLES } from '#shared/access/roles.ts';
import type { Language } from '#shared/words/language.ts';
import { accessWords } from './access.ts';

const NAMES: Readonly<Record<Language, Readonly<Record<ChangeDetail, string>>>> = {
  en: {
    added: 'added',
    address: 'network address',
    as: 'as',
    at: 'of',
    before: 'before',
    bench: 'bench',
    by: 'by',
    changed: 'changed',
    days: 'days kept',
    device: 'paired device',
    entry: 'entry',
    fields: 'fields',
    file: 'file',
    follows: 'follows as',
    from: 'from',
    keys: 'keys',
    kind: 'kind',
    may: 'may',
    orders: 'orders',
    pieces: 'pieces',
    refused: 'refused',
    removed: 'removed',
    role: 'role',
    rows: 'rows',
    seconds: 'seconds to wait',
    simulated: 'simulated',
    taken: 'taken',
    task: 'task',
    to: 'to',
    user: 'user of the computer',
    while: 'while the station was',
    with: 'with',
  },
  es: {
    added: 'añadidos',
    address: 'dirección de red',
    as: 'como',
    at: 'de',
    before: 'antes',
    bench: 'mesa',
    by: 'por',
    changed: 'cambiados',
    days: 'días guardado',
    device: 'aparato emparejado',
    entry: 'entrada',
    fields: 'campos',
    file: 'archivo',
    follows: 'sigue como',
    from: 'de',
    keys: 'claves',
    kind: 'clase',
    may: 'puede',
    orders: 'pedidos',
    pieces: 'prendas',
    refused: 'rechazados',
    removed: 'quitados',
    role: 'función',
    rows: 'filas',
    seconds: 'segundos de espera',
    simulated: 'simulado',
    taken: 'tomados',
    task: 'tarea',
    to: 'a',
    user: 'usuario del ordenador',
    while: 'mientras la estación estaba',
    with: 'con',
  },
};

/** What stands there as a word of the program; everything else is an id, a count or a time, and the same in each language. */
const VALUES: Readonly<Record<Language, Readonly<Record<string, string>>>> = {
  en: { true: 'yes', false: 'no', 'set-up': 'the one who set the shop up', 'set-up code': 'code of the console' },
  es: {
    added: 'añadido',
    removed: 'quitado',
    stopped: 'parada',
    true: 'sí',
    false: 'no',
    badge: 'tarjeta',
    'pair code': 'código de emparejar',
    'set-up code': 'código de la consola',
    'set-up': 'quien puso la tienda en marcha',
    token: 'token',
    'this computer': 'este ordenador',
    'local network': 'red local',
    none: 'nada',
  },
};

/** "keys: staff.tobias.role; while the station was: stopped"; a name that is not known, of another version, as it is. */
export function detailWords(details: Readonly<Record<string, string>>, language: Language): string {
  return Object.entries(details)
    .map(([name, value]) => {
      const known = CHANGE_DETAILS.find((each) => each === name);
      const role = ROLES.find((each) => each === value);
      const said = role === undefined ? (VALUES[language][value] ?? value) : accessWords[language].roles[role];
      return `${known === undefined ? name : NAMES[language][known]}: ${said}`;
    })
    .join('; ');
}
