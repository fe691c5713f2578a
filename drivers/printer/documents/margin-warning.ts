import type { Language } from '#shared/words/language.ts';
import { row, rule, text, type Block } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

/** The weight lies within its margin of error of the next bracket, or beyond it. All texts are ready to print. */
export interface MarginWarning {
  readonly verdict: 'close' | 'over';
  readonly ceiling: string;
  readonly reading: string;
  readonly toCome: string;
  readonly uncertainty: string;
  readonly choices: readonly { readonly name: string; readonly cost: string }[];
}

/** The warning in words: what is the matter, the weights it comes from, and what each way out costs. */
export function marginWarningBlocks(warning: MarginWarning, language: Language): readonly Block[] {
  const words = PAPER_WORDS[language];
  return [
    { kind: 'warning', text: warning.verdict === 'over' ? words.over : words.close },
    row(words.scaleShows, warning.reading),
    row(words.stillToCome, warning.toCome),
    row(words.canBeWrongBy, `± ${warning.uncertainty}`),
    row(words.ceiling, warning.ceiling, true),
    rule,
    text(words.choices, { bold: true }),
    ...warning.choices.map((choice) => row(choice.name, choice.cost)),
  ];
}
