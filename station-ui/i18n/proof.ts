import type { PhotoSubject, PhotoTrouble } from '#shared/proof/types.ts';
import type { Language } from '#shared/words/language.ts';

/** What photos of the work say, at the bench and in the office. */
export interface ProofWords {
  readonly opening: Readonly<Record<PhotoSubject, string>>;
  readonly counting: (seconds: number) => Readonly<Record<PhotoSubject, string>>;
  readonly taken: Readonly<Record<PhotoSubject, string>>;
  readonly missed: (why: string) => string;
  readonly troubles: Readonly<Record<PhotoTrouble, string>>;
  readonly waiting: (count: number) => string;
  readonly again: string;
  readonly preview: string;
  readonly photos: string;
  readonly count: (count: number) => string;
  readonly subjects: Readonly<Record<PhotoSubject, string>>;
  readonly shows: (subject: string, parcel: number, order: string) => string;
  readonly takenBy: (when: string, bench: string, who: string | null) => string;
  readonly weighed: (mass: string) => string;
  readonly keptUntil: (day: string) => string;
  readonly removed: (when: string) => string;
  readonly none: (why: string) => string;
  readonly large: string;
  readonly close: string;
  readonly download: string;
}

const en: ProofWords = {
  opening: { packed: 'Photo of the pieces: opening the camera …', closed: 'Photo of the parcel: opening the camera …' },
  counting: (seconds) => ({
    packed: `Photo of the pieces in ${String(seconds)}`,
    closed: `Photo of the parcel in ${String(seconds)}`,
  }),
  taken: { packed: 'Photo of the pieces taken', closed: 'Photo of the parcel taken' },
  missed: (why) => `No photo. ${why} Go on packing.`,
  troubles: {
    'page-not-secure':
      'The browser gives no camera to a page that came over http://: open it over https://, or as localhost on the station’s own computer.',
    forbidden: 'The browser was told to give no camera: allow it beside the address.',
    'none-found': 'No camera was found.',
    'in-use': 'The camera cannot be opened: another program may have it.',
    unplugged: 'The camera was pulled out or taken away.',
    'too-old': 'This browser is too old for it.',
    'no-picture': 'No picture came: see whether the browser asks for the camera, or the lens is covered.',
    'not-encoded': 'The picture could not be made small enough.',
    'tablet-full': 'Too many photos wait here for the station.',
    'not-a-photo': 'What came to the station was no photo.',
  },
  waiting: (count) => (count === 1 ? '1 photo waits for the station' : `${String(count)} photos wait for the station`),
  again: 'Take it again',
  preview: 'what the camera sees',
  photos: 'Photos',
  count: (count) => (count === 1 ? '1 photo' : `${String(count)} photos`),
  subjects: { packed: 'Pieces in their container', closed: 'Closed parcel' },
  shows: (subject, parcel, order) => `${subject}, parcel ${String(parcel)} of order ${order}`,
  takenBy: (when, bench, who) => `${when}, ${bench}${who === null ? '' : `, ${who}`}`,
  weighed: (mass) => `weighed ${mass}`,
  keptUntil: (day) => `kept until ${day}`,
  removed: (when) => `Was kept its time and removed, ${when}`,
  none: (why) => `No photo: ${why}`,
  large: 'Show large',
  close: 'Close',
  download: 'Save as a file',
};

const es: ProofWords = {
  opening: { packed: 'Foto de las prendas: abriendo la cámara …', closed: 'Foto del paquete: abriendo la cámara …' },
  counting: (seconds) => ({
    packed: `Foto de las prendas en ${String(seconds)}`,
    closed: `Foto del paquete en ${String(seconds)}`,
  }),
  taken: { packed: 'Foto de las prendas hecha', closed: 'Foto del paquete hecha' },
  missed: (why) => `Sin foto. ${why} Sigue empaquetando.`,
  troubles: {
    'page-not-secure':
      'El navegador no da cámara a una página http://: ábrela por https://, o como localhost en el propio ordenador.',
    forbidden: 'El navegador tiene prohibida la cámara: permítela junto a la dirección.',
    'none-found': 'No hay cámara.',
    'in-use': 'La cámara no se abre: quizá la usa otro programa.',
    unplugged: 'Se ha quitado la cámara.',
    'too-old': 'Este navegador es demasiado antiguo.',
    'no-picture': 'No llegó ninguna imagen: mira si el navegador pregunta por la cámara, o si el objetivo está tapado.',
    'not-encoded': 'La imagen no se pudo reducir lo bastante.',
    'tablet-full': 'Demasiadas fotos esperan aquí a la estación.',
    'not-a-photo': 'Lo que llegó a la estación no era una foto.',
  },
  waiting: (count) => (count === 1 ? '1 foto espera a la estación' : `${String(count)} fotos esperan a la estación`),
  again: 'Repetir la foto',
  preview: 'lo que ve la cámara',
  photos: 'Fotos',
  count: (count) => (count === 1 ? '1 foto' : `${String(count)} fotos`),
  subjects: { packed: 'Prendas en su embalaje', closed: 'Paquete cerrado' },
  shows: (subject, parcel, order) => `${subject}, paquete ${String(parcel)} del pedido ${order}`,
  takenBy: (when, bench, who) => `${when}, ${bench}${who === null ? '' : `, ${who}`}`,
  weighed: (mass) => `pesó ${mass}`,
  keptUntil: (day) => `se guarda hasta ${day}`,
  removed: (when) => `Se guardó su tiempo y se eliminó, ${when}`,
  none: (why) => `Sin foto: ${why}`,
  large: 'Ver en grande',
  close: 'Cerrar',
  download: 'Guardar como archivo',
};

export const proofWords: Readonly<Record<Language, ProofWords>> = { en, es };
