import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { base } from '../theme/styles.ts';

/** A card: a swing tag with one corner cut. `ground` is the cloth it lies on. */
@customElement('bf-swing-tag')
export class SwingTag extends LitElement {
  @property() heading = '';
  @property({ reflect: true }) ground: 'chalk' | 'kraft' = 'chalk';

  override render(): TemplateResult {
    return html`<section class=${this.ground}>
      ${this.heading === '' ? null : html`<h2>${this.heading}</h2>`}
      <slot></slot>
    </section>`;
  }

  static override styles = [
    base,
    css`
      :host {
        display: block;
      }
      section {
        height: 100%;
        padding: 12px 18px 14px;
        background: var(--chalk);
        clip-path: polygon(0 0, calc(100% - 24px) 0, 100% 24px, 100% 100%, 0 100%);
      }
      section.kraft {
        background: var(--kraft);
      }
      h2 {
        overflow-wrap: anywhere;
        font-size: 27px;
        line-height: 1.15;
        padding-right: 16px;
        text-wrap: balance;
      }
      @media (max-height: 680px) {
        section {
          padding: 6px 14px 8px;
        }
        h2 {
          font-size: 24px;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-swing-tag': SwingTag;
  }
}
