import type { ChangeWhat } from '#shared/audit/changes.ts';
import type { Language } from '#shared/words/language.ts';

type Later = Extract<
  ChangeWhat,
  | 'data-taken-out'
  | 'shop-begun'
  | 'settings-by-hand'
  | 'person-added'
  | 'person-removed'
  | 'role-changed'
  | 'badge-changed'
  | 'device-changed'
  | 'device-told'
  | 'network-set'
  | 'reference-checked'
  | 'print-settled'
  | 'pairing-code-made'
  | 'import-source-kept'
  | 'import-source-removed'
  | 'label-sent-again'
  | 'label-numbers-read'
  | 'sack-closed'
  | 'parcel-kept-here'
  | 'voice-enrolled'
  | 'voice-forgotten'
>;

/** What devices, people, exports and settings by hand are called in the record of changes. */
export const changeWords: Readonly<Record<Language, Readonly<Record<Later, string>>>> = {
  en: {
    'data-taken-out': 'Data taken out as a file',
    'shop-begun': 'Shop begun',
    'settings-by-hand': 'Files changed by hand',
    'person-added': 'Person added',
    'person-removed': 'Person removed',
    'role-changed': 'Role changed',
    'badge-changed': 'Badge changed',
    'device-changed': 'Device set up otherwise',
    'device-told': 'Scale told to do something',
    'network-set': 'Who can reach the station, from the next start',
    'reference-checked': 'Known mass weighed',
    'print-settled': 'Print said to be done or made again',
    'pairing-code-made': 'Code for pairing made',
    'import-source-kept': 'Columns of a file kept',
    'import-source-removed': 'Columns of a file forgotten',
    'label-sent-again': 'Asked for a label again',
    'label-numbers-read': 'Numbers of labels read in',
    'sack-closed': 'Sack handed over',
    'parcel-kept-here': 'Parcel kept here',
    'voice-enrolled': 'Voice learned',
    'voice-forgotten': 'Voice forgotten',
  },
  es: {
    'data-taken-out': 'Datos sacados en un archivo',
    'shop-begun': 'Tienda empezada',
    'settings-by-hand': 'Archivos cambiados a mano',
    'person-added': 'Persona añadida',
    'person-removed': 'Persona quitada',
    'role-changed': 'Papel cambiado',
    'badge-changed': 'Tarjeta cambiada',
    'device-changed': 'Aparato puesto de otra forma',
    'device-told': 'Orden dada a la balanza',
    'network-set': 'Quién puede llegar a la estación, desde el próximo arranque',
    'reference-checked': 'Peso conocido pesado',
    'print-settled': 'Impresión dada por hecha o repetida',
    'pairing-code-made': 'Código para emparejar hecho',
    'import-source-kept': 'Columnas de un archivo guardadas',
    'import-source-removed': 'Columnas de un archivo olvidadas',
    'label-sent-again': 'Etiqueta pedida otra vez',
    'label-numbers-read': 'Números de etiquetas leídos',
    'sack-closed': 'Saco entregado',
    'parcel-kept-here': 'Paquete se queda aquí',
    'voice-enrolled': 'Voz aprendida',
    'voice-forgotten': 'Voz olvidada',
  },
};
