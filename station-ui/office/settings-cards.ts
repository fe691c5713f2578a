import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { NewRateCard, Plain, SettingsText, SettingsWritten } from '#shared/wire/settings.ts';
import { shape } from '../components/shapes.ts';
import { cardWords } from '../i18n/settings-cards.ts';
import { settingsWords } from '../i18n/settings.ts';
import { OfficeRequestError, ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';
import { draftProblems, drafted, undrafted } from './settings-drafting.ts';
import './settings-form.ts';
import { problemList } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';
import { holdUnsaved, letGo, type Unsaved } from './unsaved.ts';

const written = () => new CustomEvent('bf-settings-written', { bubbles: true, composed: true });

/** A page that asks the server to change rate cards, and shows what it holds against it. */
abstract class CardElement extends PageElement {
  @property({ attribute: false }) by: string | null = null;
  @state() protected problems: readonly ConfigProblem[] = [];

  protected async tried(task: () => Promise<void>): Promise<void> {
    this.problems = [];
    await this.attempt(async () => {
      try {
        await task();
      } catch (error) {
        if (!(error instanceof OfficeRequestError) || error.problems.length === 0) throw error;
        this.problems = error.problems;
      }
    });
  }

  protected refusal(problems: readonly ConfigProblem[]): TemplateResult | null {
    if (this.problems.length === 0) return null;
    return html`<div role="alert" data-refused>
      <p class="said refused">${shape('stop', 22)} ${settingsWords[this.language].problemsHere}</p>
      ${problemList(problems, this.language)}
    </div>`;
  }

  static override styles = [
    ...PageElement.styles,
    settingsStyles,
    css`
      form {
        display: grid;
        gap: 14px;
      }
    `,
  ];
}

/** A rate card that is not there yet. */
@customElement('bf-settings-new-card')
export class SettingsNewCard extends CardElement implements Unsaved {
  @state() private asked: NewRateCard | null = null;
  @state() private draft: Plain = {};
  @state() private file = '';
  @state() private added = '';
  private touched = false;

  get isUnsaved(): boolean {
    return this.touched;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    holdUnsaved(this);
    void this.begin();
  }

  override disconnectedCallback(): void {
    letGo(this);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = cardWords[this.language];
    const { asked } = this;
    const keys = new Set(asked?.fields.map(({ key }) => key));
    const atFields = this.problems.filter(({ path }) => path !== '' && keys.has(path.split(/[.[]/)[0] ?? ''));
    return html`${this.alert()}
      <h3>${words.add}</h3>
      <p class="hint">${words.how}</p>
      <p role="status" class="said" data-said>
        ${this.added === '' ? null : html`${shape('well', 22)} ${words.added(this.added)}`}
      </p>
      ${
        asked === null
          ? null
          : html`<form
              data-form
              @input=${() => (this.touched = true)}
              @submit=${(event: Event) => {
                event.preventDefault();
                void this.add();
              }}
            >
              ${this.refusal(this.problems.filter((each) => !atFields.includes(each)))}
              <p class="tools">
                <label>
                  <span>${words.file}</span>
                  <input
                    name="file"
                    required
                    autocomplete="off"
                    .value=${this.file}
                    @input=${(event: Event) => (this.file = (event.target as HTMLInputElement).value.trim())}
                  />
                  <small>${words.fileHint}</small>
                </label>
              </p>
              <bf-settings-form
                .language=${this.language}
                .section=${'rate-card'}
                .fields=${asked.fields}
                .draft=${this.draft}
                .problems=${atFields}
                @bf-draft=${(event: CustomEvent<Plain>) => {
                  this.draft = event.detail;
                  this.touched = true;
                }}
              ></bf-settings-form>
              <p class="buttons"><button type="submit" class="main" data-save>${words.save}</button></p>
            </form>`
      }`;
  }

  private async begin(): Promise<void> {
    await this.attempt(async () => {
      this.asked = await ask<NewRateCard>('/api/settings/rate-card');
      this.draft = drafted({ is: 'group', fields: this.asked.fields }, this.asked.value);
      this.file = '';
      this.touched = false;
    });
  }

  private async add(): Promise<void> {
    const group = { is: 'group', fields: this.asked?.fields ?? [] } as const;
    const own = draftProblems(group, this.draft).map((each) => ({ ...each, file: '', line: null }));
    this.problems = own;
    if (own.length === 0) {
      await this.tried(async () => {
        const value = undrafted(group, this.draft);
        const { file } = await ask<SettingsWritten>(
          '/api/settings/rate-card',
          sent({ name: this.file, value, by: this.by }),
        );
        this.dispatchEvent(written());
        await this.begin();
        this.added = file;
      });
    }
    if (this.problems.length === 0) return;
    await this.updateComplete;
    const form = this.renderRoot.querySelector('bf-settings-form');
    await form?.updateComplete;
    form?.goToWrong();
  }
}

/** Takes a rate card away, once that was said twice. */
@customElement('bf-settings-remove-card')
export class SettingsRemoveCard extends CardElement {
  @property() file = '';
  @state() private asking = false;

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('file')) return;
    this.asking = false;
    this.problems = [];
  }

  override render(): TemplateResult {
    const words = cardWords[this.language];
    if (!this.asking) {
      return html`<p>
        <button type="button" data-take-card @click=${() => (this.asking = true)}>${words.take}</button>
      </p>`;
    }
    return html`<div class="seamed" role="group" aria-label=${words.really(this.file)}>
      ${this.alert()} ${this.refusal(this.problems)}
      <p><b>${words.really(this.file)}</b> ${words.kept}</p>
      <p class="buttons">
        <button type="button" class="main" data-really-take @click=${() => void this.take()}>${words.take}</button>
        <button type="button" @click=${() => (this.asking = false)}>${settingsWords[this.language].keep}</button>
      </p>
    </div>`;
  }

  private async take(): Promise<void> {
    const { file, by } = this;
    await this.tried(async () => {
      const query = new URLSearchParams({ file }).toString();
      const { digest } = await ask<SettingsText>(`/api/settings/file?${query}`);
      await ask<SettingsWritten>('/api/settings/rate-card/remove', sent({ file, digest, by }));
      this.asking = false;
      this.dispatchEvent(written());
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-new-card': SettingsNewCard;
    'bf-settings-remove-card': SettingsRemoveCard;
  }
}
