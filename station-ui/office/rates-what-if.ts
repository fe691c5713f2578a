import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { quantitiesIn, writtenWith } from '#shared/units/decimal-mark.ts';
import { formatMoney } from '#shared/units/money.ts';
import { typedQuantity } from '#shared/units/typed.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { OfferRow, RatesOverview, WhatIf, WhatIfRequest } from '#shared/wire/rates.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { ratesApi } from './rates-api.ts';
import type { RatesApi } from './rates-api.ts';
import './rates-curve.ts';
import { failureWords } from './rates-failure.ts';
import { ratesStyles } from './rates-styles.ts';

type ParcelBy = 'container' | 'size' | 'soft' | 'roll';
type PlaceBy = 'postcode' | 'zone';

/** What a piece of clothing in its wrap may weigh, to begin with. */
const USUAL_MASS: Readonly<Record<MassUnit, string>> = { oz: '8 oz', lb: '0.5 lb', g: '250 g', kg: '0.25 kg' };

/** A parcel, a place and a day; then every offer side by side, who refuses and why, and the price over mass. */
@customElement('bf-rates-what-if')
export class RatesWhatIf extends LitElement {
  @property({ attribute: false }) overview!: RatesOverview;
  @property({ attribute: false }) times = 0;
  @property({ attribute: false }) words!: RatesWords;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: Pick<RatesApi, 'whatIf'> = ratesApi;
  @state() private parcelBy: ParcelBy = 'container';
  @state() private placeBy: PlaceBy = 'postcode';
  @state() private answer: WhatIf | null = null;
  @state() private failure = '';
  private asked = false;
  private turn = 0;

  override updated(changed: PropertyValues<this>): void {
    // Prices or words are other ones now: ask again what was asked.
    if (this.asked && (changed.has('times') || changed.has('language'))) void this.ask();
  }

  override render(): TemplateResult {
    const { words } = this;
    return html`<h2>${words.whatIf}</h2>
      <form @submit=${this.submitted}>
        <div class="fields">
          <fieldset>
            <legend>${words.parcel}</legend>
            ${this.choice('parcel', 'container', words.byContainer, this.parcelBy)}
            ${this.choice('parcel', 'size', words.bySize, this.parcelBy)}
            ${this.choice('parcel', 'soft', words.bySoft, this.parcelBy)}
            ${this.choice('parcel', 'roll', words.byRoll, this.parcelBy)}
          </fieldset>
          ${this.parcelFields()}
          <label class="field"
            ><span>${words.mass} (${words.massHint})</span
            ><input name="mass" autocomplete="off" required .defaultValue=${USUAL_MASS[this.overview.units.mass]}
          /></label>
        </div>
        <div class="fields">
          <fieldset>
            <legend>${words.destination}</legend>
            ${this.choice('place', 'postcode', words.toPostcode, this.placeBy)}
            ${this.choice('place', 'zone', words.toZone, this.placeBy)}
          </fieldset>
          ${
            this.placeBy === 'zone'
              ? html`<label class="field"
                  ><span>${words.toZone}</span><input name="zone" autocomplete="off" required size="8"
                /></label>`
              : html`<label class="field"
                    ><span>${words.postcode}</span><input name="postcode" autocomplete="off" required size="10"
                  /></label>
                  <label class="field"
                    ><span>${words.country}</span
                    ><input
                      name="country"
                      autocomplete="off"
                      size="3"
                      maxlength="2"
                      .defaultValue=${this.overview.from.country}
                  /></label>
                  <label class="tick"><input type="checkbox" name="residential" /> ${words.residential}</label>`
          }
          <button class="main" data-rates="ask">${words.ask}</button>
        </div>
      </form>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${this.answer === null ? null : this.shown(this.answer)}`;
  }

  private choice(name: 'parcel' | 'place', value: ParcelBy | PlaceBy, label: string, now: string): TemplateResult {
    return html`<label
      ><input
        type="radio"
        name=${name}
        value=${value}
        .checked=${now === value}
        @change=${() => {
          if (name === 'parcel') this.parcelBy = value as ParcelBy;
          else this.placeBy = value as PlaceBy;
        }}
      />
      ${label}</label
    >`;
  }

  private parcelFields(): TemplateResult {
    const { words, overview, language } = this;
    if (this.parcelBy === 'size') {
      return html`<label class="field"
        ><span>${words.bySize} (${words.sizeHint})</span><input name="size" autocomplete="off" required
      /></label>`;
    }
    if (this.parcelBy === 'soft') {
      return html`<label class="field"
        ><span>${words.bySoft} (${words.softHint})</span><input name="soft" autocomplete="off" required
      /></label>`;
    }
    if (this.parcelBy === 'roll') {
      return html`<label class="field"
        ><span>${words.byRoll} (${words.rollHint})</span><input name="roll" autocomplete="off" required
      /></label>`;
    }
    return html`<label class="field"
        ><span>${words.byContainer}</span>
        <select name="container">
          ${overview.containers.map(({ id, name }) => html`<option value=${id}>${name[language]}</option>`)}
        </select></label
      >
      <label class="field"
        ><span>${words.thickness}</span><input name="thickness" autocomplete="off" size="8"
      /></label>`;
  }

  private shown(answer: WhatIf): TemplateResult {
    const { words } = this;
    return html`<div role="status"><h3>${words.offers(answer.offers.length)} · ${answer.day}</h3></div>
      ${answer.offers.length === 0 ? html`<p class="said">${shape('stop', 20)} ${words.noOffers}</p>` : null}
      <ul class="offers">
        ${answer.offers.map((offer, index) => this.offer(offer, index === 0))}
      </ul>
      ${
        answer.refused.length === 0
          ? null
          : html`<h3>${words.refusedBy(answer.refused.length)}</h3>
              <table data-table="refused">
                <tbody>
                  ${answer.refused.map(
                    (refusal) =>
                      html`<tr data-refused=${refusal.service}>
                        <th scope="row"><span class="mark">${shape('stop', 18)} ${refusal.name}</span></th>
                        <td>${refusal.why}</td>
                      </tr>`,
                  )}
                </tbody>
              </table>`
      }
      <bf-rates-curve .answer=${answer} .words=${words} .language=${this.language}></bf-rates-curve>`;
  }

  private offer(offer: OfferRow, cheapest: boolean): TemplateResult {
    const { words } = this;
    return html`<li class="tag kraft" data-offer=${offer.service}>
      <p class="name">${offer.name}</p>
      <p class="price">
        <b>${formatMoney(offer.price, this.language)}</b>
        ${cheapest ? html`<span class="mark">${shape('well', 18)} ${words.cheapest}</span>` : null}
      </p>
      <p>
        ${words.rules[offer.rule]} ·
        ${words.zone(offer.zone)}${offer.days === null ? null : html` · ${words.delivery(...offer.days)}`}
      </p>
      <p>
        ${words.billed}
        ${quantitiesIn(offer.billed, this.language)}${offer.ceiling === null ? null : html`, ${words.upTo} ${quantitiesIn(offer.ceiling, this.language)}`}
      </p>
      <h4>${words.why}</h4>
      <ul class="lines">
        ${offer.reasons.map((reason) => html`<li>${reason}</li>`)}
      </ul>
      ${
        offer.edges.length === 0
          ? null
          : html`<h4>${words.nextEdges}</h4>
              <ul class="lines">
                ${offer.edges.map((edge) => html`<li data-leads=${edge.leads}><b>${words.leads[edge.leads]}:</b> ${edge.words}</li>`)}
              </ul>`
      }
    </li>`;
  }

  private readonly submitted = (event: Event): void => {
    event.preventDefault();
    void this.ask();
  };

  private request(): WhatIfRequest {
    const form = this.renderRoot.querySelector('form');
    const data = new FormData(form ?? undefined);
    const text = (name: string): string => {
      const value = data.get(name);
      return typeof value === 'string' ? value.trim() : '';
    };
    const { units, day } = this.overview;
    const length = (name: string): string => text(name).replace(/(\d),(\d)/g, '$1.$2');
    const thickness = text('thickness') === '' ? {} : { thickness: length('thickness') };
    const parcel = {
      container: { container: text('container'), ...thickness },
      size: { size: length('size') },
      soft: { soft: length('soft') },
      roll: { roll: length('roll') },
    }[this.parcelBy];
    const place =
      this.placeBy === 'zone'
        ? { zone: text('zone') }
        : {
            to: {
              postcode: text('postcode'),
              country: text('country').toUpperCase(),
              ...(data.has('residential') ? { residential: true } : {}),
            },
          };
    return {
      day,
      mass: typedQuantity(text('mass'), writtenWith(units.mass, this.language), units.mass),
      ...parcel,
      ...place,
      language: this.language,
    };
  }

  private async ask(): Promise<void> {
    // A day that changes while the answer is on its way asks again, and only the newest answer counts.
    this.asked = true;
    const turn = ++this.turn;
    try {
      const answer = await this.api.whatIf(this.request());
      if (turn !== this.turn) return;
      this.answer = answer;
      this.failure = '';
    } catch (error) {
      if (turn !== this.turn) return;
      this.answer = null;
      this.failure = failureWords(error, this.words);
    }
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      form {
        display: grid;
        gap: 10px;
      }
      .offers {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(270px, 1fr));
        gap: 14px;
      }
      .tag {
        padding: 10px 16px 12px;
        clip-path: polygon(0 0, calc(100% - 20px) 0, 100% 20px, 100% 100%, 0 100%);
      }
      .name {
        font-weight: 700;
        padding-right: 18px;
      }
      .price b {
        font-size: 26px;
        line-height: 1.2;
        margin-right: 8px;
      }
      .mark {
        display: inline-flex;
        gap: 6px;
        align-items: center;
      }
      h4 {
        margin: 8px 0 0;
        font-size: 15px;
        color: var(--walnut);
      }
      .lines {
        font-size: 15px;
      }
      .lines li {
        padding: 1px 0;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-what-if': RatesWhatIf;
  }
}
