import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { MEASURES, type Measures } from '#shared/wire/first-run.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { firstRunWords } from '../i18n/first-run.ts';
import { wordsOf } from '../i18n/language.ts';
import { FirstRunStep, fieldText } from './first-run-page.ts';

/** Name, place and measures of the shop. */
@customElement('bf-first-run-shop')
export class FirstRunShop extends FirstRunStep {
  override render(): TemplateResult {
    const words = firstRunWords[this.language].shop;
    const { shop } = this.view;
    const field = (name: 'name' | 'currency' | 'country' | 'postcode', size: number, fixed = '') =>
      html`<label
        ><span>${words[name]}</span>
        <input name=${name} required maxlength=${size} .value=${shop[name]} pattern=${fixed === '' ? '.*' : fixed}
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
        ${field('country', 2, '[A-Z]{2}')} ${field('postcode', 20)}
        <label
          ><span>${words.address}</span>
          <textarea name="address" rows="4" required .value=${shop.address.join('\n')}></textarea>
        </label>
      </div>
      <p class="hint">${words.untouched}</p>
      ${this.wrong()} ${this.saveButton()}
    </form>`;
  }

  /** That of whoever sets the shop up, until somebody has said otherwise. */
  private zone(): string {
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
    return this.view.steps.shop === 'done' || here === 'UTC' ? this.view.shop.timeZone : here;
  }

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
