import { html, nothing } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { DAY_ORDERS, DECIMAL_MARKS, MEASURES, type Measures, type ShopFacts } from '#shared/wire/first-run.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { firstRunWords } from '../i18n/first-run.ts';
import { wordsOf } from '../i18n/language.ts';
import { FirstRunStep, fieldText } from './first-run-page.ts';
import { usualIn } from './usual-writing.ts';

/** Name, place and measures of the shop. */
@customElement('bf-first-run-shop')
export class FirstRunShop extends FirstRunStep {
  @state() private country: string | null = null;
  @state() private said: Partial<Pick<ShopFacts, 'days' | 'decimals'>> = {};

  override render(): TemplateResult {
    const words = firstRunWords[this.language].shop;
    const { shop } = this.view;
    const field = (name: 'name' | 'currency' | 'country' | 'postcode', size: number, fixed = '') =>
      html`<label
        ><span>${words[name]}</span>
        <input
          name=${name}
          required
          maxlength=${size}
          .value=${shop[name]}
          pattern=${fixed === '' ? '.*' : fixed}
          @change=${name === 'country' ? this.moved : nothing}
      /></label>`;
    return html`<form data-step-form="shop" @submit=${this.submit}>
      <div class="fields">
        ${field('name', 120)}
        <label
          ><span>${words.measures}</span>
          <select name="measures">
            ${MEASURES.map(
              (each) => html`<option value=${each} ?selected=${each === shop.measures}>${words.measure[each]}</option>`,
            )}
          </select></label
        >
        ${field('currency', 3, '[A-Z]{3}')}
        <label
          ><span>${words.timeZone}</span>
          <input name="timeZone" list="zones" required .value=${this.zone()} />
          <datalist id="zones">
            ${Intl.supportedValuesOf('timeZone').map((zone) => html`<option value=${zone}></option>`)}
          </datalist></label
        >
        <label
          ><span>${words.language}</span>
          <select name="language">
            ${LANGUAGES.map(
              (each) =>
                html`<option value=${each} ?selected=${each === shop.language}>${wordsOf(each).languageName}</option>`,
            )}
          </select></label
        >
        ${field('country', 2, '[A-Z]{2}')} ${field('postcode', 20)} ${this.choice('days', DAY_ORDERS)}
        ${this.choice('decimals', DECIMAL_MARKS)}
        <label
          ><span>${words.address}</span>
          <textarea name="address" rows="4" required .value=${shop.address.join('\n')}></textarea>
        </label>
      </div>
      <p class="hint">${words.untouched}</p>
      ${this.wrong()} ${this.saveButton()}
    </form>`;
  }

  /** How spreadsheets write it: as is usual in the country, until somebody says otherwise. */
  private choice(
    name: 'days' | 'decimals',
    all: readonly (ShopFacts['days'] | ShopFacts['decimals'])[],
  ): TemplateResult {
    const words = firstRunWords[this.language].shop;
    const chosen = this.said[name] ?? (this.view.steps.shop === 'done' ? this.view.shop[name] : this.usual()[name]);
    return html`<label
      ><span>${words[name]}</span>
      <select
        name=${name}
        @change=${(event: Event) => (this.said = { ...this.said, [name]: (event.target as HTMLSelectElement).value })}
      >
        ${all.map((each) => html`<option value=${each} ?selected=${each === chosen}>${words.written[each]}</option>`)}
      </select></label
    >`;
  }

  private usual(): Pick<ShopFacts, 'days' | 'decimals'> {
    return usualIn(this.country ?? this.view.shop.country);
  }

  /** That of whoever sets the shop up, until somebody has said otherwise. */
  private zone(): string {
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
    return this.view.steps.shop === 'done' || here === 'UTC' ? this.view.shop.timeZone : here;
  }

  private readonly moved = (event: Event): void => {
    this.country = (event.target as HTMLInputElement).value.trim().toUpperCase();
  };

  private readonly submit = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const text = (name: string) => fieldText(form, name);
    void this.save('shop', {
      name: text('name'),
      measures: text('measures') as Measures,
      currency: text('currency'),
      timeZone: text('timeZone'),
      language: text('language'),
      postcode: text('postcode'),
      country: text('country'),
      days: text('days') as ShopFacts['days'],
      decimals: text('decimals') as ShopFacts['decimals'],
      address: text('address')
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== ''),
    });
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-first-run-shop': FirstRunShop;
  }
}
