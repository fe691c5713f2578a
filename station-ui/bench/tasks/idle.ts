import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { shape } from '../../components/shapes.ts';
import '../between-orders.ts';
import { dayLine } from '../day-count.ts';
import { pauseLine } from '../pause-line.ts';
import { queueWords } from '../../i18n/queue.ts';
import { practiceWords } from '../../i18n/practice.ts';
import { TaskElement } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Nothing is being packed: who packs, and what comes next. */
@customElement('bf-task-idle')
export class TaskIdle extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'idle'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    const { queue } = this.view;
    return html`<h1 class="instruction">${this.view.packer === null ? bench.idleNobody : bench.idle}</h1>
      <p class="say secondary how">${bench.idleHow}</p>
      ${dayLine(this.view, this.language, this.streak())} ${pauseLine(this.view, this.language)} ${this.whyNext()}
      <bf-between-orders .view=${this.view} .words=${this.words} .language=${this.language}></bf-between-orders>
      ${queue.length === 0 ? html`<p class="say">${bench.noOrders}</p>` : this.next()}`;
  }

  /** The order that "next" takes, and why that one: what decided it is set strong. */
  private whyNext(): TemplateResult | null {
    const { next } = this.view;
    if (next === null || next === undefined) return null;
    const said = queueWords[this.language];
    const when = this.time(next.collection);
    const carriers = next.carriers.map((name) => this.in(name)).join(', ');
    const parts: readonly string[] = [
      next.minutes < 0 ? said.missed(when) : said.collection(when, carriers, said.left(next.minutes)),
      ...(next.container === null ? [] : [said.container(this.in(next.container), next.sameContainer)]),
      next.basket === null
        ? next.shelf === null
          ? ''
          : said.shelf(next.shelf, next.sameShelf)
        : said.basket(next.basket),
    ].filter((part) => part !== '');
    const late = next.by === 'collection' && next.minutes < 0;
    const why = next.by === null ? said.onlyOne : late ? said.late : said.by[next.by];
    return html`<p class="say why" data-next=${next.order} data-by=${next.by ?? 'only'}>
      ${shape('current', 34)}
      <span><b>${said.next(next.order)}</b> · ${parts.join(' · ')} <span class="secondary">(${why})</span></span>
    </p>`;
  }

  /** How well it goes, for whoever is signed on. */
  private streak(): TemplateResult | null {
    const { streak = 0 } = this.view;
    if (streak < 2) return null;
    return html`<span class="streak" data-streak=${streak}
      >${shape('well', 26)} ${practiceWords[this.language].progress.streakNow(streak)}</span
    >`;
  }

  private next(): TemplateResult {
    const { bench } = this.words;
    return html`<div class="fill room">
      <div class="list">
        <h2 class="say">${bench.nextOrders}</h2>
        <ol class="fill">
          ${this.view.queue.slice(0, 6).map(
            (order) =>
              html`<li class="say" data-order=${order.id}>
                <b>${order.id}</b><span class="secondary">${bench.pieces(order.pieces)}</span>
                <span class="secondary">${this.time(order.collection)}</span>
                ${order.late ? html`<span class="late">${shape('attention', 28)} ${bench.late}</span>` : html`<span></span>`}
              </li>`,
          )}
        </ol>
      </div>
    </div>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .day {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 36px;
        padding: 8px 0 12px;
        border-bottom: 3px dashed var(--thread);
      }
      .streak,
      .risk {
        display: flex;
        gap: 10px;
        align-items: center;
      }
      .why {
        display: flex;
        gap: 14px;
        align-items: center;
        padding: 8px 14px;
        background: var(--kraft);
        --walnut: var(--walnut-deep);
        clip-path: polygon(0 0, calc(100% - 18px) 0, 100% 18px, 100% 100%, 0 100%);
      }
      @container task (max-height: 330px) {
        .why {
          padding: 2px 14px;
          line-height: 1.1;
        }
        .day {
          padding: 0 0 4px;
        }
        .how {
          display: none;
        }
      }
      /* Without room for its heading and a row the list goes to a column beyond the edge. */
      .room {
        display: flex;
        flex-flow: column wrap;
      }
      .room::before {
        content: '';
        width: 100%;
      }
      .list {
        flex: 1;
        display: flex;
        flex-direction: column;
        width: 100%;
        min-height: 86px;
      }
      /* Only whole rows: what finds no room goes to a column beyond the edge. */
      ol {
        display: flex;
        flex-flow: column wrap;
        column-gap: 48px;
        align-content: flex-start;
      }
      li {
        width: calc(50% - 24px);
        display: grid;
        grid-template-columns: minmax(90px, auto) 140px 1fr auto;
        gap: 14px;
        padding: 5px 0;
        align-items: center;
      }
      @container task (max-width: 1130px) {
        li {
          width: 100%;
        }
      }
      .late {
        display: flex;
        align-items: center;
        gap: 8px;
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task-idle': TaskIdle;
  }
}
