import { css, html, nothing } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { AsideChoice, ContainerChoice } from '#shared/side-work/types.ts';
import type { BatchView, SideTask } from '#shared/wire/side-work.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../../components/shapes.ts';
import { sideWorkWords } from '../../i18n/side-work.ts';
import { reasonInWords } from '../../i18n/reason-in-words.ts';
import { practiceStyles } from './practice-styles.ts';
import { TaskElement, instructionClass } from './task-element.ts';

/** The screen in one line. */
export function sideHeading(task: SideTask, language: Language): string {
  const said = sideWorkWords[language];
  switch (task.screen) {
    case 'aside':
    case 'containers':
    case 'fetch':
    case 'folded':
      return said[task.screen];
    case 'preparing':
      return said.preparing(task.name[language]);
    case 'lay':
      return said.lay(task.piece.basket);
  }
}

/** What is done beside packing: the set-aside shelf, and the pieces of several orders folded ahead. */
@customElement('bf-task-side')
export class TaskSide extends TaskElement {
  @property({ attribute: false }) task!: SideTask;

  override render(): TemplateResult {
    const heading = sideHeading(this.task, this.language);
    return html`<h1 class=${instructionClass(heading)}>${heading}</h1>
      ${this.body()}`;
  }

  override updated(changed: PropertyValues): void {
    super.updated(changed);
    this.renderRoot.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' });
  }

  private get said() {
    return sideWorkWords[this.language];
  }

  private body(): TemplateResult | null {
    const { task, said } = this;
    switch (task.screen) {
      case 'aside':
        return task.choices.length === 0
          ? html`<p class="say">${said.asideNone}</p>`
          : html`<p class="say secondary">${said.asideHow}</p>
              ${this.list(
                task.choices.map((each) => [each.order, this.asideChoice(each)] as const),
                task.marked,
              )}`;
      case 'containers':
        return task.choices.length === 0
          ? html`<p class="say">${said.containersNone}</p>`
          : html`<p class="say secondary how">${said.containersHow}</p>
              ${this.list(
                task.choices.map((each) => [each.container, this.containerChoice(each)] as const),
                task.marked,
              )}`;
      case 'preparing':
        return null;
      case 'fetch':
        return this.fetch(task.piece);
      case 'lay':
        return this.lay(task.piece);
      case 'folded':
        return this.folded(task.baskets);
    }
  }

  private list(choices: readonly (readonly [string, TemplateResult])[], marked: number | null): TemplateResult {
    return html`<ul class="fill options">
      ${choices.map(
        ([id, shown], index) =>
          html`<li>
            <button
              type="button"
              class=${marked === index ? 'marked' : ''}
              data-option=${id}
              aria-current=${marked === index ? 'true' : nothing}
              @click=${() => {
                this.dispatchEvent(new CustomEvent('bf-chosen', { detail: id, bubbles: true, composed: true }));
              }}
            >
              ${marked === index ? shape('current', 30) : null} ${shown}
            </button>
          </li>`,
      )}
    </ul>`;
  }

  private asideChoice({ order, buyer, pieces, reason, place }: AsideChoice): TemplateResult {
    const { said } = this;
    return html`<span
      ><b>${order}</b> · <b data-place=${place ?? 'none'}>${said.place(place)}</b>
      <span class="note"
        >${[reasonInWords(reason, this.words, this.language), said.pieces(pieces), buyer].filter((part) => part !== null).join(' · ')}</span
      ></span
    >`;
  }

  private containerChoice({ name, orders, pieces }: ContainerChoice): TemplateResult {
    return html`<span><b>${this.in(name)}</b><span class="note">${this.said.orders(orders, pieces)}</span></span>`;
  }

  private fetch(piece: BatchView): TemplateResult {
    const { said } = this;
    return html`<div class="fill middle">
      <div class="both">
        <div>
          <p class="say"><b>${piece.title}</b></p>
          <p class="say secondary">${piece.sku}</p>
        </div>
        <p class="place" data-shelf>${piece.place ?? html`<span class="say secondary">${said.noShelf}</span>`}</p>
      </div>
      <p class="say secondary">${said.fetchHow}</p>
    </div>`;
  }

  private lay(piece: BatchView): TemplateResult {
    return html`<div class="fill middle">
      <div class="both">
        <p class="place" data-basket=${piece.basket}>${piece.basket}</p>
        <div>
          <p class="say"><b>${piece.title}</b></p>
          <p class="say secondary">${this.said.layHow(piece.order)}</p>
        </div>
      </div>
    </div>`;
  }

  private folded(baskets: readonly { readonly order: string; readonly basket: number }[]): TemplateResult {
    const { said } = this;
    if (baskets.length === 0) return html`<p class="say">${said.foldedNone}</p>`;
    return html`<p class="say secondary how">${said.foldedHow}</p>
      <ul class="fill options baskets">
        ${baskets.map(
          ({ order, basket }) =>
            html`<li>
              <div class="done" data-folded=${order}>
                ${shape('well', 36)}<span><b>${said.basket(basket)}</b><span class="note">${order}</span></span>
              </div>
            </li>`,
        )}
      </ul>`;
  }

  static override styles = [
    ...TaskElement.styles,
    practiceStyles,
    css`
      .both {
        display: flex;
        flex-wrap: wrap;
        gap: 12px 48px;
        align-items: center;
      }
      .place {
        font-size: 110px;
        font-weight: 700;
        line-height: 1;
      }
      .baskets {
        grid-template-columns: repeat(4, minmax(0, 1fr));
      }
      .options:not(.baskets) {
        grid-auto-rows: minmax(84px, auto);
      }
      @media (max-width: 900px) {
        .options {
          grid-template-columns: 1fr;
        }
        .baskets {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
      }
      @media (max-height: 680px) {
        .place {
          font-size: 72px;
        }
        .how {
          display: none;
        }
        .options:not(.baskets) {
          grid-auto-rows: minmax(66px, auto);
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task-side': TaskSide;
  }
}
