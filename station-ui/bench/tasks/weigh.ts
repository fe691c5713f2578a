import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatMass } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import { loadWords } from '../../i18n/loads.ts';
import { isEmpty } from '../../components/weigh-geometry.ts';
import { shape } from '../../components/shapes.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** The parcel on the scale: the live figure, large. */
@customElement('bf-task-weigh')
export class TaskWeigh extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'weigh'>;

  override render(): TemplateResult {
    const instruction = this.instruction();
    return html`<h1 class=${instructionClass(instruction)}>${instruction}</h1>
      ${this.how()}
      <div class="fill middle">${this.figure()}</div>`;
  }

  /** Of the parcel that is to be weighed; not while the pan is to be emptied or zeroed first. */
  private how(): TemplateResult | null {
    if (this.isSilent()) return html`<p class="say secondary how">${loadWords[this.language].silentHow}</p>`;
    const another = this.live?.another === true;
    if (!another && (this.live?.needsEmptying === true || this.showsDriftAlone())) return null;
    return html`<p class="say secondary how">
      ${another ? loadWords[this.language].thenThis : this.words.scale.weighHow}
    </p>`;
  }

  private instruction(): string {
    const { scale } = this.words;
    const reading = this.live?.reading ?? null;
    if (this.isSilent()) return loadWords[this.language].silent;
    if (this.live?.another === true) return loadWords[this.language].takeOffOther;
    if (this.live?.needsEmptying === true) return scale.takeOff;
    if (this.showsDriftAlone()) return scale.zeroFirst;
    if (reading === null || reading.condition === 'fault' || isEmpty(reading)) return scale.putOn;
    return reading.stability === 'moving' ? scale.holdStill : scale.reading;
  }

  /** The server hears nothing of the scale; where the server is not heard either, another line says so. */
  private isSilent(): boolean {
    return this.live !== null && this.live.reading === null;
  }

  /** The pan is empty and shows only how far its zero has moved. */
  private showsDriftAlone(): boolean {
    const reading = this.live?.reading ?? null;
    const moved = this.live?.needsZeroing ?? null;
    return reading?.condition === 'ok' && moved !== null && Math.abs(reading.mass - moved) < 2 * reading.division;
  }

  private figure(): TemplateResult {
    const { scale } = this.words;
    const reading = this.live?.reading ?? null;
    const { weigh } = this.view;
    const planned = weigh?.brackets[weigh.planned];
    const state =
      reading === null
        ? scale.noReading
        : this.live?.another === true
          ? loadWords[this.language].another
          : reading.condition !== 'ok'
            ? scale.condition[reading.condition]
            : isEmpty(reading)
              ? scale.empty
              : scale.stability[reading.stability];
    const standing =
      reading?.condition !== 'ok' || this.live?.another === true
        ? 'stop'
        : reading.stability === 'still'
          ? 'well'
          : 'waiting';
    return html`<p class="figure">
        ${reading === null ? '–' : formatMass(reading.mass, reading.unit, reading.places, this.language)}
      </p>
      <p class="say state">${shape(standing, 36)} ${state}</p>
      ${
        weigh === null
          ? null
          : html`<p class="say">
              <i class="dots" aria-hidden="true"></i>
              ${planned === undefined ? '' : `${scale.paidUpTo(this.plainMass(planned.ceiling), formatMoney(planned.price, this.language))} · `}${scale.expected(
                this.bare(weigh.expected.low),
                this.mass(weigh.expected.high),
              )}
            </p>`
      }`;
  }

  private bare(mass: Parameters<typeof formatMass>[0]): string {
    return this.mass(mass).replace(/\s\w+$/, '');
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .figure {
        font-size: min(170px, 34cqh);
        line-height: 0.95;
        font-weight: 700;
      }
      @container task (max-height: 310px) {
        .figure {
          font-size: 26cqh;
        }
      }
      @container task (max-height: 260px) {
        .how {
          display: none;
        }
        .figure {
          font-size: 24cqh;
        }
      }
      .dots {
        display: inline-block;
        width: 40px;
        margin-right: 10px;
        vertical-align: middle;
        border-top: 5px dotted var(--verdigris);
      }
      .state {
        display: flex;
        gap: 14px;
        align-items: center;
        min-height: 38px;
      }
    `,
  ];
}
