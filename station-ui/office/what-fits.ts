import { LitElement, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { FitsView, WardrobeView } from '#shared/wire/fits.ts';
import { formatMass, massFromGrams } from '#shared/units/mass.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';
import { FirstReading } from '../components/first-reading.ts';
import { shape } from '../components/shapes.ts';
import { fitsWords, type FitsWords } from '../i18n/fits.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError } from './api.ts';
import { fitCard } from './fit-card.ts';
import { fitStyles } from './fit-styles.ts';
import { officeStyles } from './office-styles.ts';
import { planningApi, type PlanningApi } from './planning-api.ts';

/** Pieces of the shop, or a kind and a size, in every container: what fits, how surely, at what cost, and why not. */
@customElement('bf-what-fits')
export class WhatFits extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: PlanningApi = planningApi;
  @state() private wardrobe: WardrobeView | null = null;
  @state() private kind = '';
  @state() private view: FitsView | null = null;
  @state() private busy = false;
  @state() private failure = '';

  constructor() {
    super();
    // There is nothing to ask with before that is here.
    new FirstReading(this, (again) =>
      this.trying(async () => {
        this.wardrobe = await this.api.wardrobe();
      }, again),
    );
  }

  override render(): TemplateResult {
    const words = fitsWords[this.language];
    return html`<h2>${words.title}</h2>
      <p class="secondary">${words.how}</p>
      ${this.wardrobe === null ? null : this.form(this.wardrobe, words)}
      <p role="status" class="only-read">${this.busy ? words.working : ''}</p>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${this.view === null ? html`<p>${this.busy ? words.working : words.choose}</p>` : this.found(this.view, words)}`;
  }

  private form({ kinds, cloths, units, to }: WardrobeView, words: FitsWords): TemplateResult {
    const kind = kinds.find((each) => each.id === this.kind);
    const usualCloth = cloths.find((each) => each.id === kind?.defaultCloth);
    return html`<form @submit=${this.ask}>
      <fieldset>
        <legend>${words.atHand}</legend>
        <label class="wide"
          ><span>${words.skus}</span><input name="sku" type="search" placeholder=${words.skusHint}
        /></label>
      </fieldset>
      <fieldset>
        <legend>${words.byKind}</legend>
        <label
          ><span>${words.kind}</span>
          <select name="kind" @change=${this.chooseKind}>
            <option value="">${words.noKind}</option>
            ${kinds.map((each) => html`<option value=${each.id}>${each.name[this.language]}</option>`)}
          </select></label
        >
        <label
          ><span>${words.size}</span>
          <select name="size" ?disabled=${kind === undefined}>
            <option value="">${kind === undefined ? words.notKnown : words.usual(kind.defaultSize)}</option>
            ${kind?.sizes.map((size) => html`<option value=${size}>${size}</option>`)}
          </select></label
        >
        <label
          ><span>${words.cloth}</span>
          <select name="cloth" ?disabled=${usualCloth === undefined}>
            <option value="">
              ${usualCloth === undefined ? words.notKnown : words.usual(usualCloth.name[this.language])}
            </option>
            ${cloths.map((each) => html`<option value=${each.id}>${each.name[this.language]}</option>`)}
          </select></label
        >
        <label
          ><span>${words.mass(units.mass)}</span
          ><input
            name="mass"
            type="search"
            inputmode="decimal"
            placeholder=${words.massHint}
            ?disabled=${kind === undefined}
        /></label>
      </fieldset>
      <div class="last">
        <label><span>${words.postcode}</span><input name="to" type="search" .value=${to.postcode} /></label>
        <button class="main" type="submit" data-do="show">${words.show}</button>
      </div>
    </form>`;
  }

  private found(view: FitsView, words: FitsWords): TemplateResult {
    const { language } = this;
    const setting = { words, language, unit: view.units.length, currency: view.currency };
    const fitting = view.containers.filter((each) => each.fit.verdict !== 'no').length;
    const { legend } = words;
    return html`<div class="summary" aria-live="polite">
        <section>
          <h3>${words.pieces}</h3>
          <ul>
            ${view.pieces.map((piece) => this.piece(piece, view, words))}
          </ul>
        </section>
        <section data-plan>
          <h3>${words.plan}</h3>
          ${view.cost === null ? html`<p class="said">${shape('stop', 20)} ${words.noPlan}</p>` : this.plan(view, words)}
        </section>
      </div>
      <h3 class="count">${words.containers(fitting, view.containers.length)}</h3>
      <p class="legend secondary">
        ${words.toScale}
        ${(['inside', 'closing', 'stack', 'room'] as const).map((each) => html`<span><i class=${each}></i>${legend[each]}</span>`)}
      </p>
      <ul class="cards">
        ${view.containers.map((each) => fitCard(each, setting))}
      </ul>
      ${
        view.leftOut.length === 0
          ? null
          : html`<h3>${words.leftOut}</h3>
              <ul>
                ${view.leftOut.map((each) => html`<li>${each.name[language]}: ${each.why[language]}</li>`)}
              </ul>`
      }`;
  }

  private piece(piece: FitsView['pieces'][number], { units }: FitsView, words: FitsWords): TemplateResult {
    const mass = (grams: number) => formatMass(massFromGrams(grams), units.mass, units.massPlaces, this.language);
    const said = [piece.kind[this.language], piece.cloth?.[this.language] ?? ''].filter((each) => each !== '');
    const [first, second] = piece.assumed;
    const assumed = second === undefined ? first : 'both';
    return html`<li data-piece=${piece.sku}>
      <b>${piece.title}</b> <span class="secondary">${said.join(', ')}</span><br />
      ${piece.weighed ? words.weighed : words.expected} ${mass(piece.grams)} ± ${mass(piece.sd)}
      ${assumed === undefined ? null : html`<span class="said">${shape('attention', 18)} ${words.assumed[assumed]}</span>`}
    </li>`;
  }

  private plan({ parcels, cost, why, proven, lowerBound, currency }: FitsView, words: FitsWords): TemplateResult {
    const said = (minor: number) => formatMoney(money(Math.round(minor), currency), this.language);
    return html`<p>
        <b>${said(cost?.total ?? 0)}</b>, ${words.parcels(parcels.length)}:
        ${parcels.map(({ container }) => container[this.language]).join('; ')}
      </p>
      <p class="secondary">${why?.[this.language]}</p>
      ${
        proven || lowerBound === null
          ? null
          : html`<p class="said">${shape('attention', 18)} ${words.notProven(said(lowerBound))}</p>`
      }`;
  }

  private readonly chooseKind = (event: Event): void => {
    this.kind = (event.target as HTMLSelectElement).value;
  };

  private readonly ask = (event: Event): void => {
    event.preventDefault();
    const given = new FormData(event.target as HTMLFormElement);
    const query = new URLSearchParams();
    for (const [name, value] of given) {
      if (typeof value !== 'string') continue;
      const parts = name === 'sku' ? value.split(/[\s,;]+/) : [value.trim()];
      for (const part of parts) if (part !== '') query.append(name, part);
    }
    void this.trying(async () => {
      this.view = await this.api.whatFits(query);
    });
  };

  private async trying(what: () => Promise<void>, again = false): Promise<boolean> {
    this.busy = true;
    if (!again) this.failure = '';
    try {
      await what();
      this.failure = '';
      return true;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const words = fitsWords[this.language];
      this.failure = words.failed(error.message === '' ? words.noServer : error.message);
      return false;
    } finally {
      this.busy = false;
    }
  }

  static override styles = [base, officeStyles, fitStyles];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-what-fits': WhatFits;
  }
}
