import type { Command } from '#shared/run/commands.ts';
import type { Language } from './language.ts';

/** What each command is called: on its button, on its card and when it is spoken. No two may sound alike. */
export const COMMAND_WORDS: Readonly<Record<Language, Readonly<Record<Command, string>>>> = {
  en: {
    next: 'next item',
    back: 'previous',
    repeat: 'say again',
    'set-aside': 'set aside',
    help: 'call for help',
    'too-tight': 'too tight',
    'item-missing': 'item missing',
    'item-damaged': 'item damaged',
    'zero-scale': 'zero the scale',
    'weigh-again': 'weigh again',
    'make-lighter': 'make lighter',
    'pay-next-bracket': 'next bracket',
    'print-again': 'print again',
    confirm: 'confirm',
    cancel: 'cancel that',
  },
  es: {
    next: 'siguiente',
    back: 'anterior',
    repeat: 'repetir',
    'set-aside': 'apartar',
    help: 'pedir ayuda',
    'too-tight': 'no cabe',
    'item-missing': 'falta una prenda',
    'item-damaged': 'prenda dañada',
    'zero-scale': 'poner a cero',
    'weigh-again': 'pesar otra vez',
    'make-lighter': 'aligerar',
    'pay-next-bracket': 'tramo siguiente',
    'print-again': 'imprimir otra vez',
    confirm: 'confirmar',
    cancel: 'cancelar',
  },
};
