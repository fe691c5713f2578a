import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { PieceLine } from '#shared/wire/views.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { shape } from './shapes.ts';
import type { Standing } from './shapes.ts';

const STANDING: Readonly<Record<PieceLine['mark'], Standing>> = {
  waiting: 'waiting',
  current: 'current',
  done: 'well',
};

/** The pieces of the order. `large` while they are being gathered: with shelf and SKU. */
@customElement('bf-piece-list')
export class PieceList extends LitElement {
  @property({ attribute: false }) pieces: readonly PieceLine[] = [];
  @property({ type: Boolean, reflect: true }) large = false;
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    return html`<ul class=${this.pieces.length > 4 ? 'many' : ''}>
      ${this.pieces.map((piece) => (this.large ? this.found(piece) : this.short(piece)))}
    </ul>`;
  }

  private short(piece: PieceLine): TemplateResult {
    return html`<li class=${`small ${piece.mark}`} data-sku=${piece.sku} data-mark=${piece.mark}>
      ${shape(STANDING[piece.mark])}
      <span>${piece.title}${piece.due > 1 ? ` × ${String(piece.due)}` : ''}</span>
      <span class="only-read">${this.words.bench.marks[piece.mark]}</span>
    </li>`;
  }

  private found(piece: PieceLine): TemplateResult {
    const { bench } = this.words;
    return html`<li class=${piece.mark} data-sku=${piece.sku} data-mark=${piece.mark}>
      ${shape(STANDING[piece.mark], 40)}
      <div class="what">
        <p class="say"><b>${piece.title}</b></p>
        <p class="small secondary">
          ${piece.sku} ·
          ${bench.marks[piece.mark]}${piece.due > 1 ? ` · ${bench.gathered(piece.gathered, piece.due)}` : ''}
        </p>
      </div>
      <p class="place">
        ${piece.place === null ? html`<span class="small secondary">${bench.noPlace}</span>` : bench.place(piece.place)}
      </p>
    </li>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      ul {
        display: grid;
        gap: 8px;
      }
      li {
        display: flex;
        align-items: center;
        gap: 12px;
        min-width: 0;
      }
      .current {
        font-weight: 700;
      }
      :host([large]) li {
        gap: 18px;
        padding: 10px 0;
        border-bottom: 2px dashed var(--thread);
      }
      :host([large]) .done .what {
        opacity: 0.85;
      }
      .what {
        flex: 1;
        min-width: 0;
      }
      .what p:first-child {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .place {
        font-size: 40px;
        font-weight: 700;
        line-height: 1;
      }
      .done .place {
        font-weight: 400;
        font-size: 28px;
      }
      :host([large]) .many li {
        padding: 4px 0;
      }
      .many .place {
        font-size: 32px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-piece-list': PieceList;
  }
}
