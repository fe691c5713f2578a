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

/** As many as fit beside the tags. */
const MOST_SHORT = 3;

/** The pieces of the order. `large` while they are being gathered: with shelf and SKU. */
@customElement('bf-piece-list')
export class PieceList extends LitElement {
  @property({ attribute: false }) pieces: readonly PieceLine[] = [];
  @property({ type: Boolean, reflect: true }) large = false;
  /** where all of them lie together, where they do not lie on their own shelves */
  @property() lies = '';
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    return this.large ? this.toFind() : this.inOrder();
  }

  /** What is still to find stands first; the first of them is the one that the main command takes as found. */
  private toFind(): TemplateResult {
    const { pieces } = this;
    const missing = pieces.filter((piece) => piece.mark !== 'done');
    const found = pieces.filter((piece) => piece.mark === 'done');
    const size = pieces.length > 5 ? 'many crowd' : pieces.length > 3 ? 'many' : '';
    return html`<ul class=${size}>
      ${missing.map((piece, index) => this.found(index === 0 ? { ...piece, mark: 'current' } : piece))}
      ${found.map((piece) => this.found(piece))}
    </ul>`;
  }

  /** The pieces around the current one, and how many more there are. */
  private inOrder(): TemplateResult {
    const { pieces } = this;
    const current = pieces.findIndex((piece) => piece.mark === 'current');
    const from = Math.min(Math.max(0, current - 1), Math.max(0, pieces.length - MOST_SHORT));
    const shown = pieces.slice(from, from + MOST_SHORT);
    const rest = pieces.length - shown.length;
    const others = pieces.length - 1;
    return html`<ul class=${current < 0 ? 'none-now' : ''}>
      ${shown.map((piece) => this.short(piece))}
      ${rest > 0 ? html`<li class="small secondary rest">+ ${rest}</li>` : null}
      ${others > 0 ? html`<li class="small secondary others">+ ${others}</li>` : null}
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
        ${this.lies === '' ? (piece.place ?? html`<span class="small secondary">${bench.noPlace}</span>`) : html`<span class="say">${this.lies}</span>`}
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
      .others {
        display: none;
      }
      /* Where there is no room, the piece at hand, and how many there are beside it. */
      @media (max-height: 680px) {
        li.small:not(.current, .others),
        .none-now {
          display: none;
        }
        .others {
          display: flex;
        }
        li.small > span:not(.only-read) {
          min-width: 0;
          overflow: hidden;
          text-overflow: ellipsis;
          white-space: nowrap;
        }
      }
      :host([large]) li {
        gap: 18px;
        padding: 10px 0;
        border-bottom: 2px dashed var(--thread);
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
      :host([large]) .many {
        gap: 0;
      }
      :host([large]) .many li {
        padding: 5px 0;
      }
      .many .what {
        display: flex;
        align-items: baseline;
        gap: 14px;
      }
      .many .place {
        font-size: 32px;
      }
      .crowd {
        grid-template-columns: 1fr 1fr;
        column-gap: 28px;
      }
      .crowd .what .secondary {
        display: none;
      }
      @container task (max-height: 260px) {
        .many {
          grid-template-columns: 1fr 1fr;
          column-gap: 20px;
        }
        .many .what .secondary {
          display: none;
        }
      }
      @container task (max-height: 290px) {
        :host([large]) li {
          padding: 4px 0;
        }
        .place,
        .done .place {
          font-size: 28px;
        }
        .what {
          display: flex;
          align-items: baseline;
          gap: 14px;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-piece-list': PieceList;
  }
}
