import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { leaveWords } from '../i18n/leaving.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { askBy } from './unsaved.ts';

/** Asks whether changes that are not saved may be lost. */
@customElement('bf-leave-dialog')
export class LeaveDialog extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  private answer: ((leave: boolean) => void) | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    askBy(() => this.ask());
  }

  override render(): TemplateResult {
    const words = leaveWords[this.language];
    return html`<dialog aria-labelledby="question" @close=${() => this.say(false)}>
      <p id="question" class="said">${shape('attention', 24)} ${words.question}</p>
      <p class="buttons">
        <button type="button" class="main" data-stay @click=${() => this.say(false)}>${words.stay}</button>
        <button type="button" data-leave @click=${() => this.say(true)}>${words.leave}</button>
      </p>
    </dialog>`;
  }

  private ask(): Promise<boolean> {
    this.answer?.(false);
    const said = new Promise<boolean>((say) => (this.answer = say));
    this.dialog?.showModal();
    return said;
  }

  private say(leave: boolean): void {
    const { answer } = this;
    this.answer = null;
    this.dialog?.close();
    answer?.(leave);
  }

  private get dialog(): HTMLDialogElement | null {
    return this.renderRoot.querySelector('dialog');
  }

  static override styles = [
    base,
    officeStyles,
    css`
      dialog {
        border: 0;
        border-top: 5px dashed var(--indigo);
        background: var(--chalk);
        color: var(--ink);
        padding: 18px 24px;
        max-width: 60ch;
      }
      dialog::backdrop {
        background: rgb(27 33 48 / 55%);
      }
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 14px;
        margin-top: 14px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-leave-dialog': LeaveDialog;
  }
}
