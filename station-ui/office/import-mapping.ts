import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import {
  DAY_ORDERS,
  FIELD_UNITS,
  IMPORT_FIELDS,
  NEEDED_FIELDS,
  type FieldFrom,
  type ImportSource,
  type SourceMapping,
} from '#shared/imports/source.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import { fieldName } from '../i18n/import-fields.ts';
import { importWords } from '../i18n/import-words.ts';
import { wordsOf } from '../i18n/language.ts';
import { importsApi, type ImportsApi } from './imports-api.ts';
import { PageElement } from './page-element.ts';

/** What is to be mapped: the columns of a file, or a source that is known. */
export interface ToMap {
  /** of the file, or the source's */
  readonly title: string;
  readonly header: readonly string[];
  /** none for a source without a file at hand */
  readonly samples: readonly (readonly string[])[];
  readonly subject: ImportSubject;
  readonly readings: Readonly<
    Record<ImportSubject, { readonly fields: SourceMapping['fields']; readonly source: ImportSource | null }>
  >;
}

const NOTHING = '';
const CONSTANT = 'constant';

/** Which of a file's columns is which, said by hand and kept under a source's name. */
@customElement('bf-import-mapping')
export class ImportMapping extends PageElement {
  @property({ attribute: false }) toMap!: ToMap;
  @property({ attribute: false }) imports: Pick<ImportsApi, 'saveSource'> = importsApi;
  @state() private subject: ImportSubject = 'orders';
  @state() private fields: SourceMapping['fields'] = {};
  @state() private name = '';
  @state() private decimalMark: SourceMapping['decimalMark'] = null;
  @state() private days: SourceMapping['days'] = null;

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('toMap')) this.take(this.toMap.subject);
  }

  private take(subject: ImportSubject): void {
    const { fields, source } = this.toMap.readings[subject];
    this.subject = subject;
    this.fields = fields;
    this.name = source?.name ?? this.name;
    this.decimalMark = source?.decimalMark ?? null;
    this.days = source?.days ?? null;
  }

  override render(): TemplateResult {
    const words = importWords[this.language];
    const { subjects, subject } = wordsOf(this.language).office;
    const missing = NEEDED_FIELDS[this.subject].filter((field) => !isFilled(this.fields[field]));
    return html`<form class="kraft" @submit=${this.save} data-mapping>
      <h2>${words.mapTitle(this.toMap.title)}</h2>
      <p class="hint">${words.mapHow}</p>
      ${this.alert()}
      <div class="tools">
        <label
          ><span>${subject}</span>
          <select name="subject" @change=${(event: Event) => this.take(valueOf(event) as ImportSubject)}>
            ${(['pieces', 'orders'] as const).map((each) => html`<option value=${each} ?selected=${each === this.subject}>${subjects[each]}</option>`)}
          </select></label
        >
        <label
          ><span>${words.sourceName}</span>
          <input
            name="source-name"
            required
            maxlength="80"
            placeholder=${words.sourceHint}
            .value=${this.name}
            @input=${(event: Event) => (this.name = valueOf(event))}
        /></label>
        <label
          ><span>${words.decimals}</span>
          <select
            name="decimals"
            @change=${(event: Event) => (this.decimalMark = (valueOf(event) || null) as SourceMapping['decimalMark'])}
          >
            <option value="" ?selected=${this.decimalMark === null}>${words.asShop}</option>
            ${(['point', 'comma'] as const).map((mark) => html`<option value=${mark} ?selected=${mark === this.decimalMark}>${words.decimalMarks[mark]}</option>`)}
          </select></label
        >
        <label
          ><span>${words.days}</span>
          <select name="days" @change=${(event: Event) => (this.days = valueOf(event) || null)}>
            <option value="" ?selected=${this.days === null}>${words.asShop}</option>
            ${DAY_ORDERS.map((days) => html`<option value=${days} ?selected=${days === this.days}>${days}</option>`)}
          </select></label
        >
      </div>
      <div class="scroll" tabindex="0" role="group" aria-label=${words.mapTitle(this.toMap.title)}>
        <table>
          <thead>
            <tr>
              <th class="plain" scope="col">${words.ourField}</th>
              <th class="plain" scope="col">${words.theirColumn}</th>
              <th class="plain" scope="col">${words.firstValues}</th>
            </tr>
          </thead>
          <tbody>
            ${IMPORT_FIELDS[this.subject].map((field) => this.row(field))}
          </tbody>
        </table>
      </div>
      ${missing.length === 0 ? null : html`<p data-missing>${words.stillMissing(missing.map((field) => fieldName(field, this.language)).join(', '))}</p>`}
      <div class="tools">
        <button
          type="submit"
          class="main"
          data-mapping="save"
          ?disabled=${missing.length > 0 || this.name.trim() === ''}
        >
          ${words.save}
        </button>
        <button
          type="button"
          data-mapping="leave"
          @click=${() => this.dispatchEvent(new CustomEvent('bf-mapping-left'))}
        >
          ${words.leave}
        </button>
      </div>
    </form>`;
  }

  private row(field: string): TemplateResult {
    const words = importWords[this.language];
    const from = this.fields[field];
    const name = fieldName(field, this.language);
    const isNeeded = (NEEDED_FIELDS[this.subject] as readonly string[]).includes(field);
    const chosen = from === undefined ? NOTHING : 'constant' in from ? CONSTANT : String(from.column);
    return html`<tr data-field=${field}>
      <td><b>${name}</b>${isNeeded ? html` <i>${words.needed}</i>` : null}</td>
      <td>
        <div class="from">
          <select aria-label=${name} @change=${(event: Event) => this.choose(field, valueOf(event))}>
            <option value=${NOTHING} ?selected=${chosen === NOTHING}>${words.nothing}</option>
            <option value=${CONSTANT} ?selected=${chosen === CONSTANT}>${words.constant}</option>
            ${this.toMap.header.map(
              (header, index) =>
                html`<option value=${String(index)} ?selected=${chosen === String(index)}>
                  ${words.columnNumber(index + 1, header, this.toMap.samples[index]?.[0])}
                </option>`,
            )}
          </select>
          ${from === undefined ? null : 'constant' in from ? this.constant(field, name, from.constant) : this.unit(field, name, from)}
        </div>
      </td>
      <td class="samples">${this.samples(from)}</td>
    </tr>`;
  }

  private constant(field: string, name: string, value: string): TemplateResult {
    return html`<input
      aria-label=${importWords[this.language].constantFor(name)}
      .value=${value}
      maxlength="300"
      @input=${(event: Event) => this.set(field, { constant: valueOf(event) })}
    />`;
  }

  private unit(field: string, name: string, from: Extract<FieldFrom, { column: number }>): TemplateResult | null {
    const units = FIELD_UNITS[field];
    const words = importWords[this.language];
    if (units === undefined) return null;
    return html`<select
      aria-label=${words.unitFor(name)}
      @change=${(event: Event) => {
        const unit = valueOf(event);
        this.set(field, unit === '' ? { column: from.column } : { column: from.column, unit });
      }}
    >
      <option value="" ?selected=${from.unit === undefined}>${words.asHeaderOrShop}</option>
      ${units.map((unit) => html`<option value=${unit} ?selected=${unit === from.unit}>${unit}</option>`)}
    </select>`;
  }

  private samples(from: FieldFrom | undefined): string {
    if (from === undefined || 'constant' in from) return '';
    return (this.toMap.samples[from.column] ?? []).join(' · ');
  }

  private choose(field: string, chosen: string): void {
    if (chosen === NOTHING) {
      this.fields = Object.fromEntries(Object.entries(this.fields).filter(([each]) => each !== field));
    } else this.set(field, chosen === CONSTANT ? { constant: '' } : { column: Number(chosen) });
  }

  private set(field: string, from: FieldFrom): void {
    this.fields = { ...this.fields, [field]: from };
  }

  private readonly save = (event: Event): void => {
    event.preventDefault();
    const { subject, decimalMark, days, name } = this;
    const filled = Object.entries(this.fields).filter(([, from]) => isFilled(from));
    const fields = Object.fromEntries(filled);
    void this.attempt(async () => {
      const mapping = { name: name.trim(), subject, header: this.toMap.header, fields, decimalMark, days };
      const sources = await this.imports.saveSource(mapping);
      this.dispatchEvent(new CustomEvent('bf-mapped', { detail: { subject, sources } }));
    });
  };

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      form {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 14px;
        padding: 14px 20px;
      }
      .scroll {
        overflow-x: auto;
      }
      td {
        vertical-align: middle;
      }
      td i {
        color: var(--walnut);
      }
      .from {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
      }
      .from select {
        max-width: 40ch;
      }
      .samples {
        color: var(--walnut);
        max-width: 44ch;
        overflow-wrap: anywhere;
      }
    `,
  ];
}

const valueOf = (event: Event): string => (event.target as HTMLInputElement | HTMLSelectElement).value;
const isFilled = (from: FieldFrom | undefined): boolean =>
  from !== undefined && (!('constant' in from) || from.constant.trim() !== '');

declare global {
  interface HTMLElementTagNameMap {
    'bf-import-mapping': ImportMapping;
  }
}
