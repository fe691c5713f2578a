import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import type { BenchView } from '#shared/wire/views.ts';
import { shape } from '../../components/shapes.ts';
import { TaskElement } from './task-element.ts';

const STOPS = ['label-wrong-postcode', 'label-used-before'] as const;
export type LabelStop = (typeof STOPS)[number];

/** The label that was just scanned must not go on this parcel; null when nothing is wrong with it. */
export function labelStopOf(view: BenchView): LabelStop | null {
  return STOPS.find((code) => code === view.notice?.code) ?? null;
}

/** A wrong label takes the whole middle of the screen, to be seen from across the bench, until something else is done. */
@customElement('bf-label-stop')
export class LabelStopElement extends TaskElement {
  override render(): TemplateResult {
    const { labelStop } = this.words;
    const values = this.view.notice?.values ?? {};
    const due = values['due'] ?? (this.view.task.at === 'label' ? this.view.task.postcode : '');
    const wrong = labelStopOf(this.view) === 'label-wrong-postcode';
    return html`<div class="stop" role="alert" data-label-stop=${this.view.notice?.code ?? ''}>
      <h1>${shape('stop', 84)} <span>${wrong ? labelStop.wrong : labelStop.used}</span></h1>
      <div class="codes">
        <p>
          <span>${labelStop.found}</span>
          <b class="found" data-found>${wrong ? (values['found'] ?? '') : (values['number'] ?? '')}</b>
        </p>
        ${
          due === ''
            ? null
            : html`<p>
                <span>${labelStop.due}</span>
                <b data-due>${due}</b>
              </p>`
        }
      </div>
      <p class="how">${wrong ? labelStop.how : labelStop.howUsed}</p>
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
        gap: min(22px, 3cqh);
        padding: 12px 28px;
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
        font-size: min(84px, 17cqh, 10cqw);
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
        font-size: min(120px, 22cqh, 15cqw);
        line-height: 1.05;
        letter-spacing: 0.03em;
        overflow-wrap: anywhere;
      }
      .found {
        text-decoration: line-through 8px;
      }
      [data-label-stop='label-used-before'] .found {
        font-size: min(64px, 14cqh, 6cqw);
        text-decoration: none;
      }
      [data-label-stop='label-used-before'] [data-due] {
        font-size: min(64px, 14cqh, 6cqw);
      }
      .how {
        font-size: min(36px, 8cqh);
        line-height: 1.15;
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-label-stop': LabelStopElement;
  }
}
