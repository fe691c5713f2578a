import type { Language } from '#shared/words/language.ts';

export interface IntakeWords {
  readonly title: string;
  readonly how: (address: string) => string;
  readonly name: string;
  readonly nameHint: string;
  readonly may: string;
  readonly make: string;
  readonly once: (name: string) => string;
  readonly putAway: string;
  readonly columns: { readonly name: string; readonly may: string; readonly made: string; readonly used: string };
  readonly never: string;
  readonly revoke: string;
  readonly revokeFor: (name: string) => string;
  readonly really: (name: string) => string;
  readonly keep: string;
  readonly revoked: string;
}

const en: IntakeWords = {
  title: 'Sent by other systems',
  how: (address) => `Pieces and orders are taken at ${address}pieces and ${address}orders from whoever has a token.`,
  name: 'For which system',
  nameHint: 'such as: web shop',
  may: 'It may send',
  make: 'Make a token',
  once: (name) => `The token for ${name}. It is shown this once: copy it now.`,
  putAway: 'I have copied it',
  columns: { name: 'System', may: 'May send', made: 'Made', used: 'Last used' },
  never: 'never',
  revoke: 'Revoke',
  revokeFor: (name) => `Revoke the token for ${name}`,
  really: (name) => `Nothing will be taken from ${name} any more. Revoke?`,
  keep: 'Keep',
  revoked: 'revoked',
};

const es: IntakeWords = {
  title: 'Enviado por otros sistemas',
  how: (address) => `Se reciben prendas y pedidos en ${address}pieces y ${address}orders de quien tenga una clave.`,
  name: 'Para qué sistema',
  nameHint: 'por ejemplo: tienda web',
  may: 'Puede enviar',
  make: 'Crear una clave',
  once: (name) => `La clave para ${name}. Solo se muestra esta vez: cópiela ahora.`,
  putAway: 'Ya la he copiado',
  columns: { name: 'Sistema', may: 'Puede enviar', made: 'Creada', used: 'Último uso' },
  never: 'nunca',
  revoke: 'Revocar',
  revokeFor: (name) => `Revocar la clave para ${name}`,
  really: (name) => `No se aceptará nada más de ${name}. ¿Revocar?`,
  keep: 'Conservar',
  revoked: 'revocada',
};

export const intakeWords: Readonly<Record<Language, IntakeWords>> = { en, es };
