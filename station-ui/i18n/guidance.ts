import { GUIDANCE_LEVELS } from '#shared/guidance/level.ts';
import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { Language } from '#shared/words/language.ts';
import type { Values } from './words.ts';

/** What the bench says of how much it tells. */
export interface GuidanceWords {
  readonly name: string;
  readonly levels: Readonly<Record<GuidanceLevel, string>>;
  readonly more: string;
  readonly less: string;
  readonly keyStep: (steps: number) => string;
  readonly notAsUsual: (usual: string) => string;
  readonly foldAs: (recipe: string) => string;
  readonly asUsual: string;
}

const en: GuidanceWords = {
  name: 'guidance',
  levels: { full: 'full', brief: 'brief', quiet: 'quiet' },
  more: 'more',
  less: 'less',
  keyStep: (steps) => `key step of ${String(steps)}`,
  notAsUsual: (usual) => `not as usual (${usual})`,
  foldAs: (recipe) => `Fold: ${recipe.toLowerCase()}`,
  asUsual: 'folded as usual',
};

const es: GuidanceWords = {
  name: 'guía',
  levels: { full: 'completa', brief: 'breve', quiet: 'mínima' },
  more: 'más',
  less: 'menos',
  keyStep: (steps) => `paso clave de ${String(steps)}`,
  notAsUsual: (usual) => `no como siempre (${usual})`,
  foldAs: (recipe) => `Dobla: ${recipe.toLowerCase()}`,
  asUsual: 'doblado como siempre',
};

export const guidanceWords: Readonly<Record<Language, GuidanceWords>> = { en, es };

/** The level that a notice names, in words. */
export function levelWord(values: Values, language: Language): string {
  const level = GUIDANCE_LEVELS.find((each) => each === values['level']);
  return level === undefined ? '' : guidanceWords[language].levels[level];
}
