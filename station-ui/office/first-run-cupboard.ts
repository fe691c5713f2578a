import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { decimalsIn, quantitiesIn } from '#shared/units/decimal-mark.ts';
import { moneyTextIn } from '#shared/units/money.ts';
import { CONTAINER_SORTS, type NewContainer } from '#shared/wire/first-run.ts';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import { firstRunWords } from '../i18n/first-run.ts';
import { FirstRunStep } from './first-run-page.ts';
import { plainId } from './plain-id.ts';

const NOTHING: NewContainer = { name: '', type: 'pouch', width: '', length: '', depth: '', mass: '', cost: '' };

/** Which containers stand in the cupboard, and which are missing in the list. */
@customElement('bf-first-run-cupboard')
export class FirstRunCupboard extends FirstRunStep {
  @state() private left: ReadonlySet<string> = new Set();
  @state() private added: readonly NewContainer[] = [];

  override render(): TemplateResult {
    const words = firstRunWords[this.language].containers;
    const { columns } = words;
    return html`<form data-step-form="containers" @submit=${this.submit}>
      <p class="hint">${words.how}</p>
      <div class="scroll" tabindex="0" role="group" aria-label=${words.keep}>
        <table>
          <thead>
            <tr>
              ${[words.keep, columns.size, columns.mass, columns.cost].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${this.view.containers.map(
              ({ id, name, size, mass, cost }) =>
                html`<tr>
                  <td>
                    <label
                      ><input
                        type="checkbox"
                        data-keep=${id}
                        .checked=${!this.left.has(id)}
                        @change=${() => this.toggle(id)}
                      />
                      <b>${name[this.language]}</b></label
                    >
                  </td>
                  <td>${quantitiesIn(size, this.language)}</td>
                  <td>${quantitiesIn(mass, this.language)}</td>
                  <td>${moneyTextIn(cost, this.language)}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      ${this.added.map((each, index) => this.row(each, index))}
      <p>
        <button type="button" data-another @click=${() => (this.added = [...this.added, NOTHING])}>
          ${words.another}
        </button>
      </p>
      ${this.wrong()} ${this.saveButton()}
    </form>`;
  }

  private row(each: NewContainer, index: number): TemplateResult {
    const words = firstRunWords[this.language].containers;
    const { length: unit, mass: massUnit } = EXAMPLES[this.view.shop.measures];
    const field = (key: Exclude<keyof NewContainer, 'type'>, label: string, hint: string, size = 9) =>
      html`<label
        ><span>${label}</span>
        <input
          name=${key}
          required
          size=${size}
          placeholder=${hint}
          .value=${each[key]}
          @input=${(event: Event) => this.change(index, { [key]: (event.target as HTMLInputElement).value })}
      /></label>`;
    return html`<div class="row" data-added=${index}>
      ${field('name', words.columns.name, '', 20)}
      <label
        ><span>${words.type}</span>
        <select
          name="type"
          @change=${(event: Event) => this.change(index, { type: (event.target as HTMLSelectElement).value as NewContainer['type'] })}
        >
          ${CONTAINER_SORTS.map((type) => html`<option value=${type} ?selected=${type === each.type}>${words.types[type]}</option>`)}
        </select></label
      >
      ${field('width', words.width, unit)} ${field('length', words.length, unit)}
      ${each.type === 'carton' ? field('depth', words.depth, unit) : null}
      ${field('mass', words.columns.mass, quantitiesIn(massUnit, this.language))}
      ${field('cost', words.columns.cost, decimalsIn('0.12', CUSTOMARY[this.view.shop.measures], this.language))}
      <button type="button" @click=${() => (this.added = this.added.filter((_, at) => at !== index))}>
        ${words.remove(each.name)}
      </button>
    </div>`;
  }

  /** A new container by its name and column. What is written twice of one field is told once. */
  protected override placeOf(problem: ConfigProblem): string {
    const [, id, field = ''] = /^containers\.([^.]+)\.(?:inside\.)?(\w+)/.exec(problem.path) ?? [];
    const named = this.added.find(({ name }) => plainId(name) === id);
    if (named === undefined) return super.placeOf(problem);
    const words = firstRunWords[this.language].containers;
    const columns: Readonly<Record<string, string>> = {
      ...words.columns,
      width: words.width,
      length: words.length,
      depth: words.depth,
    };
    return field === 'outside' || field === 'massSd' ? '' : `${named.name}, ${columns[field] ?? field}:`;
  }

  private change(index: number, change: Partial<NewContainer>): void {
    this.added = this.added.map((each, at) => (at === index ? { ...each, ...change } : each));
  }

  private toggle(id: string): void {
    const left = new Set(this.left);
    if (!left.delete(id)) left.add(id);
    this.left = left;
  }

  private readonly submit = (event: SubmitEvent): void => {
    event.preventDefault();
    const keep = this.view.containers.map(({ id }) => id).filter((id) => !this.left.has(id));
    void this.save('containers', { keep, add: this.added }).then((saved) => {
      if (!saved) return;
      this.left = new Set();
      this.added = [];
    });
  };
}

/** In what lengths are told, which says how decimals are written. */
const CUSTOMARY = { inches: 'in', centimetres: 'cm' } as const;

/** How a length and a mass are written, shown in an empty field. */
const EXAMPLES = {
  inches: { length: '12.25 in', mass: '10.5 g' },
  centimetres: { length: '31 cm', mass: '10.5 g' },
} as const;

declare global {
  interface HTMLElementTagNameMap {
    'bf-first-run-cupboard': FirstRunCupboard;
  }
}
