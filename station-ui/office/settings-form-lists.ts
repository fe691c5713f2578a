import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { Field, FieldShape, Plain } from '#shared/wire/settings.ts';
import type { Language } from '#shared/words/language.ts';
import { optionName } from '../i18n/settings-options.ts';
import { settingsWords } from '../i18n/settings.ts';
import { emptied, isMapping, itemsOf, moved, shortly, type DraftPath } from './settings-draft.ts';
import { beginning, below, pairsOf } from './settings-drafting.ts';

/** Where a value of the draft is shown. */
export interface Place {
  readonly path: DraftPath;
  /** as problems name it */
  readonly at: string;
  /** keys alone, by which it has its name */
  readonly named: string;
}

/** What the parts of a form ask of it. */
export interface Form {
  readonly language: Language;
  valueAt(path: DraftPath): Plain | undefined;
  set(path: DraftPath, value: Plain | undefined): void;
  name(named: string): string;
  /** a shape at a place; `field` tells what it holds where it is left empty */
  shown(field: Field, place: Place): TemplateResult;
  inner(fields: readonly Field[], place: Place): TemplateResult;
  wrongs(place: Place): readonly TemplateResult[];
  isWrong(place: Place): boolean;
  focusIn(at: string, button: string): void;
}

export const within = (place: Place, key: string): Place => ({
  path: [...place.path, key],
  at: below(place.at, key),
  named: place.named === '' ? key : `${place.named}.${key}`,
});

/** The rows of a list, each with its fields, to be added, moved and removed. */
export function rowsPart(form: Form, field: Field, item: FieldShape, place: Place): TemplateResult {
  const words = settingsWords[form.language];
  const rows = itemsOf(form.valueAt(place.path));
  const put = (list: readonly Plain[]) => form.set(place.path, list.length === 0 ? emptied(field) : list);
  const shift = (index: number, by: 1 | -1) => {
    put(moved(rows, index, by));
    form.focusIn(below(place.at, index + by), by === 1 ? 'down' : 'up');
  };
  return html`<fieldset class="wide" data-field=${place.at}>
    <legend>${form.name(place.named)}</legend>
    ${rows.map((row, index) => {
      const here: Place = {
        path: [...place.path, index],
        at: below(place.at, index),
        named: place.named,
      };
      const inner = form.shown({ key: '', shape: item }, here);
      const title = rowTitle(item, row, place.named, form.language);
      const number = String(index + 1);
      return html`<div class="row" data-row=${here.at} role="group" aria-label=${`${form.name(place.named)} ${number}`}>
        <div class="row-fields">
          ${isSmall(item) ? inner : folded(`${number}. ${title}`, title === '' || rows.length === 1 || form.isWrong(here), inner)}
        </div>
        <p class="row-buttons">
          <button type="button" data-up ?disabled=${index === 0} @click=${() => shift(index, -1)}>
            ${words.up}<span class="only-read"> ${number}</span>
          </button>
          <button type="button" data-down ?disabled=${index === rows.length - 1} @click=${() => shift(index, 1)}>
            ${words.down}<span class="only-read"> ${number}</span>
          </button>
          <button
            type="button"
            data-take
            @click=${() => {
              put(rows.filter((_each, at) => at !== index));
              form.focusIn(place.at, 'more');
            }}
          >
            ${words.remove}<span class="only-read"> ${number}</span>
          </button>
        </p>
      </div>`;
    })}
    ${form.wrongs(place)}
    <p>
      <button type="button" data-more @click=${() => put([...rows, beginning(item)])}>
        ${words.more}<span class="only-read"> ${form.name(place.named)}</span>
      </button>
    </p>
  </fieldset>`;
}

/** Keys with their values, to be added and removed. */
export function pairsPart(
  form: Form,
  field: Field,
  { keys, value }: Extract<FieldShape, { is: 'pairs' }>,
  place: Place,
): TemplateResult {
  const words = settingsWords[form.language];
  const pairs = pairsOf(form.valueAt(place.path));
  const put = (list: readonly Plain[]) => form.set(place.path, list.length === 0 ? emptied(field) : list);
  const keyName = form.name(`${place.named}.key`);
  return html`<fieldset class="wide" data-field=${place.at}>
    <legend>${form.name(place.named)}</legend>
    ${pairs.map((pair, index) => {
      const at = below(place.at, pair.key);
      const path = [...place.path, index];
      const here: Place = {
        path: [...path, 'value'],
        at,
        named: isMapping(beginning(value)) ? place.named : `${place.named}.value`,
      };
      const inner = form.shown({ key: '', shape: value }, here);
      const typed = (event: Event) => {
        form.set([...path, 'key'], (event.target as HTMLInputElement | HTMLSelectElement).value.trim());
      };
      const options = [...new Set([...(keys ?? []), ...(keys === null || pair.key === '' ? [] : [pair.key])])];
      return html`<div
        class="row"
        data-row=${below(place.at, index)}
        role="group"
        aria-label=${`${keyName} ${pair.key}`}
      >
        <label class="row-key">
          <span>${keyName}</span>
          ${
            keys === null
              ? html`<input autocomplete="off" .value=${pair.key} @change=${typed} />`
              : html`<select @change=${typed}>
                  ${pair.key === '' ? html`<option value="" selected>${words.choose}</option>` : null}
                  ${options.map((key) => html`<option value=${key} ?selected=${key === pair.key}>${optionName(`${place.named}.key`, key, form.language)}</option>`)}
                </select>`
          }
        </label>
        <div class="row-fields">
          ${isSmall(value) ? inner : folded(shortly(pair.value, form.language).slice(0, 80), pair.key === '' || form.isWrong(here), inner)}
        </div>
        <p class="row-buttons">
          <button
            type="button"
            data-take
            @click=${() => {
              put(pairs.filter((_each, other) => other !== index));
              form.focusIn(place.at, 'more');
            }}
          >
            ${words.remove}<span class="only-read"> ${pair.key}</span>
          </button>
        </p>
      </div>`;
    })}
    ${form.wrongs(place)}
    <p>
      <button type="button" data-more @click=${() => put([...pairs, { key: '', value: beginning(value) }])}>
        ${words.more}<span class="only-read"> ${form.name(place.named)}</span>
      </button>
    </p>
  </fieldset>`;
}

function folded(title: string, open: boolean, inner: TemplateResult): TemplateResult {
  return html`<details ?open=${open}>
    <summary>${title}</summary>
    ${inner}
  </details>`;
}

const COMPOUND = new Set<FieldShape['is']>(['group', 'variants', 'rows', 'pairs', 'one-of', 'several', 'lines']);
/** So many plain fields stand beside each other in a row. */
const MOST_IN_A_ROW = 4;

function isSmall(shape: FieldShape): boolean {
  const plain = (fields: readonly Field[]) =>
    fields.length <= MOST_IN_A_ROW && fields.every((field) => !COMPOUND.has(field.shape.is));
  switch (shape.is) {
    case 'group':
      return plain(shape.fields);
    case 'variants':
      return false;
    default:
      return !COMPOUND.has(shape.is) || shape.is === 'lines';
  }
}

/** A row in few words: what it is, then the texts that tell it from others. */
function rowTitle(shape: FieldShape, row: Plain, named: string, language: Language): string {
  if (!isMapping(row)) return shortly(row, language);
  const by = shape.is === 'variants' ? row[shape.by] : undefined;
  const what = typeof by === 'string' ? optionName(named, by, language) : '';
  const told = row['words'] ?? row['name'] ?? row['id'];
  const rest = Object.entries(row).filter(([key]) => shape.is !== 'variants' || key !== shape.by);
  const more = told ?? Object.fromEntries(rest.filter(([, value]) => typeof value !== 'object'));
  return [what, shortly(more, language).slice(0, 90)].filter((part) => part !== '').join(': ');
}
