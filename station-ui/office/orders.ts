import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { ORDER_STATES } from '#shared/planning/types.ts';
import type { OrderState } from '#shared/planning/types.ts';
import type { OrderRow } from '#shared/wire/office.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { Standing } from '../components/shapes.ts';
import type { OfficeWords } from '../i18n/office-words.ts';
import { wordsOf } from '../i18n/language.ts';
import { dayAndTime } from '../i18n/time.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { reasonInWords } from '../i18n/reason-in-words.ts';
import { COLUMNS, filtered, sorted, sortedBy } from './order-table.ts';
import type { Column, Sorting } from './order-table.ts';

const STANDING: Readonly<Record<OrderState, Standing>> = {
  open: 'waiting',
  packing: 'current',
  'set-aside': 'attention',
  packed: 'well',
  cancelled: 'stop',
};

/** Every order: sorted by any column, filtered by words and state, walked with the arrow keys. */
@customElement('bf-orders')
export class Orders extends LitElement {
  @property({ attribute: false }) rows: readonly OrderRow[] | null = null;
  @property({ attribute: false }) words!: OfficeWords;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) now: Date = new Date();
  @state() private sorting: Sorting = { by: 'shipBy', descending: false };
  @state() private text = '';
  @state() private only: OrderState | null = null;
  /** the row that the arrow keys stand on */
  @state() private at = 0;

  override render(): TemplateResult {
    const { words, rows } = this;
    if (rows === null) return html`<p>${words.loading}</p>`;
    if (rows.length === 0) return html`<p>${words.noOrders}</p>`;
    const inWords = rows.map((row) => ({ ...row, reason: reasonInWords(row.reason, wordsOf(this.language)) }));
    const shown = sorted(filtered(inWords, this.text, this.only), this.sorting);
    return html`<div class="tools">
        <label
          ><span>${words.filter}</span>
          <input
            type="search"
            placeholder=${words.filterHint}
            .value=${this.text}
            @input=${(event: Event) => {
              this.text = (event.target as HTMLInputElement).value;
              this.at = 0;
            }}
        /></label>
        <label
          ><span>${words.columns.state}</span>
          <select @change=${this.chooseState}>
            <option value="">${words.anyState}</option>
            ${ORDER_STATES.map((each) => html`<option value=${each}>${words.states[each]}</option>`)}
          </select></label
        >
        <p role="status">${words.shown(shown.length, rows.length)}</p>
      </div>
      <div class="scroll">
        <table>
          <thead>
            <tr>
              ${COLUMNS.map((column) => this.heading(column))}
            </tr>
          </thead>
          <tbody @keydown=${this.walk}>
            ${repeat(
              shown,
              (row) => row.id,
              (row, index) => this.row(row, index === Math.min(this.at, shown.length - 1), index),
            )}
          </tbody>
        </table>
      </div>
      ${shown.length === 0 ? html`<p>${words.noneMatch}</p>` : null}`;
  }

  private heading(column: Column): TemplateResult {
    const { words, sorting } = this;
    const here = sorting.by === column;
    return html`<th
      scope="col"
      aria-sort=${here ? (sorting.descending ? 'descending' : 'ascending') : 'none'}
      class=${column === 'pieces' ? 'number' : ''}
    >
      <button
        type="button"
        class="sort"
        data-sort=${column}
        @click=${() => {
          this.sorting = sortedBy(this.sorting, column);
          this.at = 0;
        }}
      >
        ${words.columns[column]}<span class="way" aria-hidden="true"
          >${here ? (sorting.descending ? '↓' : '↑') : ''}</span
        >
      </button>
    </th>`;
  }

  private row(row: OrderRow, standing: boolean, index: number): TemplateResult {
    const { words, language } = this;
    const late = (row.state === 'open' || row.state === 'packing') && new Date(row.shipBy) < this.now;
    return html`<tr tabindex=${standing ? 0 : -1} data-order=${row.id} @focus=${() => (this.at = index)}>
      <td><b>${row.id}</b></td>
      <td>${row.buyer}</td>
      <td class="number">${row.pieces}</td>
      <td class="nowrap">
        ${dayAndTime(row.shipBy, language, { now: this.now, timeZone: undefined })}${late ? html` <span class="said late">${shape('attention', 18)} ${words.late}</span>` : null}
      </td>
      <td><span class="said nowrap">${shape(STANDING[row.state], 18)} ${words.states[row.state]}</span></td>
      <td>${row.bench ?? ''}</td>
      <td>${row.container ?? ''}</td>
      <td>${row.service ?? ''}</td>
      <td>${row.reason ?? ''}</td>
    </tr>`;
  }

  private readonly chooseState = (event: Event): void => {
    const { value } = event.target as HTMLSelectElement;
    this.only = ORDER_STATES.find((each) => each === value) ?? null;
    this.at = 0;
  };

  private readonly walk = (event: KeyboardEvent): void => {
    const rows = [...this.renderRoot.querySelectorAll<HTMLElement>('tbody tr')];
    const goal = {
      ArrowDown: this.at + 1,
      ArrowUp: this.at - 1,
      Home: 0,
      End: rows.length - 1,
      PageDown: this.at + 10,
      PageUp: this.at - 10,
    }[event.key];
    if (goal === undefined) return;
    event.preventDefault();
    this.at = Math.min(Math.max(goal, 0), rows.length - 1);
    rows[this.at]?.focus();
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
        margin-bottom: 12px;
      }
      label {
        display: grid;
        gap: 2px;
      }
      label:first-child {
        flex: 1 1 260px;
        max-width: 460px;
      }
      .scroll {
        overflow-x: auto;
      }
      .sort {
        border: 0;
        background: transparent;
        padding: 4px 12px 4px 0;
        font-weight: 700;
        min-height: 44px;
        white-space: nowrap;
      }
      .number .sort {
        padding-right: 0;
      }
      .way {
        display: inline-block;
        width: 18px;
        padding-left: 4px;
      }
      .nowrap {
        white-space: nowrap;
      }
      .late {
        display: inline-flex;
        margin-left: 8px;
        gap: 5px;
        font-weight: 700;
      }
      td:first-child,
      th:first-child {
        padding-left: 8px;
      }
      tbody tr:hover td,
      tbody tr:focus td {
        background: var(--kraft);
      }
      tr:focus-visible {
        outline-offset: -3px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-orders': Orders;
  }
}
