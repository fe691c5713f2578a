import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { Field, FieldShape, Plain } from '#shared/wire/settings.ts';
import type { Language } from '#shared/words/language.ts';
import { fieldName } from '../i18n/settings-fields.ts';
import { optionName } from '../i18n/settings-options.ts';
import { settingsWords } from '../i18n/settings.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { asNumber, emptied, isMapping, valueAt, withValue, type DraftPath } from './settings-draft.ts';
import { problemText } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';

/** An entry as it is being changed. */
export interface Draft {
  readonly value: Plain;
  readonly parts: Readonly<Record<string, string>>;
}

/** The fields of one entry; tells `bf-draft` with every change. */
@customElement('bf-settings-form')
export class SettingsForm extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property() section = '';
  @property({ attribute: false }) fields: readonly Field[] = [];
  @property({ attribute: false }) draft: Draft = { value: {}, parts: {} };
  /** by their paths within the entry */
  @property({ attribute: false }) problems: readonly ConfigProblem[] = [];

  override render(): TemplateResult {
    return html`<div class="fields">${this.fields.map((field) => this.field(field, []))}</div>`;
  }

  /** Goes to the first field that something is held against. */
  goToWrong(): void {
    this.renderRoot.querySelector<HTMLElement>("[aria-invalid='true']")?.focus();
  }

  private field(field: Field, above: DraftPath): TemplateResult {
    const path = [...above, field.key];
    const { shape } = field;
    if (shape.is === 'group') return this.group(field, shape.fields, path);
    if (shape.is === 'variants') return this.variants(field, shape, path);
    if (shape.is === 'several') return this.several(field, shape.options, path);
    const wrong = this.wrong(path);
    const id = `wrong-${path.join('-')}`;
    return html`<label class=${shape.is === 'yaml' || shape.is === 'lines' ? 'wide' : ''} data-field=${path.join('.')}>
      <span>${this.named(path)}</span>
      ${this.input(field, path, wrong.length > 0 ? id : null)} ${this.hint(field)}
      ${wrong.map((problem) => html`<span class="wrong" id=${id}>${problemText(problem, this.language)}</span>`)}
    </label>`;
  }

  private input(field: Field, path: DraftPath, wrong: string | null): TemplateResult {
    const { shape } = field;
    const value = valueAt(this.draft.value, path);
    const invalid = wrong === null ? 'false' : 'true';
    switch (shape.is) {
      case 'choice':
        return this.choice(field, shape.options, path, wrong);
      case 'yes-no':
        return this.choice(field, [true, false], path, wrong);
      case 'yaml': {
        const key = path.join('.');
        const text = this.draft.parts[key] ?? '';
        return html`<textarea
          spellcheck="false"
          rows=${String(Math.min(20, Math.max(2, text.split('\n').length)))}
          aria-invalid=${invalid}
          aria-describedby=${wrong ?? ''}
          .value=${text}
          @input=${(event: Event) => this.put({ parts: { ...this.draft.parts, [key]: typed(event) } })}
        ></textarea>`;
      }
      case 'lines':
        return html`<textarea
          spellcheck="false"
          rows=${String(Array.isArray(value) ? Math.min(12, value.length + 1) : 2)}
          aria-invalid=${invalid}
          aria-describedby=${wrong ?? ''}
          .value=${Array.isArray(value) ? (value as Plain[]).map(String).join('\n') : ''}
          @change=${(event: Event) => {
            const lines = typed(event)
              .split('\n')
              .filter((line) => line.trim() !== '');
            this.set(path, lines.length === 0 ? emptied(field) : lines);
          }}
        ></textarea>`;
      default:
        return html`<input
          autocomplete="off"
          inputmode=${shape.is === 'number' ? 'decimal' : 'text'}
          aria-invalid=${invalid}
          aria-describedby=${wrong ?? ''}
          .value=${typeof value === 'string' || typeof value === 'number' ? String(value) : ''}
          @input=${(event: Event) => {
            const text = typed(event);
            if (text === '') this.set(path, emptied(field));
            else this.set(path, shape.is === 'number' ? asNumber(text) : text);
          }}
        />`;
    }
  }

  private choice(field: Field, options: readonly Plain[], path: DraftPath, wrong: string | null): TemplateResult {
    const words = settingsWords[this.language];
    const value = valueAt(this.draft.value, path);
    const name = (option: Plain) =>
      typeof option === 'boolean'
        ? words[option ? 'yes' : 'no']
        : optionName(path.join('.'), option as string, this.language);
    return html`<select
      aria-invalid=${wrong === null ? 'false' : 'true'}
      aria-describedby=${wrong ?? ''}
      @change=${(event: Event) => {
        const chosen = options[Number(typed(event))];
        this.set(path, chosen === undefined ? emptied(field) : chosen);
      }}
    >
      ${
        field.empty !== undefined || value === undefined || !options.includes(value)
          ? html`<option value="" ?selected=${value === undefined}>
              ${field.empty === undefined ? words.choose : '–'}
            </option>`
          : null
      }
      ${options.map(
        (option, index) => html`<option value=${String(index)} ?selected=${option === value}>${name(option)}</option>`,
      )}
    </select>`;
  }

  private several(field: Field, options: readonly string[], path: DraftPath): TemplateResult {
    const value = valueAt(this.draft.value, path);
    const chosen = Array.isArray(value) ? (value as Plain[]) : [];
    return html`<fieldset class="wide" data-field=${path.join('.')}>
      <legend>${this.named(path)}</legend>
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
                    path,
                    now.length === 0 && value === undefined
                      ? undefined
                      : now.length === 0
                        ? (emptied(field) ?? [])
                        : now,
                  );
                }}
              />
              ${optionName(path.join('.'), option, this.language)}
            </label>`,
        )}
      </div>
      ${this.wrongs(path)}
    </fieldset>`;
  }

  private group(field: Field, fields: readonly Field[], path: DraftPath): TemplateResult {
    const value = valueAt(this.draft.value, path);
    const there = field.empty === undefined || isMapping(value);
    return html`<fieldset class="wide" data-field=${path.join('.')}>
      <legend>${this.named(path)}</legend>
      ${field.empty === undefined ? null : this.given(field, path, there)}
      ${there ? html`<div class="fields">${fields.map((each) => this.field(each, path))}</div>` : null}
      ${this.wrongs(path)}
    </fieldset>`;
  }

  private given(field: Field, path: DraftPath, there: boolean): TemplateResult {
    return html`<label class="check">
      <input
        type="checkbox"
        .checked=${there}
        @change=${(event: Event) => {
          this.set(path, (event.target as HTMLInputElement).checked ? {} : emptied(field));
        }}
      />
      ${settingsWords[this.language].given}
    </label>`;
  }

  private variants(
    field: Field,
    { by, variants }: Extract<FieldShape, { is: 'variants' }>,
    path: DraftPath,
  ): TemplateResult {
    const value = valueAt(this.draft.value, [...path, by]);
    const variant = variants.find((each) => each.value === value);
    const kind: Field = { key: by, shape: { is: 'choice', options: variants.map((each) => each.value) } };
    return html`<fieldset class="wide" data-field=${path.join('.')}>
      <legend>${this.named(path)}</legend>
      <div class="fields">
        <label data-field=${[...path, by].join('.')}>
          <span>${this.named([...path, by])}</span>
          <select
            @change=${(event: Event) => {
              const chosen = typed(event);
              this.set(path, chosen === '' ? emptied(field) : { [by]: chosen });
            }}
          >
            ${variant === undefined ? html`<option value="" selected>${settingsWords[this.language].choose}</option>` : null}
            ${kind.shape.is === 'choice' ? kind.shape.options.map((option) => html`<option value=${String(option)} ?selected=${option === value}>${optionName(path.join('.'), option, this.language)}</option>`) : null}
          </select>
        </label>
        ${variant?.fields.map((each) => this.field(each, path))}
      </div>
      ${this.wrongs(path)}
    </fieldset>`;
  }

  private named(path: DraftPath): string {
    return fieldName(this.section, path.join('.'), this.language) ?? path.at(-1) ?? '';
  }

  private hint({ shape, fallback }: Field): TemplateResult | null {
    const words = settingsWords[this.language];
    const hints = [
      shape.is === 'text' ? words.hints[shape.as] : '',
      shape.is === 'number' ? words.range(shape.least, shape.most) : '',
      shape.is === 'yaml' ? words.asYaml : '',
      typeof fallback === 'string' || typeof fallback === 'number' ? words.fallback(String(fallback)) : '',
      typeof fallback === 'boolean' ? words.fallback(words[fallback ? 'yes' : 'no']) : '',
    ].filter((hint) => hint !== '');
    return hints.length === 0 ? null : html`<small>${hints.join('; ')}</small>`;
  }

  private wrong(path: DraftPath): readonly ConfigProblem[] {
    const own = path.join('.');
    return this.problems.filter((problem) => problem.path === own || /^[.[]/.test(afterOf(problem.path, own)));
  }

  /** Of a group itself: what is held against one of its fields stands there. */
  private wrongs(path: DraftPath): TemplateResult[] {
    const own = path.join('.');
    const here = this.problems.filter((problem) => problem.path === own || afterOf(problem.path, own).startsWith('['));
    return here.map((problem) => html`<p class="wrong">${problemText(problem, this.language)}</p>`);
  }

  private set(path: DraftPath, value: Plain | undefined): void {
    this.put({ value: withValue(this.draft.value, path, value) });
  }

  private put(changed: Partial<Draft>): void {
    this.dispatchEvent(new CustomEvent<Draft>('bf-draft', { detail: { ...this.draft, ...changed } }));
  }

  static override styles = [
    base,
    officeStyles,
    settingsStyles,
    css`
      .fields {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(240px, 100%), 1fr));
        gap: 12px 20px;
        align-items: start;
      }
      label:not(.check) {
        display: grid;
        gap: 2px;
        align-content: start;
      }
      .wide {
        grid-column: 1 / -1;
      }
      fieldset {
        border: 0;
        border-left: 3px dashed var(--thread);
        padding: 4px 0 4px 14px;
        margin: 0;
        min-width: 0;
      }
      legend {
        font-weight: 700;
        padding: 0;
      }
      small {
        color: var(--walnut);
        font-size: 14px;
      }
      input:not([type='checkbox']),
      textarea,
      select {
        font: inherit;
        width: 100%;
        min-height: 44px;
        padding: 6px 10px;
        border: 2px solid var(--ink);
        border-radius: 0;
        background: var(--chalk);
        color: var(--ink);
      }
      textarea {
        font-family: ui-monospace, monospace;
        font-size: 15px;
      }
      input[aria-invalid='true'],
      textarea[aria-invalid='true'],
      select[aria-invalid='true'] {
        border: 3px dashed var(--madder);
      }
      .checks {
        display: flex;
        flex-wrap: wrap;
        gap: 2px 20px;
      }
      .check {
        display: inline-flex;
        gap: 8px;
        align-items: center;
        min-height: 44px;
      }
      .check input {
        width: 22px;
        height: 22px;
      }
    `,
  ];
}

/** What of a problem's path comes behind a field's; empty where it is none of that field's. */
function afterOf(path: string, own: string): string {
  return path.startsWith(own) ? path.slice(own.length) : '';
}

function typed(event: Event): string {
  return (event.target as HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement).value;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-form': SettingsForm;
  }
}
