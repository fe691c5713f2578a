import type { CustomsGap } from '#shared/wire/label.ts';
import type { Language } from '#shared/words/language.ts';
import { benchLabelWords } from '../i18n/labels.ts';

/** What the customs must be told, one sentence for each piece. */
export function gapsInWords(gaps: readonly CustomsGap[], language: Language): readonly string[] {
  const said = benchLabelWords[language];
  return gaps.map(({ title, missing }) => said.gap(title, missing.map((fact) => said.facts[fact]).join(', ')));
}
