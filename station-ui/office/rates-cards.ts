import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { CardRow, RatesOverview, ServiceRow, Standing } from '#shared/wire/rates.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { Standing as Shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { ratesStyles } from './rates-styles.ts';

const SHAPES: Readonly<Record<Standing, Shape>> = { 'in-force': 'well', 'to-come': 'waiting', ended: 'stop' };

/** Every card with its dates, and which of its services are sold on the day. */
@customElement('bf-rates-cards')
export class RatesCards extends LitElement {
  @property({ attribute: false }) overview!: RatesOverview;
  @property({ attribute: false }) words!: RatesWords;
  @property({ attribute: false }) language: Language = 'en';

  override render(): TemplateResult {
    const { words, overview } = this;
    return html`<h2>${words.cards}</h2>
      <div class="scroll" tabindex="0" role="region" aria-label=${words.cards}>
        <table>
          <thead>
            <tr>
              <th class="plain" scope="col">${words.carrier}</th>
              <th class="plain" scope="col">${words.from}</th>
              <th class="plain" scope="col">${words.until}</th>
              <th class="plain" scope="col">${words.standingToday}</th>
              <th class="plain" scope="col">${words.services}</th>
            </tr>
          </thead>
          <tbody>
            ${overview.cards.map((card) => this.card(card))}
          </tbody>
        </table>
      </div>`;
  }

  private card(card: CardRow): TemplateResult {
    const { words, language } = this;
    return html`<tr data-card=${card.file} data-standing=${card.standing}>
      <th scope="row">${card.name[language]}<br /><span class="file">${card.file}</span></th>
      <td class="nowrap">${card.from}</td>
      <td class="nowrap">${card.until ?? words.open}</td>
      <td class="nowrap">
        <span class="standing">${shape(SHAPES[card.standing], 18)} ${words.standing[card.standing]}</span>
      </td>
      <td>
        <ul>
          ${card.services.map((service) => this.service(service))}
        </ul>
      </td>
    </tr>`;
  }

  private service(service: ServiceRow): TemplateResult {
    const { words, language } = this;
    const name = service.name[language];
    const rule =
      service.rule === null
        ? words.standing[service.standing === 'in-force' ? 'ended' : service.standing]
        : words.rules[service.rule];
    const until = service.until === null ? '' : `, ${words.until} ${service.until}`;
    const detail = html`<span class="rule"
      >${service.rule === null && service.standing === 'in-force' ? words.noRule : rule}${until}</span
    >`;
    return html`<li data-service=${service.id} data-standing=${service.standing}>
      ${
        service.rule === null
          ? html`<span>${name}</span>`
          : html`<button
              type="button"
              class="link"
              aria-label=${words.showPrices(name)}
              @click=${() =>
                this.dispatchEvent(
                  new CustomEvent('bf-show-prices', { detail: service.id, bubbles: true, composed: true }),
                )}
            >
              ${name}
            </button>`
      }
      ${detail}
    </li>`;
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: 2px 22px;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        gap: 0 8px;
        align-items: baseline;
      }
      .link {
        min-height: 32px;
        padding: 2px 0;
        border: 0;
        background: none;
        text-align: left;
        color: var(--indigo);
        text-decoration: underline;
      }
      .rule,
      .file {
        color: var(--walnut);
        font-weight: 400;
      }
      .standing {
        display: inline-flex;
        gap: 8px;
        align-items: center;
      }
      .nowrap {
        white-space: nowrap;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-cards': RatesCards;
  }
}
