import { LitElement, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { Field, FieldShape, Plain, Variant, Way } from '#shared/wire/settings.ts';
import type { Language } from '#shared/words/language.ts';
import { fieldName } from '../i18n/settings-fields.ts';
import { optionName } from '../i18n/settings-options.ts';
import { settingsWords } from '../i18n/settings.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { emptied, isMapping, itemsOf, valueAt, withValue, type DraftPath } from './settings-draft.ts';
import { beginning, below } from './settings-drafting.ts';
import { hintPart, inputPart, typed } from './settings-form-inputs.ts';
import { settingsFormStyles } from './settings-form-styles.ts';
import { pairsPart, rowsPart, within, type Form, type Place } from './settings-form-lists.ts';
import { problemText } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';

/** The fields of one entry; tells `bf-draft` with every change. */
@customElement('bf-settings-form')
export class SettingsForm extends LitElement implements Form {
  @property({ attribute: false }) language: Language = 'en';
  @property() section = '';
  @property({ attribute: false }) fields: readonly Field[] = [];
  /** see {@link drafted} */
  @property({ attribute: false }) draft: Plain = {};
  /** by their paths within the entry */
  @property({ attribute: false }) problems: readonly ConfigProblem[] = [];

  override render(): TemplateResult {
    return this.inner(this.fields, { path: [], at: '', named: '' });
  }

  /** Goes to the first field that something is held against. */
  goToWrong(): void {
    const wrong = this.renderRoot.querySelector<HTMLElement>("[aria-invalid='true'], .wrong");
    for (let above = wrong?.closest('details'); above !== null && above !== undefined;) {
      above.open = true;
      above = above.parentElement?.closest('details');
    }
    wrong?.focus();
    wrong?.scrollIntoView({ block: 'nearest' });
  }

  inner(fields: readonly Field[], place: Place): TemplateResult {
    return html`<div class="fields">${fields.map((field) => this.shown(field, within(place, field.key)))}</div>`;
  }

  shown(field: Field, place: Place): TemplateResult {
    const { shape } = field;
    const isItem = field.key === '';
    switch (shape.is) {
      case 'fixed':
        return html``;
      case 'group':
        return isItem ? this.inner(shape.fields, place) : this.group(field, shape.fields, place);
      case 'variants':
        return this.variants(field, shape, place);
      case 'several':
        return this.several(field, shape.options, place);
      case 'rows':
        return rowsPart(this, field, shape.item, place);
      case 'pairs':
        return pairsPart(this, field, shape, place);
      case 'one-of':
        return this.oneOf(field, shape.ways, place);
      case 'tuple':
        return this.tuple(field, shape.fields, place);
      default: {
        const wrong = this.wrong(place);
        const id = `wrong-${place.at}`;
        return html`<label
          class=${shape.is === 'lines' ? 'wide' : shape.is === 'prices' ? 'wide prices' : ''}
          data-field=${place.at}
        >
          <span>${this.name(place.named)}</span>
          ${inputPart(this, field, place, wrong.length > 0 ? id : null)} ${hintPart(field, this.language)}
          ${wrong.map((problem) => html`<span class="wrong" id=${id}>${problemText(problem, this.language)}</span>`)}
        </label>`;
      }
    }
  }

  private several(field: Field, options: readonly string[], place: Place): TemplateResult {
    const value = this.valueAt(place.path);
    const chosen = itemsOf(value);
    return html`<fieldset class="wide" data-field=${place.at}>
      <legend>${this.name(place.named)}</legend>
      <div class="checks">
        ${options.map(
          (option) =>
            html`<label class="check">
              <input
                type="checkbox"
                .checked=${chosen.includes(option)}
                @change=${(event: Event) => {
                  const on = (event.target as HTMLInputElement).checked;
                  const now = options.filter((each) => (each === option ? on : chosen.includes(each)));
                  this.set(
                    place.path,
                    now.length === 0 && value === undefined
                      ? undefined
                      : now.length === 0
                        ? (emptied(field) ?? [])
                        : now,
                  );
                }}
              />
              ${optionName(place.named, option, this.language)}
            </label>`,
        )}
      </div>
      ${this.wrongs(place)}
    </fieldset>`;
  }

  private group(field: Field, fields: readonly Field[], place: Place): TemplateResult {
    const value = this.valueAt(place.path);
    const there = field.empty === undefined || isMapping(value);
    return html`<fieldset class="wide" data-field=${place.at}>
      <legend>${this.name(place.named)}</legend>
      ${field.empty === undefined ? null : this.given(field, place.path, there)}
      ${there ? this.inner(fields, place) : null} ${this.wrongs(place)}
    </fieldset>`;
  }

  private given(field: Field, path: DraftPath, there: boolean): TemplateResult {
    return html`<label class="check">
      <input
        type="checkbox"
        .checked=${there}
        @change=${(event: Event) => {
          this.set(path, (event.target as HTMLInputElement).checked ? beginning(field.shape) : emptied(field));
        }}
      />
      ${settingsWords[this.language].given}
    </label>`;
  }

  private tuple(field: Field, fields: readonly Field[], place: Place): TemplateResult {
    const there = field.empty === undefined || Array.isArray(this.valueAt(place.path));
    return html`<fieldset class="wide" data-field=${place.at}>
      <legend>${this.name(place.named)}</legend>
      ${field.empty === undefined ? null : this.given(field, place.path, there)}
      ${
        there
          ? html`<div class="fields">
              ${fields.map((each, index) =>
                this.shown(each, {
                  path: [...place.path, index],
                  at: below(place.at, index),
                  named: `${place.named}.${each.key}`,
                }),
              )}
            </div>`
          : null
      }
      ${this.wrongs(place)}
    </fieldset>`;
  }

  private variants(
    field: Field,
    { by, variants }: Extract<FieldShape, { is: 'variants' }>,
    place: Place,
  ): TemplateResult {
    const value = valueAt(this.draft, [...place.path, by]);
    const variant = variants.find((each) => each.value === value);
    const kind = within(place, by);
    const inside = html`<div class="fields">
        <label data-field=${kind.at}>
          <span>${this.name(kind.named)}</span>
          <select
            aria-invalid=${this.wrong(kind).length > 0 ? 'true' : 'false'}
            @change=${(event: Event) => {
              const chosen = typed(event);
              this.set(place.path, chosen === '' ? emptied(field) : this.turned(variants, by, chosen, place));
            }}
          >
            ${variant === undefined ? html`<option value="" selected>${settingsWords[this.language].choose}</option>` : null}
            ${variants.map((each) => html`<option value=${each.value} ?selected=${each.value === value}>${optionName(place.named, each.value, this.language)}</option>`)}
          </select>
        </label>
        ${variant?.fields.map((each) => this.shown(each, within(place, each.key)))}
      </div>
      ${this.wrongs(kind)}`;
    if (field.key === '') return inside;
    return html`<fieldset class="wide" data-field=${place.at}>
      <legend>${this.name(place.named)}</legend>
      ${inside} ${this.wrongs(place)}
    </fieldset>`;
  }

  /** Another variant, with what both have. */
  private turned(variants: readonly Variant[], by: string, chosen: string, { path }: Place): Plain {
    const before = this.valueAt(path);
    const fields = variants.find((each) => each.value === chosen)?.fields ?? [];
    const kept = isMapping(before)
      ? Object.entries(before).filter(([key]) => fields.some((field) => field.key === key))
      : [];
    return { [by]: chosen, ...Object.fromEntries(kept) };
  }

  private oneOf(field: Field, ways: readonly Way[], place: Place): TemplateResult {
    const value = this.valueAt(place.path);
    const chosen = isMapping(value) ? value['way'] : undefined;
    const way = ways.find(({ name }) => name === chosen);
    const there: Place = { ...place, path: [...place.path, 'value'] };
    return html`<fieldset class="wide" data-field=${place.at}>
      <legend>${this.name(place.named)}</legend>
      <label>
        <select
          aria-label=${this.name(place.named)}
          aria-invalid=${this.wrongs(place).length > 0 ? 'true' : 'false'}
          @change=${(event: Event) => {
            const found = ways.find(({ name }) => name === typed(event));
            const now = found === undefined ? emptied(field) : { way: found.name, value: beginning(found.shape) };
            this.set(place.path, now);
          }}
        >
          ${
            field.empty !== undefined || way === undefined
              ? html`<option value="" ?selected=${way === undefined}>
                  ${field.empty === undefined ? settingsWords[this.language].choose : '–'}
                </option>`
              : null
          }
          ${ways.map(({ name }) => html`<option value=${name} ?selected=${name === chosen}>${optionName(place.named, name, this.language)}</option>`)}
        </select>
      </label>
      ${way === undefined ? null : way.shape.is === 'group' ? this.inner(way.shape.fields, there) : this.shown({ key: 'value', shape: way.shape }, there)}
      ${this.wrongs(place)}
    </fieldset>`;
  }

  name(named: string): string {
    return fieldName(this.section, named, this.language) ?? named.split('.').at(-1) ?? '';
  }

  private wrong({ at }: Place): readonly ConfigProblem[] {
    return this.problems.filter((problem) => problem.path === at || /^[.[]/.test(afterOf(problem.path, at)));
  }

  isWrong(place: Place): boolean {
    return this.wrong(place).length > 0;
  }

  /** Of what holds fields itself: what is held against one of them stands there. */
  wrongs({ at }: Place): readonly TemplateResult[] {
    return this.problems
      .filter((problem) => problem.path === at)
      .map((problem) => html`<p class="wrong" tabindex="-1">${problemText(problem, this.language)}</p>`);
  }

  valueAt(path: DraftPath): Plain | undefined {
    return valueAt(this.draft, path);
  }

  set(path: DraftPath, value: Plain | undefined): void {
    const detail = withValue(this.draft, path, value);
    this.dispatchEvent(new CustomEvent<Plain>('bf-draft', { detail }));
  }

  focusIn(at: string, button: string): void {
    void (async () => {
      // The draft comes back from whoever holds it.
      await new Promise((done) => setTimeout(done));
      await this.updateComplete;
      const own = [...this.renderRoot.querySelectorAll<HTMLElement>('[data-row], [data-field]')];
      const holder = own.find((each) => each.dataset['row'] === at) ?? own.find((each) => each.dataset['field'] === at);
      const wanted = [...(holder?.querySelectorAll<HTMLButtonElement>(`[data-${button}]`) ?? [])].at(-1);
      const other = holder?.querySelector<HTMLElement>('[data-take]');
      (wanted?.disabled === true ? other : wanted)?.focus();
    })();
  }

  static override styles = [base, officeStyles, settingsStyles, settingsFormStyles];
}

/** What of a problem's path comes behind a field's; empty where it is none of that field's. */
function afterOf(path: string, own: string): string {
  return path.startsWith(own) ? path.slice(own.length) : '';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-form': SettingsForm;
  }
}
