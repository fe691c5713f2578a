import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ImportSource } from '#shared/imports/source.ts';
import { fieldName } from '../i18n/import-fields.ts';
import { importWords } from '../i18n/import-words.ts';
import { wordsOf } from '../i18n/language.ts';
import { dayAndTime } from '../i18n/time.ts';
import { importsApi, type ImportsApi } from './imports-api.ts';
import './import-mapping.ts';
import type { ToMap } from './import-mapping.ts';
import { PageElement } from './page-element.ts';

/** Sources whose files are known by their header row: looked at, changed, forgotten. */
@customElement('bf-import-sources')
export class ImportSources extends PageElement {
  @property({ attribute: false }) imports: ImportsApi = importsApi;
  /** changes whenever a source may have been kept elsewhere */
  @property({ attribute: false }) version = 0;
  @state() private sources: readonly ImportSource[] = [];
  @state() private changing: ToMap | null = null;
  @state() private asking: number | null = null;

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('version') || changed.has('imports')) void this.read();
  }

  private async read(): Promise<void> {
    await this.attempt(async () => {
      this.sources = await this.imports.sources();
    });
  }

  override render(): TemplateResult | null {
    const words = importWords[this.language];
    if (this.sources.length === 0) return this.alert();
    return html`<h2>${words.sources}</h2>
      <p class="hint">${words.sourcesHow}</p>
      ${this.alert()}
      <div class="scroll" tabindex="0" role="group" aria-label=${words.sources}>
        <table data-table="sources">
          <thead>
            <tr>
              ${[words.source, words.columns.holds, words.reads, words.changedAt, words.usedAt].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
              <td></td>
            </tr>
          </thead>
          <tbody>
            ${this.sources.map((source) => this.row(source))}
          </tbody>
        </table>
      </div>
      ${
        this.changing === null
          ? null
          : html`<bf-import-mapping
              .language=${this.language}
              .toMap=${this.changing}
              .imports=${this.imports}
              @bf-mapping-left=${() => (this.changing = null)}
              @bf-mapped=${(event: CustomEvent<{ sources: readonly ImportSource[] }>) => {
                this.sources = event.detail.sources;
                this.changing = null;
              }}
            ></bf-import-mapping>`
      }`;
  }

  private row(source: ImportSource): TemplateResult {
    const words = importWords[this.language];
    const { subjects } = wordsOf(this.language).office;
    const when = (at: number) =>
      dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: undefined });
    const reads = Object.entries(source.fields).map(([field, from]) => {
      const their = 'constant' in from ? `= ${from.constant}` : (source.header[from.column] ?? '');
      return `${fieldName(field, this.language)} ← ${their}`;
    });
    return html`<tr data-source=${source.id}>
      <td><b>${source.name}</b></td>
      <td>${subjects[source.subject]}</td>
      <td class="reads">${reads.join('; ')}</td>
      <td>${when(source.changedAt)}</td>
      <td>${source.usedAt === null ? words.never : when(source.usedAt)}</td>
      <td>${this.asking === source.id ? this.really(source) : this.actions(source)}</td>
    </tr>`;
  }

  private actions(source: ImportSource): TemplateResult {
    const words = importWords[this.language];
    return html`<div class="tools">
      <button
        type="button"
        data-source="change"
        aria-label=${words.editFor(source.name)}
        @click=${() => (this.changing = asToMap(source))}
      >
        ${words.edit}
      </button>
      <button
        type="button"
        data-source="remove"
        aria-label=${words.removeFor(source.name)}
        @click=${() => (this.asking = source.id)}
      >
        ${words.remove}
      </button>
    </div>`;
  }

  private really(source: ImportSource): TemplateResult {
    const words = importWords[this.language];
    return html`<p role="status">${words.really(source.name)}</p>
      <div class="tools">
        <button type="button" class="main" data-source="really" @click=${() => this.forget(source.id)}>
          ${words.remove}
        </button>
        <button type="button" @click=${() => (this.asking = null)}>${words.keep}</button>
      </div>`;
  }

  private async forget(id: number): Promise<void> {
    await this.attempt(async () => {
      this.sources = await this.imports.removeSource(id);
    });
    this.asking = null;
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      .scroll {
        overflow-x: auto;
      }
      .reads {
        max-width: 56ch;
      }
    `,
  ];
}

function asToMap(source: ImportSource): ToMap {
  const { name, header, subject, fields } = source;
  const other = { fields: {}, source: null };
  const reading = { fields, source };
  return {
    title: name,
    header,
    samples: [],
    subject,
    readings: subject === 'pieces' ? { pieces: reading, orders: other } : { pieces: other, orders: reading },
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-import-sources': ImportSources;
  }
}
