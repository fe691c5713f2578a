import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { PriceDifference, PriceTable, RatesOverview } from '#shared/wire/rates.ts';
import type { Language } from '#shared/words/language.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';
import { ratesApi } from './rates-api.ts';
import type { RatesApi } from './rates-api.ts';
import './rates-difference.ts';
import { failureWords } from './rates-failure.ts';
import { ratesStyles } from './rates-styles.ts';

/** The prices of one service: brackets, tiers or containers down, zones across. */
@customElement('bf-rates-table')
export class RatesTable extends LitElement {
  @property({ attribute: false }) overview!: RatesOverview;
  @property({ attribute: false }) service: string | null = null;
  @property({ attribute: false }) times = 0;
  @property({ attribute: false }) words!: RatesWords;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: Pick<RatesApi, 'table' | 'difference'> = ratesApi;
  /** another day to compare with; empty: none */
  @state() private other = '';
  @state() private difference: PriceDifference | null = null;
  @state() private notCompared = '';
  @state() private table: PriceTable | null = null;
  @state() private failure = '';

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('service') && !changed.has('times')) return;
    void this.read();
    void this.compare();
  }

  override render(): TemplateResult {
    const { words, language, overview } = this;
    const services = new Map(
      overview.cards.flatMap((card) => card.services.map((each) => [each.id, each.name[language]] as const)),
    );
    return html`<div class="fields">
        <h2>${words.prices}</h2>
        <label class="field"
          ><span>${words.service}</span>
          <select data-rates="service" @change=${this.choose}>
            ${[...services].map(
              ([id, name]) => html`<option value=${id} ?selected=${id === this.service}>${name}</option>`,
            )}
          </select></label
        >
        <label class="field"
          ><span>${words.compareDay}</span>
          <input type="date" data-rates="compare-day" .value=${this.other} @change=${this.chooseOther}
        /></label>
      </div>
      ${this.failure === '' ? null : html`<p role="status">${this.failure}</p>`}
      ${this.table === null ? null : this.shown(this.table)}
      ${this.notCompared === '' ? null : html`<p role="status" data-rates="not-compared">${this.notCompared}</p>`}
      ${
        this.difference === null
          ? null
          : html`<bf-rates-difference
              .difference=${this.difference}
              .currency=${overview.currency}
              .words=${words}
              .language=${language}
            ></bf-rates-difference>`
      }`;
  }

  private shown(table: PriceTable): TemplateResult {
    const { words, language } = this;
    const zones = table.zones ?? [null];
    const names = (list: PriceTable['surcharges']) => list.map((each) => each[language]).join(', ');
    return html`<div class="scroll" tabindex="0" role="region" aria-label=${words.prices}>
        <table data-table="prices">
          <thead>
            <tr>
              <th class="plain" scope="col">${words.rows[table.rule]}</th>
              ${zones.map(
                (zone) =>
                  html`<th class="plain amount" scope="col">${zone === null ? words.everyZone : words.zone(zone)}</th>`,
              )}
            </tr>
          </thead>
          <tbody>
            ${table.rows.map(
              (row) =>
                html`<tr>
                  <th scope="row">${quantitiesIn(row.label, this.language)}</th>
                  ${row.prices.map(
                    (minor) =>
                      html`<td class="amount">
                        ${minor === null ? words.none : formatMoney(money(minor, table.currency), language)}
                      </td>`,
                  )}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p class="hint">
        ${table.volumeCounts ? words.volumeCounts : ''}
        ${table.surcharges.length === 0 ? '' : words.surcharges(names(table.surcharges))}
        ${table.discounts.length === 0 ? '' : words.discounts(names(table.discounts))}
      </p>`;
  }

  private readonly choose = (event: Event): void => {
    const { value } = event.target as HTMLSelectElement;
    this.dispatchEvent(new CustomEvent('bf-show-prices', { detail: value, bubbles: true, composed: true }));
  };

  private readonly chooseOther = (event: Event): void => {
    this.other = (event.target as HTMLInputElement).value;
    void this.compare();
  };

  /** The prices of the earlier day against those of the later one. */
  private async compare(): Promise<void> {
    const { service, other, overview } = this;
    this.difference = null;
    this.notCompared = '';
    if (service === null || other === '') return;
    const [before = '', after = ''] = [overview.day, other].sort();
    try {
      const difference = await this.api.difference(service, before, after);
      if (service === this.service && other === this.other) this.difference = difference;
    } catch (error) {
      const absent = error instanceof OfficeRequestError && error.code === 'not-on-day';
      this.notCompared = absent ? this.words.notOnDay(service, other) : failureWords(error, this.words);
    }
  }

  private async read(): Promise<void> {
    const { service, overview } = this;
    if (service === null) return;
    try {
      const table = await this.api.table(service, overview.day);
      // Another service may have been chosen meanwhile.
      if (service === this.service) this.table = table;
      this.failure = '';
    } catch (error) {
      this.table = null;
      const absent = error instanceof OfficeRequestError && error.code === 'not-on-day';
      this.failure = absent ? this.words.notOnDay(service, overview.day) : failureWords(error, this.words);
    }
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      .fields {
        margin-bottom: 8px;
      }
      .hint {
        margin-top: 6px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-table': RatesTable;
  }
}
