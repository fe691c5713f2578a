import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { USB_SCALE_WORDS } from '../i18n/usb-scale.ts';
import { base, benchType, striped } from '../theme/styles.ts';
import { UsbScale } from './usb-scale.ts';
import type { UsbScaleState } from './usb-scale.ts';
import { webHid } from './web-hid.ts';

/** Keeps the USB scale of this screen connected, and says so where it is not. */
@customElement('bf-usb-scale-line')
export class UsbScaleLine extends LitElement {
  @property() bench = '';
  @property({ attribute: false }) language: Language = 'en';
  @state() private at: UsbScaleState = 'starting';
  private scale: UsbScale | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.updateComplete.then(() => {
      if (this.isConnected) this.scale ??= new UsbScale(this.bench, webHid(), (at) => (this.at = at));
    });
  }

  override disconnectedCallback(): void {
    this.scale?.close();
    this.scale = null;
    super.disconnectedCallback();
  }

  override render(): TemplateResult | null {
    const words = USB_SCALE_WORDS[this.language];
    switch (this.at) {
      case 'starting':
      case 'open':
        return null;
      case 'not-offered':
        return this.line(words.notOffered, false);
      case 'held':
        return this.line(words.held, false);
      case 'cannot-open':
        return this.line(words.cannotOpen, true);
      case 'none':
        return this.line(words.none, true);
    }
  }

  private line(told: string, canConnect: boolean): TemplateResult {
    return html`<div class="striped" role="status" data-usb-scale=${this.at}>
      <p class="say">${shape('attention', 36)} <span>${told}</span></p>
      ${
        canConnect
          ? html`<button type="button" class="say" data-do="usb-scale" @click=${this.choose}>
              ${USB_SCALE_WORDS[this.language].connect}
            </button>`
          : null
      }
    </div>`;
  }

  private readonly choose = (): void => {
    void this.scale?.choose();
  };

  static override styles = [
    base,
    benchType,
    striped,
    css`
      div {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 18px;
        align-items: center;
        padding: 6px 16px;
        font-weight: 700;
      }
      p {
        display: flex;
        gap: 10px;
        align-items: center;
        padding: 0 8px;
        background: var(--weld);
      }
      button {
        min-height: 64px;
        padding: 4px 22px;
        color: var(--chalk);
        background: var(--indigo);
        border: 0;
        cursor: pointer;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-usb-scale-line': UsbScaleLine;
  }
}
