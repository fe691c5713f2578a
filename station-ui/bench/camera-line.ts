import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { styleMap } from 'lit/directives/style-map.js';
import { Grabber, LOOKED_AT } from '../camera/looked-at.ts';
import type { ScanningState } from '../camera/scanning.ts';
import { shape } from '../components/shapes.ts';
import type { Standing } from '../components/shapes.ts';
import { readable } from '../components/last-scan.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';

const STANDING = { taken: 'well', 'not-known': 'attention', 'not-asked': 'stop' } as const satisfies Record<
  string,
  Standing
>;

/** A code may be a whole page of text. */
const LONGEST_SHOWN = 40;

/** What the tablet's camera sees and what of it was a code of ours; or why there is no camera and how to mend it. */
@customElement('bf-camera-line')
export class CameraLine extends LitElement {
  @property({ attribute: false }) scanning!: ScanningState;
  @property({ attribute: false }) words!: Words;
  /** the task needs the room: one line, a small picture */
  @property({ type: Boolean, reflect: true }) narrow = false;
  @query('video') private readonly video!: HTMLVideoElement | null;
  private readonly grabber = new Grabber();

  /** The part of the picture in the frame, at this moment; null while there is none. */
  picture(): ImageData | null {
    return this.video === null ? null : this.grabber.grab(this.video);
  }

  override render(): TemplateResult {
    const { camera } = this.words;
    const { trouble, stream, turned, counts, light } = this.scanning;
    if (trouble !== null) {
      return html`<p class="small trouble" role="alert" data-camera-trouble=${trouble}>
        ${shape('attention', 30)} <b>${camera.troubles[trouble]}</b>
        <button type="button" data-camera-leave @click=${() => this.dispatchEvent(new CustomEvent('bf-camera-left'))}>
          ${this.words.tray.close}
        </button>
      </p>`;
    }
    const frame = { width: `${LOOKED_AT.width * 100}%`, height: `${LOOKED_AT.height * 100}%` };
    return html`<div class="line" data-camera=${this.scanning.phase}>
      <div class="preview" role="img" aria-label=${camera.picture}>
        <video .srcObject=${stream} autoplay playsinline muted aria-hidden="true"></video>
        <span class="frame" style=${styleMap(frame)}></span>
      </div>
      <div class="words">
        ${this.said()}
        <p class="small secondary counts">${camera.counts(counts.taken, counts.notKnown, counts.unconfirmed)}</p>
        ${turned ? null : html`<p class="small">${camera.onlyStraight}</p>`}
      </div>
      ${
        light === 'none'
          ? null
          : html`<button
              type="button"
              data-light
              aria-pressed=${light === 'on' ? 'true' : 'false'}
              @click=${() => this.dispatchEvent(new CustomEvent('bf-camera-light'))}
            >
              ${camera.light}: <b>${this.words.voice.turned[light]}</b>
            </button>`
      }
    </div>`;
  }

  private said(): TemplateResult {
    const { camera } = this.words;
    const { seen, phase } = this.scanning;
    const outcome = seen?.outcome ?? 'none';
    return html`<p class="say" aria-live="polite" data-seen=${outcome} data-text=${seen?.text ?? ''}>
      ${
        seen === null
          ? phase === 'looking'
            ? camera.looking
            : camera.starting
          : html`${shape(STANDING[seen.outcome], 30)} <span>${camera.seen[seen.outcome](shortened(seen.text))}</span>`
      }
    </p>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      .line {
        display: flex;
        align-items: center;
        gap: 18px;
        min-width: 0;
      }
      .preview {
        position: relative;
        flex: none;
        width: 196px;
        aspect-ratio: 16 / 9;
        background: var(--kraft);
        overflow: hidden;
      }
      video {
        display: block;
        width: 100%;
        height: 100%;
        object-fit: fill;
      }
      .frame {
        position: absolute;
        inset: 0;
        margin: auto;
        border: 3px dashed #fff;
        outline: 3px solid rgb(27 33 48 / 60%);
      }
      .words {
        flex: 1;
        min-width: 0;
        display: grid;
        gap: 4px;
      }
      .say {
        display: flex;
        gap: 10px;
        align-items: center;
        font-weight: 700;
        overflow-wrap: anywhere;
      }
      .trouble {
        display: flex;
        gap: 10px;
        align-items: center;
      }
      :host([narrow]) {
        --size-say: 22px;
      }
      :host([narrow]) .preview {
        width: 114px;
      }
      :host([narrow]) .counts {
        display: none;
      }
      @media (max-height: 680px) {
        .preview {
          width: 142px;
        }
        :host([narrow]) .preview {
          width: 78px;
        }
        .counts {
          display: none;
        }
      }
      button {
        flex: none;
        min-height: 64px;
        padding: 0 14px;
        background: transparent;
        border: 3px dashed var(--thread);
        font-size: 20px;
        cursor: pointer;
      }
    `,
  ];
}

function shortened(text: string): string {
  const shown = readable(text);
  return shown.length > LONGEST_SHOWN ? `${shown.slice(0, LONGEST_SHOWN)} …` : shown;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-camera-line': CameraLine;
  }
}
