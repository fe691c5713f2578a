import type { Language } from '#shared/words/language.ts';

interface LeaveWords {
  readonly question: string;
  readonly stay: string;
  readonly leave: string;
}

/** What is asked before changes are lost. */
export const leaveWords: Readonly<Record<Language, LeaveWords>> = {
  en: {
    question: 'Something here was changed and is not saved. Leave it, and lose the change?',
    stay: 'Stay here',
    leave: 'Leave without saving',
  },
  es: {
    question: 'Algo aquí ha cambiado y no está guardado. ¿Salir y perder el cambio?',
    stay: 'Seguir aquí',
    leave: 'Salir sin guardar',
  },
};
