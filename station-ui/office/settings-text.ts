import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { SettingsText, SettingsWritten, TextChecked } from '#shared/wire/settings.ts';
import { shape } from '../components/shapes.ts';
import { settingsWords } from '../i18n/settings.ts';
import { OfficeRequestError, ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';
import { difference, differenceStyles } from './settings-difference.ts';
import { problemList, type Said } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';
import { holdUnsaved, letGo, mayLeave, type Unsaved } from './unsaved.ts';

/** One of the shop's files as text. */
@customElement('bf-settings-text')
export class SettingsTextElement extends PageElement implements Unsaved {
  @property() file = '';
  @property({ attribute: false }) by: string | null = null;
  @state() private read: SettingsText | null = null;
  @state() private text = '';
  @state() private checked: TextChecked | null = null;
  @state() private problems: readonly ConfigProblem[] = [];
  @state() private said: Said | null = null;
  @state() private meanwhile = false;

  get isUnsaved(): boolean {
    return this.read !== null && this.text !== this.read.text;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    holdUnsaved(this);
  }

  override disconnectedCallback(): void {
    letGo(this);
    super.disconnectedCallback();
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('file')) void this.readFile();
  }

  override render(): TemplateResult {
    const words = settingsWords[this.language];
    const { checked } = this;
    return html`${this.alert()}
      ${
        this.meanwhile
          ? html`<p class="said refused" role="alert">
              ${shape('stop', 22)} ${words.meanwhile}
              <button type="button" @click=${() => void this.readFile()}>${words.readAgain}</button>
            </p>`
          : null
      }
      <p role="status" class="said" data-said>
        ${this.said === null ? null : html`${shape('well', 22)} ${words[this.said]}`}
      </p>
      ${
        this.problems.length === 0
          ? null
          : html`<div role="alert" data-refused>
              <p class="said refused">${shape('stop', 22)} ${words.problemsHere}</p>
              ${problemList(this.problems, this.language, this.goTo)}
            </div>`
      }
      ${
        checked === null || checked.warnings.length === 0
          ? null
          : html`<p class="said">${shape('attention', 22)} ${words.warningsHere}</p>
              ${problemList(checked.warnings, this.language, this.goTo)}`
      }
      <label>
        <span>${words.textOf(this.file)}</span>
        <textarea
          spellcheck="false"
          rows="28"
          wrap="off"
          .value=${this.text}
          @input=${(event: Event) => (this.text = (event.target as HTMLTextAreaElement).value)}
        ></textarea>
      </label>
      <p class="buttons">
        <button type="button" data-check @click=${() => void this.check()}>${words.check}</button>
        <button type="button" class="main" data-save @click=${() => void this.save()}>${words.save}</button>
        <button type="button" data-read-again @click=${() => void this.readAnew()}>${words.readAgain}</button>
      </p>
      ${
        checked === null
          ? null
          : html`<h3>${words.changes}</h3>
              ${difference(checked.lines, this.language, words.changes)}`
      }`;
  }

  private async readAnew(): Promise<void> {
    if (await mayLeave()) await this.readFile();
  }

  private async readFile(): Promise<void> {
    this.forget();
    await this.attempt(async () => {
      this.read = await ask<SettingsText>(`/api/settings/file?${new URLSearchParams({ file: this.file }).toString()}`);
      this.text = this.read.text;
    });
  }

  private forget(): void {
    this.problems = [];
    this.checked = null;
    this.said = null;
    this.meanwhile = false;
  }

  private get change(): object {
    return { file: this.file, digest: this.read?.digest ?? '', text: this.text, by: this.by };
  }

  private async check(): Promise<void> {
    this.forget();
    await this.attempt(async () => {
      this.checked = await ask<TextChecked>('/api/settings/check', sent(this.change));
      this.problems = this.checked.problems;
      if (this.problems.length === 0) this.said = 'holds';
    });
  }

  private async save(): Promise<void> {
    this.forget();
    await this.attempt(async () => {
      try {
        const written = await ask<SettingsWritten>('/api/settings/text', sent(this.change));
        this.said = written.digest === this.read?.digest ? 'same' : 'written';
        if (written.problems.length > 0) this.said = 'stillWrong';
        this.read = { file: this.file, text: this.text, digest: written.digest };
        this.dispatchEvent(new CustomEvent('bf-settings-written', { bubbles: true, composed: true }));
      } catch (error) {
        if (!(error instanceof OfficeRequestError)) throw error;
        this.problems = error.problems;
        this.meanwhile = error.code === 'changed-meanwhile';
        if (error.problems.length === 0 && !this.meanwhile) throw error;
      }
    });
  }

  /** Marks the line of a problem in the text. */
  private readonly goTo = ({ file, line }: ConfigProblem): void => {
    const area = this.renderRoot.querySelector('textarea');
    if (area === null || line === null || file !== this.file) return;
    const lines = this.text.split('\n');
    const from = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
    area.focus();
    area.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0));
    area.scrollTop = (area.scrollHeight / Math.max(1, lines.length)) * Math.max(0, line - 6);
  };

  static override styles = [
    ...PageElement.styles,
    settingsStyles,
    differenceStyles,
    css`
      label {
        display: grid;
        gap: 4px;
      }
      textarea {
        font-family: ui-monospace, monospace;
        font-size: 15px;
        line-height: 1.4;
        padding: 8px 10px;
        border: 2px solid var(--ink);
        border-radius: 0;
        background: var(--chalk);
        color: var(--ink);
        width: 100%;
        tab-size: 2;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-text': SettingsTextElement;
  }
}
