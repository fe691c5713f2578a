import type { ChangePlace, ChangeWhat } from '#shared/audit/changes.ts';
import type { HealthPartName, HealthReason, LogLevel } from '#shared/wire/inside.ts';
import type { Language } from '#shared/words/language.ts';
import { changeWords } from './changes.ts';

/** What the office page about the station itself says. */
export interface InsideWords {
  readonly part: string;
  readonly health: string;
  readonly parts: Readonly<Record<HealthPartName, string>>;
  readonly well: string;
  readonly reasons: Readonly<Record<HealthReason, string>>;
  readonly log: string;
  readonly logHow: string;
  readonly levels: Readonly<Record<LogLevel, string>>;
  readonly diagnostics: string;
  readonly diagnosticsHow: string;
  readonly take: string;
  readonly changes: string;
  readonly changesHow: string;
  readonly older: string;
  readonly columns: Readonly<Record<'at' | 'what' | 'about' | 'who' | 'from' | 'details', string>>;
  readonly nobody: string;
  readonly whats: Readonly<Record<ChangeWhat, string>>;
  readonly places: Readonly<Record<ChangePlace, string>>;
}

const en: InsideWords = {
  part: 'The station',
  health: 'How it is',
  parts: {
    store: 'Store',
    disk: 'Disk',
    devices: 'Devices',
    prints: 'Prints',
    labels: 'Labels from outside',
    loop: 'Answering in time',
  },
  well: 'well',
  reasons: {
    'store-not-read': 'the store cannot be read',
    'store-not-written': 'nothing can be stored: the benches refuse every input',
    'disk-nearly-full': 'less than half a gigabyte is free',
    'disk-not-read': 'the disk cannot be read',
    'disk-not-written': 'the disk takes nothing: it is full, read-only or broken',
    'scale-away': 'a scale is away',
    'scanner-away': 'a scanner is away',
    'printer-away': 'a printer is away',
    'label-printer-away': 'a label printer is away',
    'prints-unsettled': 'of a print nobody knows whether it came out',
    'labels-not-sent': 'nothing can be sent to whoever makes the labels',
    'loop-held-up': 'something holds it up for longer than a fifth of a second',
  },
  log: 'How much goes into the log',
  logHow: 'Until the station is started anew. More is only for looking after a fault.',
  levels: { error: 'faults', warn: 'faults and warnings', info: 'as usual', debug: 'much', trace: 'everything' },
  diagnostics: 'For whoever helps from far away',
  diagnosticsHow:
    'Versions, choices, states and counts, as one file. No name, address, order, number or secret is in it.',
  take: 'Save the file',
  changes: 'Who changed what',
  changesHow: 'The newest first.',
  older: 'Show older ones',
  columns: { at: 'When', what: 'What', about: 'Of what', who: 'Who', from: 'Where', details: 'More' },
  nobody: 'nobody had signed in',
  whats: {
    'settings-changed': 'Settings changed',
    'settings-restored': 'Settings taken back',
    'prices-imported': 'Prices brought in',
    'prices-read-again': 'Files read again',
    'order-cancelled': 'Order cancelled',
    'order-reopened': 'Order taken back',
    'order-released': 'Order released',
    'order-sent-in-part': 'An order was sent in part',
    'order-rest-here': 'The rest of an order was said to be there',
    'order-address': 'Address changed',
    'orders-combined': 'Orders made one',
    'orders-parted': 'Orders taken apart',
    'orders-imported': 'Orders brought in',
    'pieces-imported': 'Pieces brought in',
    'corrections-imported': 'Corrections brought in',
    'lessons-reset': 'What was learned forgotten',
    'stock-changed': 'Supplies changed',
    'skill-withdrawn': 'Skill withdrawn',
    'token-made': 'Token made',
    'token-revoked': 'Token revoked',
    'device-stood-in': 'Device simulated or back',
    'pin-set': 'PIN set',
    'pin-removed': 'PIN removed',
    'device-paired': 'Device paired',
    'device-removed': 'Device removed',
    'signed-in-failed': 'Signing in failed',
    'locked-out': 'Locked out',
    'buyer-purged': 'A buyer’s data removed',
    'buyer-exported': 'A buyer’s data handed out',
    'kept-time-over': 'Kept its time, removed',
    'backup-made': 'Backup made',
    'store-restored': 'Store restored',
    'store-moved': 'Store moved',
    'log-level': 'Log level changed',
    'diagnostics-taken': 'File for a helper taken',
    ...changeWords.en,
  },
  places: {
    office: 'office',
    bench: 'bench',
    console: 'command line',
    folder: 'watched folder',
    station: 'the station itself',
  },
};

const es: InsideWords = {
  part: 'La estación',
  health: 'Cómo está',
  parts: {
    store: 'Almacén de datos',
    disk: 'Disco',
    devices: 'Aparatos',
    prints: 'Impresiones',
    labels: 'Etiquetas de fuera',
    loop: 'Responder a tiempo',
  },
  well: 'bien',
  reasons: {
    'store-not-read': 'no se puede leer el almacén de datos',
    'store-not-written': 'no se puede guardar nada: las mesas rechazan toda entrada',
    'disk-nearly-full': 'queda menos de medio gigabyte libre',
    'disk-not-read': 'no se puede leer el disco',
    'disk-not-written': 'el disco no admite nada: está lleno, es de solo lectura o está roto',
    'scale-away': 'falta una balanza',
    'scanner-away': 'falta un lector',
    'printer-away': 'falta una impresora',
    'label-printer-away': 'falta una impresora de etiquetas',
    'prints-unsettled': 'de una impresión nadie sabe si salió',
    'labels-not-sent': 'no se puede enviar nada a quien hace las etiquetas',
    'loop-held-up': 'algo la retiene más de un quinto de segundo',
  },
  log: 'Cuánto va al registro',
  logHow: 'Hasta que la estación arranque de nuevo. Más, solo para buscar un fallo.',
  levels: { error: 'fallos', warn: 'fallos y avisos', info: 'lo habitual', debug: 'mucho', trace: 'todo' },
  diagnostics: 'Para quien ayuda desde lejos',
  diagnosticsHow:
    'Versiones, opciones, estados y cantidades, en un archivo. No lleva nombres, direcciones, pedidos, números ni secretos.',
  take: 'Guardar el archivo',
  changes: 'Quién cambió qué',
  changesHow: 'Lo más nuevo primero.',
  older: 'Mostrar anteriores',
  columns: { at: 'Cuándo', what: 'Qué', about: 'De qué', who: 'Quién', from: 'Dónde', details: 'Más' },
  nobody: 'nadie había iniciado sesión',
  whats: {
    'settings-changed': 'Ajustes cambiados',
    'settings-restored': 'Ajustes recuperados',
    'prices-imported': 'Precios traídos',
    'prices-read-again': 'Archivos leídos de nuevo',
    'order-cancelled': 'Pedido cancelado',
    'order-reopened': 'Pedido recuperado',
    'order-released': 'Pedido liberado',
    'order-sent-in-part': 'Se envió una parte de un pedido',
    'order-rest-here': 'Se dijo que el resto de un pedido está',
    'order-address': 'Dirección cambiada',
    'orders-combined': 'Pedidos unidos',
    'orders-parted': 'Pedidos separados',
    'orders-imported': 'Pedidos traídos',
    'pieces-imported': 'Prendas traídas',
    'corrections-imported': 'Correcciones traídas',
    'lessons-reset': 'Lo aprendido, olvidado',
    'stock-changed': 'Existencias cambiadas',
    'skill-withdrawn': 'Habilidad retirada',
    'token-made': 'Clave creada',
    'token-revoked': 'Clave anulada',
    'device-stood-in': 'Aparato simulado o de vuelta',
    'pin-set': 'PIN puesto',
    'pin-removed': 'PIN quitado',
    'device-paired': 'Dispositivo emparejado',
    'device-removed': 'Dispositivo quitado',
    'signed-in-failed': 'Inicio de sesión fallido',
    'locked-out': 'Bloqueado',
    'buyer-purged': 'Datos de un comprador eliminados',
    'buyer-exported': 'Datos de un comprador entregados',
    'kept-time-over': 'Guardado su tiempo, eliminado',
    'backup-made': 'Copia de seguridad hecha',
    'store-restored': 'Datos restaurados',
    'store-moved': 'Datos trasladados',
    'log-level': 'Nivel del registro cambiado',
    'diagnostics-taken': 'Archivo de ayuda sacado',
    ...changeWords.es,
  },
  places: {
    office: 'oficina',
    bench: 'mesa',
    console: 'línea de comandos',
    folder: 'carpeta vigilada',
    station: 'la propia estación',
  },
};

export const insideWords: Readonly<Record<Language, InsideWords>> = { en, es };
