import { LitElement, css, html, nothing, svg } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView } from '#shared/wire/views.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';

const needle = svg`<svg class="needle" width="40" height="24" viewBox="0 0 40 24" aria-hidden="true">
  <path d="M1 12 29 3Q39 6 39 12T29 21Z" fill="var(--ink)"></path>
  <circle cx="31" cy="12" r="3.4" fill="var(--chalk)"></circle></svg>`;

/** The run as a seam: sewn stitches, the needle where the packer is, and the stitches still to sew. */
@customElement('bf-seam')
export class Seam extends LitElement {
  @property({ attribute: false }) seam!: BenchView['seam'];
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    const { stitches, at } = this.seam;
    const here = stitches[at];
    const name = here === undefined ? '' : this.words.steps[here.step];
    return html`<p class="small here">${name}</p>
      <ol aria-label=${this.words.bench.seam(Math.min(at + 1, stitches.length), stitches.length)}>
        ${stitches.map(
          (stitch, index) =>
            html`<li
              class=${index < at ? 'sewn' : index === at ? 'current' : 'unsewn'}
              aria-current=${index === at ? 'step' : nothing}
            >
              <span class="only-read">${this.words.steps[stitch.step]} ${stitch.about ?? ''}</span>
              ${index === at ? needle : null}
            </li>`,
        )}
      </ol>
      <p class="small secondary count">
        ${stitches.length === 0 ? '' : `${String(Math.min(at + 1, stitches.length))}/${String(stitches.length)}`}
      </p>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: flex;
        align-items: center;
        gap: 20px;
        padding: 0 28px;
      }
      .here {
        flex: none;
        min-width: 110px;
        font-weight: 700;
        color: var(--indigo);
      }
      .count {
        flex: none;
      }
      ol {
        display: flex;
        flex: 1;
        gap: 12px;
        min-width: 0;
      }
      li {
        position: relative;
        flex: 1;
        height: 8px;
        border-radius: 4px;
        background: var(--thread);
      }
      .sewn,
      .current {
        background: var(--indigo);
      }
      .unsewn {
        height: 4px;
        margin-top: 2px;
      }
      .needle {
        position: absolute;
        right: -16px;
        top: -8px;
      }
      @media (prefers-reduced-motion: no-preference) {
        .needle {
          animation: slide 0.35s ease-out 1;
        }
        @keyframes slide {
          from {
            transform: translateX(-60px);
          }
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-seam': Seam;
  }
}
