import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { ORDER_STATES } from '#shared/planning/types.ts';
import type { OrderState } from '#shared/planning/types.ts';
import type { OrderPage, OrderRow } from '#shared/wire/office.ts';
import { shape } from '../components/shapes.ts';
import type { OfficeWords } from '../i18n/office-words.ts';
import { wordsOf } from '../i18n/language.ts';
import { searchWords } from '../i18n/search.ts';
import { dayAndTime } from '../i18n/time.ts';
import { reasonInWords } from '../i18n/reason-in-words.ts';
import { api } from './api.ts';
import type { OfficeApi } from './api.ts';
import { COLUMNS, STANDING, sortedBy, sortingOf } from './order-table.ts';
import type { Column, Sorting } from './order-table.ts';
import { PageElement } from './page-element.ts';
import { orderLink } from './search.ts';

const ROWS = 100;

/** The orders, a page at a time: in order by what has an index, narrowed by words and state, walked with the arrow keys. */
@customElement('bf-orders')
export class Orders extends PageElement {
  @property({ attribute: false }) api: Pick<OfficeApi, 'orders'> = api;
  @property({ attribute: false }) words!: OfficeWords;
  /** the words that are looked for at first */
  @property({ attribute: false }) text = '';
  @state() private page: OrderPage | null = null;
  @state() private sorting: Sorting = { by: 'shipBy', descending: false };
  @state() private only: OrderState | null = null;
  @state() private from = 0;
  /** the row that the arrow keys stand on */
  @state() private at = 0;
  private asked = 0;

  protected override willUpdate(changed: PropertyValues): void {
    const narrowed = ['text', 'sorting', 'only'].some((each) => changed.has(each));
    if (narrowed) this.from = 0;
    if (!narrowed && !changed.has('from')) return;
    this.at = 0;
    void this.read();
  }

  /** Reads the page again that is shown. */
  async read(): Promise<void> {
    const number = ++this.asked;
    const { text, only, sorting, from } = this;
    await this.attempt(async () => {
      const page = await this.api.orders({ text, state: only, ...sorting, from, count: ROWS });
      // An answer that comes late must not take the place of a newer one.
      if (number === this.asked) this.page = page;
    });
  }

  override render(): TemplateResult {
    const { words, page } = this;
    if (page === null) return html`${this.alert()}${this.failure === '' ? html`<p>${words.loading}</p>` : null}`;
    if (page.all === 0)
      return html`${this.alert()}
        <p>${words.noOrders}</p>`;
    const { rows } = page;
    return html`${this.alert()}
      <div class="tools">
        <label
          ><span>${words.filter}</span>
          <input
            type="search"
            maxlength="200"
            placeholder=${words.filterHint}
            .value=${this.text}
            @input=${(event: Event) => (this.text = (event.target as HTMLInputElement).value)}
        /></label>
        <label
          ><span>${words.columns.state}</span>
          <select @change=${this.chooseState}>
            <option value="">${words.anyState}</option>
            ${ORDER_STATES.map((each) => html`<option value=${each}>${words.states[each]} (${page.counts[each]})</option>`)}
          </select></label
        >
        <p role="status">
          ${words.shown(page.matching, page.all)}${page.more ? html`, ${searchWords[this.language].newestOnly}` : null}
        </p>
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
              rows,
              (row) => row.id,
              (row, index) => this.row(row, index === Math.min(this.at, rows.length - 1), index, page),
            )}
          </tbody>
        </table>
      </div>
      ${rows.length === 0 ? html`<p>${words.noneMatch}</p>` : null} ${this.turning(page)}`;
  }

  private turning(page: OrderPage): TemplateResult | null {
    const words = searchWords[this.language];
    if (page.matching <= ROWS && page.from === 0) return null;
    const to = page.from + page.rows.length;
    return html`<nav class="turning" aria-label=${this.words.orders}>
      <button
        type="button"
        data-page="before"
        ?disabled=${page.from === 0}
        @click=${() => (this.from = Math.max(0, page.from - ROWS))}
      >
        ${words.before}
      </button>
      <p>${words.page(page.from + 1, to, page.matching.toLocaleString(this.language))}</p>
      <button
        type="button"
        data-page="next"
        ?disabled=${to >= page.matching}
        @click=${() => (this.from = page.from + ROWS)}
      >
        ${words.next}
      </button>
    </nav>`;
  }

  private heading(column: Column): TemplateResult {
    const { words, sorting } = this;
    const by = sortingOf(column);
    if (by === null) {
      return html`<th scope="col" class=${column === 'pieces' ? 'number plain' : 'plain'}>
        ${words.columns[column]}
      </th>`;
    }
    const here = sorting.by === by;
    return html`<th scope="col" aria-sort=${here ? (sorting.descending ? 'descending' : 'ascending') : 'none'}>
      <button type="button" class="sort" data-sort=${by} @click=${() => (this.sorting = sortedBy(sorting, by))}>
        ${words.columns[column]}<span class="way" aria-hidden="true"
          >${here ? (sorting.descending ? '↓' : '↑') : ''}</span
        >
      </button>
    </th>`;
  }

  private row(row: OrderRow, standing: boolean, index: number, page: OrderPage): TemplateResult {
    const { words, language } = this;
    const now = new Date();
    const late = (row.state === 'open' || row.state === 'packing') && new Date(row.shipBy) < now;
    return html`<tr tabindex=${standing ? 0 : -1} data-order=${row.id} @focus=${() => (this.at = index)}>
      <td class="nowrap">
        <a href=${orderLink(row.id)} tabindex="-1"><b>${row.id}</b></a>
      </td>
      <td>${row.buyer}</td>
      <td class="number">${row.pieces}</td>
      <td class="nowrap">
        ${dayAndTime(row.shipBy, language, { now, timeZone: page.timeZone })}${late ? html` <span class="said late">${shape('attention', 18)} ${words.late}</span>` : null}
      </td>
      <td><span class="said nowrap">${shape(STANDING[row.state], 18)} ${words.states[row.state]}</span></td>
      <td>${row.bench ?? ''}</td>
      <td>${row.container?.[language] ?? ''}</td>
      <td>${row.service?.[language] ?? ''}</td>
      <td>${reasonInWords(row.reason, wordsOf(language), language) ?? ''}</td>
    </tr>`;
  }

  private readonly chooseState = (event: Event): void => {
    const { value } = event.target as HTMLSelectElement;
    this.only = ORDER_STATES.find((each) => each === value) ?? null;
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
    if (event.key === 'Enter') rows[this.at]?.querySelector('a')?.click();
    if (goal === undefined) return;
    event.preventDefault();
    this.at = Math.min(Math.max(goal, 0), rows.length - 1);
    rows[this.at]?.focus();
  };

  static override styles = [
    ...PageElement.styles,
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
      th {
        vertical-align: middle;
      }
      th.plain {
        font-weight: 700;
      }
      td a {
        color: var(--indigo);
      }
      .turning {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 16px;
        align-items: center;
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
