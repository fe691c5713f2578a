import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { LearnedOutlier, LearnedRow, LearnedView } from '#shared/wire/learned.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { formatMass, massFromGrams } from '#shared/units/mass.ts';
import type { Language } from '#shared/words/language.ts';
import { FirstReading } from '../components/first-reading.ts';
import { shape } from '../components/shapes.ts';
import { learnedWords, type LearnedWords } from '../i18n/learned.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';
import { planningApi, type PlanningApi } from './planning-api.ts';

/** How figures are written in the shop's units. */
interface Figures {
  readonly grams: (mean: number) => string;
  readonly plain: (value: number, places: number) => string;
}

function hasLearned({ mass, thickness, outliers }: LearnedRow): boolean {
  return mass.parcels + thickness.closed + thickness.tooTight + outliers.length > 0;
}

/** What parcels taught of each kind: before and now, from how many, what was odd; and forgetting it. */
@customElement('bf-learned')
export class Learned extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: PlanningApi = planningApi;
  @state() private view: LearnedView | null = null;
  @state() private onlyLearned = true;
  /** the kind about to be forgotten */
  @state() private asked: string | null = null;
  @state() private said = '';
  @state() private failure = '';

  constructor() {
    super();
    new FirstReading(this, (again) => this.trying(() => this.api.learned(), again));
  }

  override render(): TemplateResult {
    const words = learnedWords[this.language];
    return html`<h2>${words.title}</h2>
      <p class="secondary how">${words.how}</p>
      <p role="status" class="said">${this.said}</p>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${this.view === null ? html`<p>${words.loading}</p>` : this.table(this.view, words)}`;
  }

  private table(view: LearnedView, words: LearnedWords): TemplateResult {
    const rows = view.rows.filter((row) => !this.onlyLearned || hasLearned(row));
    return html`<label class="only"
        ><input type="checkbox" .checked=${this.onlyLearned} @change=${() => (this.onlyLearned = !this.onlyLearned)} />
        ${words.onlyLearned}</label
      >
      ${
        rows.length === 0
          ? html`<p>${words.nothingYet}</p>`
          : html`<div class="scroll">
              <table>
                <thead>
                  <tr>
                    <th class="plain" scope="col" rowspan="2">${words.kind}</th>
                    <th class="plain" scope="colgroup" colspan="3">${words.mass}</th>
                    <th class="plain" scope="colgroup" colspan="4">${words.thickness}</th>
                    <th class="plain" scope="col" rowspan="2">${words.outliers}</th>
                    <td rowspan="2"></td>
                  </tr>
                  <tr>
                    ${[words.before, words.now, words.parcels, words.before, words.now, words.closed, words.tooTight].map((each) => html`<th class="plain" scope="col">${each}</th>`)}
                  </tr>
                </thead>
                <tbody>
                  ${rows.map((row) => this.row(row, view, words))}
                </tbody>
              </table>
            </div>`
      }`;
  }

  private row(row: LearnedRow, { units }: LearnedView, words: LearnedWords): TemplateResult {
    const grams = (mean: number) => formatMass(massFromGrams(mean), units.mass, units.massPlaces, this.language);
    const mass = ({ mean, sd }: LearnedRow['mass']['now']) =>
      html`${grams(mean)} <span class="secondary">± ${grams(sd)}</span>`;
    const plain = (value: number, places: number) => decimalsIn(value.toFixed(places), units.mass, this.language);
    const factor = ({ mean, sd }: LearnedRow['thickness']['now']) =>
      html`${plain(mean, 2)} <span class="secondary">± ${plain(sd, 2)}</span>`;
    const { thickness } = row;
    return html`<tr data-kind=${row.kind}>
      <th class="plain" scope="row">${row.name[this.language]}</th>
      <td class="nowrap">${mass(row.mass.prior)}</td>
      <td class="nowrap">${row.mass.parcels === 0 ? '' : mass(row.mass.now)}</td>
      <td>${row.mass.parcels}</td>
      <td class="nowrap">${factor(thickness.prior)}</td>
      <td class="nowrap">${thickness.closed + thickness.tooTight === 0 ? '' : factor(thickness.now)}</td>
      <td>${thickness.closed}</td>
      <td>${thickness.tooTight}</td>
      <td>
        <ul>
          ${row.outliers.map((each) => html`<li class="said">${shape('attention', 18)} <span>${this.outlier(each, { grams, plain }, words)}</span></li>`)}
        </ul>
      </td>
      <td>${hasLearned(row) ? this.forgetting(row, words) : null}</td>
    </tr>`;
  }

  private outlier(each: LearnedOutlier, { grams, plain }: Figures, words: LearnedWords): TemplateResult {
    const chance = (value: number) => (value < 0.0001 ? `< ${plain(0.0001, 4)}` : plain(value, 4));
    const what =
      each.about === 'mass'
        ? words.weighed(grams(each.grams), plain(Math.abs(each.deviations), 1))
        : each.closed
          ? words.didClose(chance(each.chance))
          : words.didNotClose(chance(each.chance));
    return html`<b>${words.order} ${each.order}</b>, ${each.container}: ${what}; ${words.notLearned}`;
  }

  private forgetting(row: LearnedRow, words: LearnedWords): TemplateResult {
    const name = row.name[this.language];
    if (this.asked !== row.kind) {
      return html`<button type="button" data-forget=${row.kind} @click=${() => (this.asked = row.kind)}>
        ${words.forget}<span class="only-read"> ${name}</span>
      </button>`;
    }
    return html`<span class="both">
      <button type="button" class="main" data-forget-sure=${row.kind} @click=${() => void this.forget(row.kind, name)}>
        ${words.forgetSure(name)}
      </button>
      <button type="button" @click=${() => (this.asked = null)}>${words.keep}</button>
    </span>`;
  }

  private async forget(kind: string, name: string): Promise<void> {
    await this.trying(() => this.api.forget(kind));
    this.asked = null;
    if (this.failure === '') this.said = learnedWords[this.language].forgotten(name);
  }

  private async trying(what: () => Promise<LearnedView>, again = false): Promise<boolean> {
    if (!again) this.failure = '';
    try {
      this.view = await what();
      this.failure = '';
      return true;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const words = learnedWords[this.language];
      this.failure = words.failed(error.message === '' ? words.noServer : error.message);
      return false;
    }
  }

  static override styles = [
    base,
    officeStyles,
    css`
      .how {
        max-width: 78ch;
        margin-bottom: 10px;
      }
      .only {
        display: inline-flex;
        gap: 10px;
        align-items: center;
        min-height: 44px;
      }
      .only input {
        width: 22px;
        height: 22px;
        accent-color: var(--indigo);
      }
      .scroll {
        overflow-x: auto;
      }
      thead th {
        border-bottom: 0;
      }
      thead tr:last-child th,
      thead [rowspan] {
        border-bottom: 3px dashed var(--thread);
      }
      thead tr:last-child th {
        font-weight: 400;
      }
      tbody th {
        border-bottom: 1px solid var(--kraft);
        vertical-align: top;
      }
      .nowrap {
        white-space: nowrap;
      }
      .both {
        display: flex;
        gap: 8px;
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-learned': Learned;
  }
}
