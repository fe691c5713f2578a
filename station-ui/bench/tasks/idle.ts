import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { shape } from '../../components/shapes.ts';
import '../between-orders.ts';
import { pauseLine } from '../pause-line.ts';
import { practiceWords } from '../../i18n/practice.ts';
import { TaskElement } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Nothing is being packed: who packs, and what comes next. */
@customElement('bf-task-idle')
export class TaskIdle extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'idle'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    const { day, queue } = this.view;
    return html`<h1 class="instruction">${this.view.packer === null ? bench.idleNobody : bench.idle}</h1>
      <p class="say secondary">${bench.idleHow}</p>
      <p class="say day">
        <b>${bench.waiting(day.waiting)}</b><span>${bench.doneToday(day.done)}</span
        ><span>${bench.setAside(day.setAside)}</span>${this.streak()}
      </p>
      ${pauseLine(this.view, this.language)}
      <bf-between-orders .view=${this.view} .words=${this.words} .language=${this.language}></bf-between-orders>
      ${queue.length === 0 ? html`<p class="say">${bench.noOrders}</p>` : this.next()}`;
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
    return html`<h2 class="say">${bench.nextOrders}</h2>
      <ol class="fill">
        ${this.view.queue.slice(0, 6).map(
          (order) =>
            html`<li class="say" data-order=${order.id}>
              <b>${order.id}</b><span class="secondary">${bench.pieces(order.pieces)}</span>
              <span class="secondary">${this.time(order.shipBy)}</span>
              ${order.late ? html`<span class="late">${shape('attention', 28)} ${bench.late}</span>` : html`<span></span>`}
            </li>`,
        )}
      </ol>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .day {
        display: flex;
        gap: 36px;
        padding: 12px 0 16px;
        border-bottom: 3px dashed var(--thread);
      }
      .streak {
        display: flex;
        gap: 10px;
        align-items: center;
      }
      h2 {
        margin-top: 4px;
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
      @container task (max-height: 300px) {
        li:nth-child(n + 3),
        h2 {
          display: none;
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
