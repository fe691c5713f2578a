import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { proofWords } from '../i18n/proof.ts';
import type { PhotoState } from '../proof/photographer.ts';
import { base, benchType } from '../theme/styles.ts';

/** The photo that is due: the count, what the camera sees, what became of it. One line; the work goes on beside it. */
@customElement('bf-photo-line')
export class PhotoLine extends LitElement {
  @property({ attribute: false }) photo!: PhotoState;
  /** how many wait for the station */
  @property({ attribute: false }) waiting = 0;
  @property({ attribute: false }) language: Language = 'en';

  override render(): TemplateResult {
    const words = proofWords[this.language];
    const { phase, stream, trouble } = this.photo;
    return html`<div class="line" data-photo=${phase} data-trouble=${trouble ?? ''}>
      ${
        stream === null
          ? null
          : html`<div class="preview" role="img" aria-label=${words.preview}>
              <video .srcObject=${stream} autoplay playsinline muted aria-hidden="true"></video>
            </div>`
      }
      <p class="say" role=${phase === 'missed' ? 'alert' : 'status'}>${this.said()}</p>
      ${this.waiting === 0 ? null : html`<p class="small secondary" data-photos-waiting>${words.waiting(this.waiting)}</p>`}
      ${
        phase === 'taken' || phase === 'missed'
          ? html`<button
              type="button"
              data-do="photo-again"
              @click=${() => this.dispatchEvent(new CustomEvent('bf-photo-again'))}
            >
              ${words.again}
            </button>`
          : null
      }
    </div>`;
  }

  private said(): TemplateResult | null {
    const words = proofWords[this.language];
    const { phase, what, seconds, trouble } = this.photo;
    switch (phase) {
      case 'none':
        return null;
      case 'opening':
        return html`${shape('waiting', 30)} <span>${words.opening[what]}</span>`;
      case 'counting':
        return html`${shape('current', 30)} <b>${words.counting(seconds)[what]}</b>`;
      case 'taken':
        return html`${shape('well', 30)} <span>${words.taken[what]}</span>`;
      case 'missed':
        return html`${shape('attention', 30)}
          <span>${words.missed(trouble === null ? '' : words.troubles[trouble])}</span>`;
    }
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        --size-say: 24px;
      }
      .line {
        display: flex;
        align-items: center;
        gap: 18px;
        min-width: 0;
      }
      .preview {
        flex: none;
        width: 114px;
        aspect-ratio: 16 / 9;
        background: var(--kraft);
        overflow: hidden;
      }
      video {
        display: block;
        width: 100%;
        height: 100%;
        object-fit: cover;
      }
      .say {
        flex: 1;
        min-width: 0;
        display: flex;
        gap: 10px;
        align-items: center;
        overflow-wrap: anywhere;
      }
      button {
        flex: none;
        min-height: 64px;
        padding: 0 14px;
        background: transparent;
        border: 3px dashed var(--thread);
        font-size: 20px;
        cursor: pointer;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-photo-line': PhotoLine;
  }
}
