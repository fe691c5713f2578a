import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { NewPerson } from '#shared/wire/first-run.ts';
import { LANGUAGES, type Language } from '#shared/words/language.ts';
import { firstRunWords } from '../i18n/first-run.ts';
import { wordsOf } from '../i18n/language.ts';
import { FirstRunStep } from './first-run-page.ts';

const ROLES = ['owner', 'supervisor', 'packer'] as const;

/** Who works here. */
@customElement('bf-first-run-people')
export class FirstRunPeople extends FirstRunStep {
  @state() private added: readonly NewPerson[] = [];

  override connectedCallback(): void {
    super.connectedCallback();
    this.added = [{ name: '', role: 'owner', language: this.view.shop.language }];
  }

  override render(): TemplateResult {
    const words = firstRunWords[this.language].people;
    return html`<form data-step-form="people" @submit=${this.submit}>
      <p class="hint">${words.how}</p>
      <ul>
        ${this.view.people.map(({ id, name, badge }) => html`<li data-person=${id}><b>${name}</b> · ${words.badge(badge)}</li>`)}
      </ul>
      ${this.added.map((each, index) => this.row(each, index))}
      <p>
        <button type="button" data-another @click=${this.another}>${words.another}</button>
      </p>
      ${this.wrong()} ${this.saveButton()}
    </form>`;
  }

  private row(each: NewPerson, index: number): TemplateResult {
    const words = firstRunWords[this.language].people;
    return html`<div class="row">
      <label
        ><span>${words.name}</span>
        <input
          name="person"
          required
          maxlength="60"
          .value=${each.name}
          @input=${(event: Event) => this.change(index, { name: (event.target as HTMLInputElement).value })}
      /></label>
      <label
        ><span>${words.role}</span>
        <select
          name="role"
          @change=${(event: Event) => this.change(index, { role: (event.target as HTMLSelectElement).value as NewPerson['role'] })}
        >
          ${ROLES.map((role) => html`<option value=${role} ?selected=${role === each.role}>${words.roles[role]}</option>`)}
        </select></label
      >
      <label
        ><span>${words.speaks}</span>
        <select
          name="speaks"
          @change=${(event: Event) => this.change(index, { language: (event.target as HTMLSelectElement).value as Language })}
        >
          ${LANGUAGES.map(
            (language) =>
              html`<option value=${language} ?selected=${language === each.language}>
                ${wordsOf(language).languageName}
              </option>`,
          )}
        </select></label
      >
    </div>`;
  }

  private change(index: number, change: Partial<NewPerson>): void {
    this.added = this.added.map((each, at) => (at === index ? { ...each, ...change } : each));
  }

  private readonly another = (): void => {
    this.added = [...this.added, { name: '', role: 'packer', language: this.view.shop.language }];
  };

  private readonly submit = (event: SubmitEvent): void => {
    event.preventDefault();
    void this.save('people', { people: this.added }).then((saved) => {
      if (saved) this.added = [];
    });
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-first-run-people': FirstRunPeople;
  }
}
