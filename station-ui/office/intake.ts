import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { IntakeToken, NewIntakeToken } from '#shared/wire/intake.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import { shape } from '../components/shapes.ts';
import { intakeWords } from '../i18n/intake.ts';
import { wordsOf } from '../i18n/language.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

const SUBJECTS: readonly ImportSubject[] = ['pieces', 'orders'];

/** Tokens for other systems that send pieces and orders: made, shown once, revoked. */
@customElement('bf-intake')
export class Intake extends PageElement {
  @state() private tokens: readonly IntakeToken[] = [];
  @state() private made: { readonly name: string; readonly token: string } | null = null;
  @state() private asking: number | null = null;
  @state() private name = '';
  @state() private may: ReadonlySet<ImportSubject> = new Set(SUBJECTS);

  constructor() {
    super();
    this.readFirst(async () => {
      this.tokens = await ask<readonly IntakeToken[]>('/api/intake-tokens');
    });
  }

  override render(): TemplateResult {
    const words = intakeWords[this.language];
    const { subjects } = wordsOf(this.language).office;
    return html`<h2>${words.title}</h2>
      <p class="hint">${words.how(`${location.origin}/api/intake/`)}</p>
      ${this.alert()} ${this.shownOnce()}
      <form class="tools" @submit=${this.make}>
        <label
          ><span>${words.name}</span>
          <input
            name="token-name"
            maxlength="80"
            placeholder=${words.nameHint}
            .value=${this.name}
            @input=${(event: Event) => (this.name = (event.target as HTMLInputElement).value)}
        /></label>
        <fieldset>
          <legend>${words.may}</legend>
          ${SUBJECTS.map(
            (subject) =>
              html`<label class="tick"
                ><input type="checkbox" .checked=${this.may.has(subject)} @change=${() => this.toggle(subject)} />
                ${subjects[subject]}</label
              >`,
          )}
        </fieldset>
        <button type="submit" data-token="make" ?disabled=${this.name.trim() === '' || this.may.size === 0}>
          ${words.make}
        </button>
      </form>
      ${this.tokens.length === 0 ? null : this.table()}`;
  }

  private shownOnce(): TemplateResult | null {
    const words = intakeWords[this.language];
    if (this.made === null) return null;
    return html`<div class="once" role="status">
      <p class="said">${shape('attention', 22)} <b>${words.once(this.made.name)}</b></p>
      <code data-token="made">${this.made.token}</code>
      <button type="button" @click=${() => (this.made = null)}>${words.putAway}</button>
    </div>`;
  }

  private table(): TemplateResult {
    const { columns } = intakeWords[this.language];
    return html`<div class="scroll" tabindex="0" role="group" aria-label=${intakeWords[this.language].title}>
      <table>
        <thead>
          <tr>
            ${[columns.name, columns.may, columns.made, columns.used].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
            <td></td>
          </tr>
        </thead>
        <tbody>
          ${this.tokens.map((token) => this.row(token))}
        </tbody>
      </table>
    </div>`;
  }

  private row(token: IntakeToken): TemplateResult {
    const words = intakeWords[this.language];
    const { subjects } = wordsOf(this.language).office;
    const when = (at: number) =>
      dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: undefined });
    return html`<tr data-token-id=${token.id}>
      <td><b>${token.name}</b></td>
      <td>${token.may.map((subject) => subjects[subject]).join(', ')}</td>
      <td>${when(token.madeAt)}</td>
      <td>${token.usedAt === null ? words.never : when(token.usedAt)}</td>
      <td>
        ${token.revokedAt === null ? this.revoking(token) : html`<span class="said">${shape('stop', 18)} ${words.revoked} ${when(token.revokedAt)}</span>`}
      </td>
    </tr>`;
  }

  private revoking({ id, name }: IntakeToken): TemplateResult {
    const words = intakeWords[this.language];
    if (this.asking !== id) {
      return html`<button type="button" aria-label=${words.revokeFor(name)} @click=${() => (this.asking = id)}>
        ${words.revoke}
      </button>`;
    }
    return html`<p role="status">${words.really(name)}</p>
      <div class="both">
        <button type="button" class="main" data-token="really" @click=${() => this.revoke(id)}>${words.revoke}</button>
        <button type="button" @click=${() => (this.asking = null)}>${words.keep}</button>
      </div>`;
  }

  private toggle(subject: ImportSubject): void {
    this.may = new Set(SUBJECTS.filter((each) => (each === subject ? !this.may.has(each) : this.may.has(each))));
  }

  private readonly make = (event: Event): void => {
    event.preventDefault();
    const name = this.name.trim();
    void this.attempt(async () => {
      const made = await ask<NewIntakeToken>('/api/intake-tokens', sent({ name, may: [...this.may] }));
      this.made = { name, token: made.token };
      this.tokens = made.tokens;
      this.name = '';
    });
  };

  private async revoke(id: number): Promise<void> {
    await this.attempt(async () => {
      this.tokens = await ask<readonly IntakeToken[]>(`/api/intake-tokens/${String(id)}/revoke`, sent({}));
    });
    this.asking = null;
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      fieldset {
        display: flex;
        gap: 6px 18px;
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0;
        color: var(--walnut);
      }
      .tools .tick {
        display: inline-flex;
        gap: 8px;
        align-items: center;
        min-height: 44px;
      }
      .tick input {
        width: 20px;
        height: 20px;
        accent-color: var(--indigo);
      }
      .once {
        display: grid;
        gap: 10px;
        justify-items: start;
        padding: 12px 20px;
        background: var(--kraft);
      }
      code {
        font-size: 18px;
        overflow-wrap: anywhere;
        user-select: all;
        background: var(--chalk);
        padding: 6px 10px;
      }
      .scroll {
        overflow-x: auto;
      }
      .both {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-intake': Intake;
  }
}
