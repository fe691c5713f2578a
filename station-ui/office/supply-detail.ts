import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { amountShown, amountWords, rollUnit } from '#shared/supplies/amounts.ts';
import type { PersonRow } from '#shared/wire/office.ts';
import type { StockEntry, StockMoveRow, SuppliesView, SupplyHistory, SupplyRow } from '#shared/wire/supplies.ts';
import '../components/chart.ts';
import '../components/data-table.ts';
import { columnsOf } from '../components/table-rows.ts';
import { suppliesWords } from '../i18n/supplies.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

const KINDS = ['counted', 'received', 'ordered', 'taken'] as const;

/** One supply: noting what happened on the shelf, what each day took, and every change. */
@customElement('bf-supply-detail')
export class SupplyDetail extends PageElement {
  @property({ attribute: false }) supply!: SupplyRow;
  @property({ attribute: false }) view!: SuppliesView;
  @property({ attribute: false }) people: readonly PersonRow[] = [];
  @state() private history: SupplyHistory | null = null;

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('supply')) return;
    const before = changed.get('supply');
    if (before !== undefined && before.id !== this.supply.id) this.history = null;
    void this.attempt(async () => {
      this.history = await ask<SupplyHistory>(`/api/supplies/${encodeURIComponent(this.supply.id)}`);
    });
  }

  override updated(changed: PropertyValues<this>): void {
    const before = changed.get('supply');
    if (changed.has('supply') && before?.id !== this.supply.id) {
      this.renderRoot.querySelector<HTMLElement>('[name=amount]')?.focus();
    }
  }

  override render(): TemplateResult {
    const words = suppliesWords[this.language];
    const { supply, view, history } = this;
    const name = supply.name[this.language];
    const unit = supply.unit === 'piece' ? 'piece' : rollUnit(view.shown);
    return html`<div class="heading">
        <h2>${words.change(name)}</h2>
        <button type="button" data-put-away @click=${() => this.dispatchEvent(new CustomEvent('bf-put-away'))}>
          ${words.close}
        </button>
      </div>
      ${this.alert()}
      <form class="tools" data-stock-entry @submit=${this.note}>
        <label
          ><span>${words.what}</span>
          <select name="kind">
            ${KINDS.map((kind) => html`<option value=${kind}>${words.kinds[kind]}</option>`)}
          </select></label
        >
        <label><span>${words.amount}</span> <input name="amount" inputmode="decimal" required size="8" /></label>
        <label
          ><span>${words.inWhat}</span>
          <select name="in">
            <option value="unit">${words.units[unit]}</option>
            <option value="pack">
              ${words.inPacks(amountWords(supply.pack, supply.unit, view.shown, this.language))}
            </option>
          </select></label
        >
        <label
          ><span>${words.reason}</span> <input name="reason" list="reasons" size="24" maxlength="200" />
          <datalist id="reasons">${words.reasons.map((each) => html`<option value=${each}></option>`)}</datalist></label
        >
        <label
          ><span>${words.who}</span>
          <select name="who">
            <option value="">${words.nobody}</option>
            ${this.people.map((person) => html`<option value=${person.id}>${person.name}</option>`)}
          </select></label
        >
        <button type="submit" class="main">${words.note}</button>
      </form>
      ${history === null ? null : this.past(history)}`;
  }

  private past(history: SupplyHistory): TemplateResult {
    const words = suppliesWords[this.language];
    const { supply, view } = this;
    const shown = (value: number) => amountShown(value, supply.unit, view.shown);
    const unit = supply.unit === 'piece' ? '' : ` ${rollUnit(view.shown)}`;
    return html`<bf-chart
        .language=${this.language}
        .heading=${words.demand}
        .along=${words.day}
        .file=${`supply-${supply.id}`}
        .places=${history.days.map(({ day }) => day.slice(5))}
        .series=${[
          { name: words.used, as: 'bars', values: history.days.map(({ used }) => shown(used)) },
          { name: words.average, as: 'dashed', values: history.days.map(() => shown(supply.demand.mean)) },
        ]}
        .say=${(value: number) => `${decimalsIn(String(Math.round(value * 10) / 10), view.shown, this.language)}${unit}`}
      ></bf-chart>
      <div>
        <h3>${words.moves}</h3>
        <bf-data-table
          .language=${this.language}
          .name=${words.moves}
          .file=${`supply-${supply.id}-changes`}
          .columns=${this.moveColumns()}
          .rows=${history.moves}
          .keyOf=${(row: unknown) => String((row as StockMoveRow).id)}
        ></bf-data-table>
      </div>`;
  }

  private moveColumns() {
    const words = suppliesWords[this.language];
    const { supply, view } = this;
    const clock = { now: new Date(view.now), timeZone: view.timeZone };
    const amount = (value: number) => amountWords(value, supply.unit, view.shown, this.language);
    return columnsOf<StockMoveRow>([
      {
        key: 'at',
        title: words.at,
        value: (row) => new Date(row.at).toISOString(),
        cell: (row) => dayAndTime(new Date(row.at).toISOString(), this.language, clock),
      },
      { key: 'kind', title: words.what, value: (row) => words.kinds[row.kind] },
      {
        key: 'amount',
        title: words.amount,
        number: true,
        value: (row) => Math.round(amountShown(row.amount, supply.unit, view.shown) * 100) / 100,
        cell: (row) => `${row.amount > 0 && row.kind !== 'counted' ? '+' : ''}${amount(row.amount)}`,
      },
      {
        key: 'after',
        title: words.after,
        number: true,
        value: (row) =>
          row.after === null ? null : Math.round(amountShown(row.after, supply.unit, view.shown) * 100) / 100,
        cell: (row) => (row.after === null ? '' : amount(row.after)),
      },
      { key: 'reason', title: words.reason, value: (row) => row.reason },
      { key: 'parcel', title: words.parcel, value: (row) => parcelName(row.parcel) },
      { key: 'who', title: words.who, value: (row) => this.people.find(({ id }) => id === row.who)?.name ?? '' },
    ]);
  }

  private readonly note = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const said = (name: string): string => (new FormData(form).get(name) as string | null) ?? '';
    const entry: StockEntry = {
      kind: KINDS.find((kind) => kind === said('kind')) ?? 'counted',
      amount: said('amount').trim(),
      in: said('in') === 'pack' ? 'pack' : 'unit',
      reason: said('reason'),
      who: said('who') === '' ? null : said('who'),
    };
    const { id, name } = this.supply;
    void this.attempt(async () => {
      const view = await ask<SuppliesView>(`/api/supplies/${encodeURIComponent(id)}`, sent(entry));
      form.reset();
      this.dispatchEvent(new CustomEvent('bf-noted', { detail: { view, name: name[this.language] } }));
    });
  };

  static override styles = [
    ...PageElement.styles,
    css`
      form {
        align-items: end;
      }
    `,
  ];
}

/** "order/run/number" is for the store; people know order and number. */
function parcelName(parcel: string | null): string {
  const [order, , number] = (parcel ?? '').split('/');
  return order === undefined || number === undefined ? '' : `${order} / ${number}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-supply-detail': SupplyDetail;
  }
}
