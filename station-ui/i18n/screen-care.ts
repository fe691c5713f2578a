import type { Language } from '#shared/words/language.ts';
import type { AwakeTrouble } from '../bench/awake.ts';

/** What the bench says of its own screen: that it may go dark, and that its page is an older one. */
export interface ScreenCareWords {
  readonly awake: Readonly<Record<AwakeTrouble, string>>;
  readonly older: string;
  readonly renew: string;
}

const en: ScreenCareWords = {
  awake: {
    'not-offered':
      'This screen may go dark: the browser keeps it awake only on localhost or HTTPS. Set the tablet to stay on',
    refused: 'This screen may go dark: the tablet refuses to stay awake. Set it to stay on, and charge it',
  },
  older: 'The server has a newer page: it is loaded after this order',
  renew: 'load it now',
};

const es: ScreenCareWords = {
  awake: {
    'not-offered':
      'Esta pantalla puede apagarse: el navegador la mantiene encendida solo en localhost o HTTPS. Ajusta la tableta para que no se apague',
    refused:
      'Esta pantalla puede apagarse: la tableta no quiere seguir encendida. Ajústala para que no se apague, y cárgala',
  },
  older: 'El servidor tiene una página más nueva: se carga después de este pedido',
  renew: 'cargarla ahora',
};

export const screenCareWords: Readonly<Record<Language, ScreenCareWords>> = { en, es };
