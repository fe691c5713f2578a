import type { AccessRefusal, WireError } from '#shared/wire/events.ts';
import type { Language } from '#shared/words/language.ts';

/** Why an input was not taken. */
export const wireErrors: Readonly<Record<Language, Readonly<Record<WireError | AccessRefusal, string>>>> = {
  en: {
    'bad-request': 'The server did not understand this',
    'unknown-bench': 'The server knows no such bench',
    'not-simulated': 'This device is real: it cannot be played',
    'store-failed': 'The server could not store this; trying again',
    busy: 'The server is busy; trying again',
    'not-paired': 'This device is not paired with the shop',
    'signed-out': 'Sign in first; this waits until then',
    'not-allowed': 'Only a supervisor or the owner may do this',
  },
  es: {
    'bad-request': 'El servidor no lo ha entendido',
    'unknown-bench': 'El servidor no conoce esta mesa',
    'not-simulated': 'Este aparato es real: no se puede simular',
    'store-failed': 'El servidor no pudo guardarlo; se repite',
    busy: 'El servidor está ocupado; se repite',
    'not-paired': 'Este aparato no está emparejado con la tienda',
    'signed-out': 'Identifíquese primero; esto espera hasta entonces',
    'not-allowed': 'Solo lo puede hacer una persona encargada o la dueña',
  },
};
