import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { LabelStop } from '#shared/run/types.ts';
import { shape } from '../../components/shapes.ts';
import type { Words } from '../../i18n/words.ts';
import { TaskElement } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** A wrong label takes the whole middle of the screen, to be seen from across the bench, until something is done about it. */
@customElement('bf-label-stop')
export class LabelStopElement extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'label'>;
  @property({ attribute: false }) stop!: LabelStop;

  override render(): TemplateResult {
    const { labelStop, commands } = this.words;
    const { stop } = this;
    return html`<div class="stop" role="alert" data-label-stop=${stop.why}>
      <h1>${shape('stop', 84)} <span>${headingOf(stop, this.words)}</span></h1>
      <div class="codes">
        <p>
          <span>${labelStop.found}</span>
          <b class="found" data-found>${foundOn(stop)}</b>
        </p>
        <p>
          <span>${stop.why === 'number' ? labelStop.dueNumber : labelStop.due}</span>
          <b data-due>${stop.why === 'number' ? stop.due : this.task.postcode}</b>
        </p>
      </div>
      <p class="how">${stop.why === 'used' ? labelStop.howUsed : labelStop.how}</p>
      <p class="else">${labelStop.otherwise(commands.back, commands['set-aside'])}</p>
    </div>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .stop {
        flex: 1;
        min-height: 0;
        display: flex;
        flex-direction: column;
        justify-content: safe center;
        gap: min(22px, 2.4cqh);
        padding: min(16px, 3cqh) 28px;
        overflow: hidden;
        color: var(--chalk);
        background:
          repeating-linear-gradient(90deg, transparent 0 26px, var(--chalk) 26px 30px, transparent 30px 40px) top / 100%
            8px no-repeat,
          var(--madder);
        --madder-mark: var(--chalk);
      }
      .stop .shape {
        --madder: var(--chalk);
      }
      h1 {
        display: flex;
        gap: 22px;
        align-items: center;
        font-size: min(84px, 15cqh, 9cqw);
        line-height: 1;
      }
      .codes {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 48px;
      }
      .codes p {
        display: grid;
      }
      .codes span {
        font-size: min(32px, 8cqh);
      }
      .codes b {
        font-size: min(120px, 19cqh, 9.5cqw);
        line-height: 1.05;
        letter-spacing: 0.03em;
        overflow-wrap: anywhere;
      }
      .found {
        text-decoration: line-through 8px;
      }
      [data-label-stop='used'] .codes b,
      [data-label-stop='number'] .codes b {
        font-size: min(64px, 14cqh, 6cqw);
      }
      [data-label-stop='used'] .found {
        text-decoration: none;
      }
      [data-label-stop='number'] .found {
        text-decoration-thickness: 5px;
      }
      .how {
        font-size: min(36px, 8cqh);
        line-height: 1.15;
        font-weight: 700;
      }
      .else {
        font-size: min(27px, 7cqh);
        line-height: 1.15;
      }
    `,
  ];
}

function headingOf(stop: LabelStop, { labelStop }: Words): string {
  return stop.why === 'used' ? labelStop.used : labelStop.wrong;
}

function foundOn(stop: LabelStop): string {
  return stop.why === 'used' ? stop.number : stop.found;
}

/** The stop in one line, for screen readers and for the page's title. */
export function labelStopInWords(stop: LabelStop, postcode: string, words: Words): string {
  const { labelStop } = words;
  const due = stop.why === 'number' ? `${labelStop.dueNumber} ${stop.due}` : `${labelStop.due} ${postcode}`;
  const how = stop.why === 'used' ? labelStop.howUsed : labelStop.how;
  return `${headingOf(stop, words)}. ${labelStop.found} ${foundOn(stop)}, ${due}. ${how}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-label-stop': LabelStopElement;
  }
}
