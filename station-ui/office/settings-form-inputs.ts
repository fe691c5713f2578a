import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Field, Plain } from '#shared/wire/settings.ts';
import type { Language } from '#shared/words/language.ts';
import { optionName } from '../i18n/settings-options.ts';
import { settingsWords } from '../i18n/settings.ts';
import { asNumber, asPrices, emptied, pricesTyped } from './settings-draft.ts';
import type { Form, Place } from './settings-form-lists.ts';

/** Where one plain value is given. @param wrong the id of what is held against it */
export function inputPart(form: Form, field: Field, { path, named }: Place, wrong: string | null): TemplateResult {
  const { shape } = field;
  const value = form.valueAt(path);
  const invalid = wrong === null ? 'false' : 'true';
  const describedBy = wrong ?? '';
  switch (shape.is) {
    case 'choice':
      return choice(form, field, shape.options, { path, named }, wrong);
    case 'yes-no':
      return choice(form, field, [true, false], { path, named }, wrong);
    case 'lines':
      return html`<textarea
        spellcheck="false"
        rows=${String(Array.isArray(value) ? Math.min(12, value.length + 1) : 2)}
        aria-invalid=${invalid}
        aria-describedby=${describedBy}
        .value=${live(Array.isArray(value) ? (value as Plain[]).map(String).join('\n') : '')}
        @change=${(event: Event) => {
          const lines = typed(event)
            .split('\n')
            .filter((line) => line.trim() !== '');
          form.set(path, lines.length === 0 ? emptied(field) : lines);
        }}
      ></textarea>`;
    default:
      return html`<input
        autocomplete="off"
        inputmode=${shape.is === 'text' ? 'text' : 'decimal'}
        aria-invalid=${invalid}
        aria-describedby=${describedBy}
        .value=${live(shape.is === 'prices' || shape.is === 'figure' ? pricesTyped(value) : plainTyped(value))}
        @change=${(event: Event) => {
          const text = typed(event);
          if (text === '') form.set(path, emptied(field));
          else if (shape.is === 'prices') form.set(path, asPrices(text));
          else form.set(path, shape.is === 'text' ? text : asNumber(text));
        }}
      />`;
  }
}

function choice(
  form: Form,
  field: Field,
  options: readonly Plain[],
  { path, named }: Pick<Place, 'path' | 'named'>,
  wrong: string | null,
): TemplateResult {
  const words = settingsWords[form.language];
  const value = form.valueAt(path);
  const name = (option: Plain) =>
    typeof option === 'boolean' ? words[option ? 'yes' : 'no'] : optionName(named, option as string, form.language);
  return html`<select
    aria-invalid=${wrong === null ? 'false' : 'true'}
    aria-describedby=${wrong ?? ''}
    @change=${(event: Event) => {
      const chosen = typed(event) === '' ? undefined : options[Number(typed(event))];
      form.set(path, chosen ?? emptied(field));
    }}
  >
    ${
      field.empty !== undefined || value === undefined || !options.includes(value)
        ? html`<option value="" ?selected=${value === undefined || value === null || value === ''}>
            ${field.empty === undefined ? words.choose : '–'}
          </option>`
        : null
    }
    ${options.map(
      (option, index) => html`<option value=${String(index)} ?selected=${option === value}>${name(option)}</option>`,
    )}
  </select>`;
}

/** How a value is written, and what counts without one. */
export function hintPart({ shape, fallback }: Field, language: Language): TemplateResult | null {
  const words = settingsWords[language];
  const hints = [
    shape.is === 'text' || shape.is === 'figure' ? words.hints[shape.as] : '',
    shape.is === 'prices' ? words.hints.prices : '',
    shape.is === 'number' ? words.range(shape.least, shape.most) : '',
    typeof fallback === 'string' || typeof fallback === 'number' ? words.fallback(String(fallback)) : '',
    typeof fallback === 'boolean' ? words.fallback(words[fallback ? 'yes' : 'no']) : '',
  ].filter((hint) => hint !== '');
  return hints.length === 0 ? null : html`<small>${hints.join('; ')}</small>`;
}

export function typed(event: Event): string {
  return (event.target as HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement).value;
}

function plainTyped(value: Plain | undefined): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}
