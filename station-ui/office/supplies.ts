import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { amountShown, amountWords } from '#shared/supplies/amounts.ts';
import type { StockState } from '#shared/supplies/types.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { formatMoney } from '#shared/units/money.ts';
import type { PrintPreview } from '#shared/wire/devices.ts';
import type { BenchRow, PersonRow } from '#shared/wire/office.ts';
import type { SuppliesView, SupplyRow } from '#shared/wire/supplies.ts';
import '../components/data-table.ts';
import { columnsOf } from '../components/table-rows.ts';
import { shape, type Standing } from '../components/shapes.ts';
import { suppliesWords } from '../i18n/supplies.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';
import './supply-detail.ts';

const STANDING: Readonly<Record<StockState, Standing>> = {
  out: 'stop',
  low: 'attention',
  'not-counted': 'waiting',
  enough: 'well',
};
const URGENCY: readonly StockState[] = ['out', 'low', 'not-counted', 'enough'];

const BY_STATE = { by: 'state', descending: false } as const;

/** What is on the shelf, for how long it lasts, and what to order. */
@customElement('bf-supplies')
export class Supplies extends PageElement {
  @state() private view: SuppliesView | null = null;
  @state() private benches: readonly BenchRow[] = [];
  @state() private people: readonly PersonRow[] = [];
  @state() private opened: string | null = null;
  @state() private said = '';

  constructor() {
    super();
    this.readFirst(async () => {
      [this.view, this.benches, this.people] = await Promise.all([
        ask<SuppliesView>('/api/supplies'),
        ask<readonly BenchRow[]>('/api/benches'),
        ask<readonly PersonRow[]>('/api/who'),
      ]);
    });
  }

  override render(): TemplateResult {
    const words = suppliesWords[this.language];
    const { view } = this;
    if (view === null)
      return html`${this.alert()}
        <p>${tableWords[this.language].loading}</p>`;
    const short = view.rows.filter(({ state: each }) => each === 'low' || each === 'out').length;
    const opened = view.rows.find(({ id }) => id === this.opened);
    return html`<div class="heading">
        <h2>${words.title}</h2>
        <p class="said" data-short=${short}>
          ${short === 0 ? shape('well', 22) : shape('attention', 22)}
          <b>${short === 0 ? words.allWell : words.short(short)}</b>
        </p>
      </div>
      <p class="hint no-print">
        ${words.how(String(Math.round(view.serviceLevel * 1000) / 10), String(view.demandDays))}
      </p>
      ${this.alert()}
      <p role="status" class="said">${this.said}</p>
      <bf-data-table
        .language=${this.language}
        .name=${words.title}
        file="supplies"
        .columns=${this.columns(view)}
        .rows=${view.rows}
        .sorting=${BY_STATE}
        .keyOf=${(row: unknown) => (row as SupplyRow).id}
      ></bf-data-table>
      ${
        opened === undefined
          ? null
          : html`<bf-supply-detail
              class="seamed"
              .language=${this.language}
              .supply=${opened}
              .view=${view}
              .people=${this.people}
              @bf-noted=${this.noted}
              @bf-put-away=${() => (this.opened = null)}
            ></bf-supply-detail>`
      }
      ${this.orderList(view)}`;
  }

  private columns(view: SuppliesView) {
    const words = suppliesWords[this.language];
    const { columns } = words;
    const amount = (value: number, { unit }: SupplyRow) => amountWords(value, unit, view.shown, this.language);
    const plain = (value: number, { unit }: SupplyRow) => Math.round(amountShown(value, unit, view.shown) * 100) / 100;
    const clock = { now: new Date(view.now), timeZone: view.timeZone };
    return columnsOf<SupplyRow>([
      { key: 'name', title: columns.name, value: (row) => row.name[this.language] },
      {
        key: 'state',
        title: columns.state,
        value: (row) => URGENCY.indexOf(row.state),
        written: (row) => words.states[row.state],
        cell: (row) =>
          html`<span class="said nowrap" data-state=${row.state}
            >${shape(STANDING[row.state], 18)} ${words.states[row.state]}</span
          >`,
      },
      {
        key: 'onHand',
        title: columns.onHand,
        number: true,
        value: (row) => (row.onHand === null ? null : plain(row.onHand, row)),
        cell: (row) => html`<b data-on-hand>${row.onHand === null ? words.nothing : amount(row.onHand, row)}</b>`,
      },
      {
        key: 'onOrder',
        title: columns.onOrder,
        number: true,
        value: (row) => plain(row.onOrder, row),
        cell: (row) => (row.onOrder === 0 ? '' : amount(row.onOrder, row)),
      },
      {
        key: 'perDay',
        title: columns.perDay,
        number: true,
        value: (row) => plain(row.demand.mean, row),
        cell: (row) => amount(row.demand.mean, row),
      },
      {
        key: 'cover',
        title: columns.cover,
        number: true,
        value: (row) => (row.daysOfCover === null ? null : Math.round(row.daysOfCover * 10) / 10),
        cell: (row) =>
          row.daysOfCover === null ? words.nothing : decimalsIn(row.daysOfCover.toFixed(1), view.shown, this.language),
      },
      {
        key: 'reorderAt',
        title: columns.reorderAt,
        number: true,
        value: (row) => plain(row.reorderPoint, row),
        cell: (row) => amount(row.reorderPoint, row),
      },
      {
        key: 'safety',
        title: columns.safety,
        number: true,
        value: (row) => plain(row.safetyStock, row),
        cell: (row) => amount(row.safetyStock, row),
      },
      {
        key: 'toOrder',
        title: columns.toOrder,
        number: true,
        value: (row) => row.toOrder.packs,
        cell: (row) => (row.toOrder.packs === 0 ? '' : words.packs(row.toOrder.packs, amount(row.pack, row))),
      },
      {
        key: 'countedAt',
        title: columns.countedAt,
        value: (row) => (row.countedAt === null ? null : new Date(row.countedAt).toISOString()),
        cell: (row) =>
          row.countedAt === null
            ? words.never
            : html`<span class="nowrap"
                >${dayAndTime(new Date(row.countedAt).toISOString(), this.language, clock)}</span
              >`,
      },
      {
        key: 'open',
        title: '',
        value: () => '',
        cell: (row) =>
          html`<button type="button" data-open=${row.id} @click=${() => (this.opened = row.id)}>
            ${words.look}<span class="only-read"> ${row.name[this.language]}</span>
          </button>`,
      },
    ]);
  }

  private orderList(view: SuppliesView): TemplateResult {
    const words = suppliesWords[this.language];
    const due = view.rows.filter(({ toOrder }) => toOrder.packs > 0);
    const [any] = due.flatMap(({ toOrder }) => (toOrder.cost === null ? [] : [toOrder.cost]));
    const total = due.reduce((sum, { toOrder }) => sum + (toOrder.cost?.minor ?? 0), 0);
    return html`<section class="seamed" data-order-list>
      <h2>${words.orderList}</h2>
      ${
        due.length === 0
          ? html`<p>${words.nothingToOrder}</p>`
          : html`<ul class="list">
                ${due.map(
                  (row) =>
                    html`<li data-to-order=${row.id}>
                      <span class="box" aria-hidden="true"></span>
                      <b>${row.name[this.language]}</b>
                      <span
                        >${words.packs(row.toOrder.packs, amountWords(row.pack, row.unit, view.shown, this.language))}</span
                      >
                      <span class="secondary"
                        >${words.left}
                        ${amountWords(Math.max(0, row.onHand ?? 0), row.unit, view.shown, this.language)}</span
                      >
                      <span class="money"
                        >${row.toOrder.cost === null ? '' : formatMoney(row.toOrder.cost, this.language)}</span
                      >
                    </li>`,
                )}
              </ul>
              ${
                any === undefined
                  ? null
                  : html`<p class="total">
                      <b>${words.total}</b>
                      <b>${formatMoney({ minor: total, currency: any.currency }, this.language)}</b>
                    </p>`
              }`
      }
      <p class="tools no-print">
        ${this.benches.map(
          (bench) =>
            html`<button type="button" data-print-list=${bench.id} @click=${() => this.print(bench.id)}>
              ${words.printList}: ${bench.name}
            </button>`,
        )}
        <button type="button" data-print-page @click=${() => window.print()}>${tableWords[this.language].print}</button>
      </p>
    </section>`;
  }

  private print(bench: string): void {
    void this.attempt(async () => {
      const wish = { bench, language: this.language, print: true };
      const { title } = await ask<PrintPreview>('/api/supplies-order-list', sent(wish));
      this.said = suppliesWords[this.language].queued(title);
    });
  }

  private readonly noted = (event: CustomEvent<{ view: SuppliesView; name: string }>): void => {
    this.view = event.detail.view;
    this.said = suppliesWords[this.language].noted(event.detail.name);
  };

  static override styles = [
    ...PageElement.styles,
    css`
      .list li {
        display: grid;
        grid-template-columns: 20px minmax(180px, 2fr) 1fr 1fr 90px;
        gap: 12px;
        padding: 6px 0;
        border-bottom: 1px solid var(--kraft);
        align-items: center;
      }
      .box {
        width: 16px;
        height: 16px;
        border: 2px solid var(--ink);
      }
      .money,
      .total {
        text-align: right;
      }
      .total {
        display: flex;
        justify-content: flex-end;
        gap: 20px;
        padding: 8px 0;
      }
      h2 {
        margin-bottom: 6px;
      }
      @media (max-width: 700px) {
        .list li {
          grid-template-columns: 20px 1fr auto;
        }
        .list .secondary {
          grid-column: 2;
        }
      }
      @media print {
        .no-print,
        bf-supply-detail {
          display: none;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-supplies': Supplies;
  }
}
