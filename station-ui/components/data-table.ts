import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { csvText } from '#shared/words/csv.ts';
import type { Language } from '#shared/words/language.ts';
import { tableWords } from '../i18n/table.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from '../office/office-styles.ts';
import { saveFile } from './save-file.ts';
import { rowsSorted, rowsWith, writtenOf } from './table-rows.ts';
import type { DataColumn, TableSorting } from './table-rows.ts';

/** So many rows are drawn at once: a table of thousands stays quick. */
const PAGE = 50;

/** A table that sorts by any column, filters by words, is read page by page, and goes out as a file. */
@customElement('bf-data-table')
export class DataTable extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) columns: readonly DataColumn<unknown>[] = [];
  @property({ attribute: false }) rows: readonly unknown[] = [];
  @property({ attribute: false }) keyOf: (row: unknown) => string = () => '';
  /** what the table is, for those who cannot see it */
  @property() name = '';
  /** the file's name without its ending; no file where empty */
  @property() file = '';
  @property({ attribute: false }) sorting: TableSorting | null = null;
  @property({ type: Boolean }) plain = false;
  @state() private text = '';
  @state() private page = 0;

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('sorting')) this.page = 0;
  }

  override render(): TemplateResult {
    const words = tableWords[this.language];
    const found = rowsSorted(rowsWith(this.rows, this.columns, this.text), this.columns, this.sorting);
    const pages = Math.max(1, Math.ceil(found.length / PAGE));
    const page = Math.min(this.page, pages - 1);
    const shown = found.slice(page * PAGE, (page + 1) * PAGE);
    return html`${this.plain ? null : this.tools(found.length)}
      <div class="scroll" tabindex="0" role="region" aria-label=${this.name}>
        <table>
          <thead>
            <tr>
              ${this.columns.map((column) => this.heading(column))}
            </tr>
          </thead>
          <tbody>
            ${repeat(
              shown,
              (row) => this.keyOf(row),
              (row) => this.row(row),
            )}
          </tbody>
        </table>
      </div>
      ${found.length === 0 ? html`<p class="secondary">${words.none}</p>` : null}
      ${
        pages === 1
          ? null
          : html`<p class="tools pages">
              <button type="button" data-page="before" ?disabled=${page === 0} @click=${() => (this.page = page - 1)}>
                ${words.before}
              </button>
              <span role="status">${words.page(page + 1, pages)}</span>
              <button
                type="button"
                data-page="after"
                ?disabled=${page === pages - 1}
                @click=${() => (this.page = page + 1)}
              >
                ${words.after}
              </button>
            </p>`
      }`;
  }

  private tools(found: number): TemplateResult {
    const words = tableWords[this.language];
    return html`<div class="tools">
      <label
        ><span>${words.filter}</span>
        <input
          type="search"
          data-table-filter
          .value=${this.text}
          @input=${(event: Event) => {
            this.text = (event.target as HTMLInputElement).value;
            this.page = 0;
          }}
      /></label>
      <p role="status">${words.shown(found, this.rows.length)}</p>
      ${this.file === '' ? null : html`<button type="button" data-csv=${this.file} @click=${this.save}>${words.csv}</button>`}
    </div>`;
  }

  private heading({ key, title, number }: DataColumn<unknown>): TemplateResult {
    if (title === '') return html`<td></td>`;
    const here = this.sorting?.by === key ? this.sorting : null;
    return html`<th
      scope="col"
      aria-sort=${here === null ? 'none' : here.descending ? 'descending' : 'ascending'}
      class=${number === true ? 'number' : ''}
    >
      <button
        type="button"
        class="sort"
        data-sort=${key}
        @click=${() => (this.sorting = { by: key, descending: here !== null && !here.descending })}
      >
        ${title}<span class="way" aria-hidden="true">${here === null ? '' : here.descending ? '↓' : '↑'}</span>
      </button>
    </th>`;
  }

  private row(row: unknown): TemplateResult {
    return html`<tr data-row=${this.keyOf(row)}>
      ${this.columns.map(
        (column) =>
          html`<td class=${column.number === true ? 'number' : ''}>
            ${column.cell === undefined ? column.value(row) : column.cell(row)}
          </td>`,
      )}
    </tr>`;
  }

  private readonly save = (): void => {
    const rows = rowsSorted(rowsWith(this.rows, this.columns, this.text), this.columns, this.sorting);
    const columns = this.columns.filter(({ title }) => title !== '');
    const lines = rows.map((row) => columns.map((column) => writtenOf(column, row)));
    saveFile(
      `${this.file}.csv`,
      csvText(
        columns.map(({ title }) => title),
        lines,
      ),
    );
  };

  static override styles = [
    base,
    officeStyles,
    css`
      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 20px;
        align-items: end;
        margin-bottom: 10px;
      }
      .pages {
        align-items: center;
        margin-top: 10px;
      }
      label {
        display: grid;
        gap: 2px;
        flex: 1 1 220px;
        max-width: 420px;
      }
      .scroll {
        position: relative;
        overflow-x: auto;
      }
      .sort {
        border: 0;
        padding: 6px 12px 6px 0;
        min-height: 44px;
        background: none;
        font-weight: 700;
        text-align: inherit;
        justify-content: inherit;
      }
      th.number {
        text-align: right;
      }
      .number .sort {
        flex-direction: row-reverse;
        padding-right: 0;
      }
      .way {
        display: inline-block;
        width: 1em;
        margin-left: 4px;
      }
      td.number {
        white-space: nowrap;
      }
      /* A long number makes room for the buttons at the end of its row. */
      @media (max-width: 900px) {
        .long {
          display: inline-block;
          max-width: 12ch;
          overflow-wrap: anywhere;
        }
      }
      .nowrap {
        white-space: nowrap;
      }
      td button,
      td .button {
        min-height: 36px;
        padding: 2px 12px;
      }
      ul {
        margin: 0;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-data-table': DataTable;
  }
}
