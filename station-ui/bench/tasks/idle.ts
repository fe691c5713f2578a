import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { shape } from '../../components/shapes.ts';
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
        ><span>${bench.setAside(day.setAside)}</span>
      </p>
      ${this.overdue()} ${this.short()} ${this.sack()}
      ${queue.length === 0 ? html`<p class="say">${bench.noOrders}</p>` : this.next()}`;
  }

  /** Parcels that should have left: somebody must look for them. */
  private overdue(): TemplateResult | null {
    const overdue = this.view.overdue ?? 0;
    if (overdue === 0) return null;
    return html`<p class="say short" data-overdue=${overdue}>
      ${shape('attention', 28)} <b>${this.words.bench.overdue(overdue)}</b>
    </p>`;
  }

  /** The sack that the scanner loads here. */
  private sack(): TemplateResult | null {
    const { sack } = this.view;
    if (sack === null || sack === undefined) return null;
    const { bench } = this.words;
    return html`<p class="say short" data-sack=${sack.count}>
      ${shape(sack.missing === 0 ? 'well' : 'current', 28)}
      <b>${bench.sack(this.in(sack.carrier), sack.at)}</b>
      <span>${bench.sackCount(sack.count, sack.missing)}</span>
    </p>`;
  }

  /** What runs out on the shelf, what is gone first. */
  private short(): TemplateResult | null {
    const { bench } = this.words;
    const short = this.view.short ?? [];
    if (short.length === 0) return null;
    const said = short.slice(0, 2).map((each) => bench.shortOf[each.state](this.in(each.name), each.left));
    const more = short.length > 2 ? ` · ${bench.andMore(short.length - 2)}` : '';
    return html`<p class="say short" data-short=${short.length}>
      ${shape(short[0]?.state === 'out' ? 'stop' : 'attention', 28)} <span>${said.join(' · ')}${more}</span>
    </p>`;
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
      .short {
        display: flex;
        gap: 12px;
        align-items: center;
      }
      h2 {
        margin-top: 4px;
      }
      ol {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 540px), 1fr));
        column-gap: 48px;
        align-content: start;
      }
      li {
        display: grid;
        grid-template-columns: minmax(90px, auto) 140px 1fr auto;
        gap: 14px;
        padding: 5px 0;
        align-items: center;
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
