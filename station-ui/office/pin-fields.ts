import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { AccessWords } from '../i18n/access.ts';

/** A PIN to type, and where it is a new one the same again. */
export function pinFields(words: AccessWords, twice: boolean): TemplateResult {
  const field = (name: string, said: string) =>
    html`<label
      ><span>${said}</span
      ><input name=${name} type="password" inputmode="numeric" maxlength="12" autocomplete="off" required
    /></label>`;
  return html`${field('pin', words.pin)} ${twice ? field('again', words.pinAgain) : null}`;
}

/** What was typed; null where the two are not the same. */
export function readPins(form: HTMLFormElement): string | null {
  const typed = (name: string) => form.querySelector<HTMLInputElement>(`input[name="${name}"]`)?.value ?? null;
  const [pin, again] = [typed('pin') ?? '', typed('again')];
  return again === null || again === pin ? pin : null;
}
