import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { RatesOverview } from '#shared/wire/rates.ts';
import type { Language } from '#shared/words/language.ts';
import { FirstReading } from '../components/first-reading.ts';
import { shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { ratesApi } from './rates-api.ts';
import type { RatesApi } from './rates-api.ts';
import './rates-cards.ts';
import { failureWords } from './rates-failure.ts';
import './rates-import.ts';
import { ratesStyles } from './rates-styles.ts';
import './rates-table.ts';
import './rates-what-if.ts';

/** Prices: what is in force on a day, what a parcel would cost, the price grid, and a new price list. */
@customElement('bf-rates')
export class Rates extends LitElement {
  @property({ attribute: false }) words!: RatesWords;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: RatesApi = ratesApi;
  @state() private overview: RatesOverview | null = null;
  /** empty: the shop's today */
  @state() private day = '';
  @state() private service: string | null = null;
  @state() private failure = '';
  @state() private done = '';
  /** counts the times that prices were read, so that what is shown asks again */
  @state() private times = 0;

  constructor() {
    super();
    new FirstReading(this, () => this.read());
  }

  override render(): TemplateResult {
    const { words, overview, language } = this;
    return html`<div class="fields">
        <label class="field"
          ><span>${words.day}</span>
          <input type="date" data-rates="day" .value=${overview?.day ?? ''} @change=${this.chooseDay}
        /></label>
        <button type="button" data-rates="today" @click=${() => this.goTo('')}>${words.today}</button>
        <button type="button" data-rates="reload" @click=${this.reload}>${words.readFiles}</button>
        <p role="status">${this.done}</p>
      </div>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${
        overview === null
          ? html`<p>${words.loading}</p>`
          : html`<bf-rates-cards
                .overview=${overview}
                .words=${words}
                .language=${language}
                @bf-show-prices=${(event: CustomEvent<string>) => (this.service = event.detail)}
              ></bf-rates-cards>
              <bf-rates-table
                .overview=${overview}
                .service=${this.service ?? overview.cards.flatMap((card) => card.services).find((each) => each.rule !== null)?.id ?? null}
                .times=${this.times}
                .words=${words}
                .language=${language}
                .api=${this.api}
                @bf-show-prices=${(event: CustomEvent<string>) => (this.service = event.detail)}
              ></bf-rates-table>
              <bf-rates-what-if
                .overview=${overview}
                .times=${this.times}
                .words=${words}
                .language=${language}
                .api=${this.api}
              ></bf-rates-what-if>
              <bf-rates-import
                .overview=${overview}
                .words=${words}
                .language=${language}
                .api=${this.api}
                @bf-rates-changed=${() => void this.read()}
              ></bf-rates-import>`
      }`;
  }

  private readonly chooseDay = (event: Event): void => {
    const { value } = event.target as HTMLInputElement;
    if (value !== '') this.goTo(value);
  };

  private goTo(day: string): void {
    this.day = day;
    void this.read();
  }

  private readonly reload = (): void => {
    void this.attempt(async () => {
      const { services } = await this.api.reload();
      await this.read();
      this.done = this.words.filesRead(services);
    });
  };

  private async read(): Promise<boolean> {
    this.done = '';
    return this.attempt(async () => {
      this.overview = await this.api.overview(this.day);
      this.times += 1;
    });
  }

  private async attempt(task: () => Promise<void>): Promise<boolean> {
    try {
      await task();
      this.failure = '';
      return true;
    } catch (error) {
      this.failure = failureWords(error, this.words);
      return false;
    }
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      bf-rates-table,
      bf-rates-what-if,
      bf-rates-import {
        margin-top: 18px;
        padding-top: 14px;
        border-top: 3px dashed var(--thread);
      }
      bf-rates-cards {
        margin-top: 14px;
      }
      .fields p {
        align-self: center;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates': Rates;
  }
}
