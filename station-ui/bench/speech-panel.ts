import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { FASTEST, QUIETEST, SLOWEST, SPEECH_FORMS } from '#shared/wire/speech.ts';
import type { SpeechChange, SpeechView } from '#shared/wire/speech.ts';
import type { SpeechTrouble } from '../audio/speaker.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';

const RATE_STEP = 20;
const VOLUME_STEP = 10;

/** How this bench speaks to whoever stands here: on or off, how fast, how loud, how much. */
@customElement('bf-speech-panel')
export class SpeechPanel extends LitElement {
  @property({ attribute: false }) speech!: SpeechView;
  @property({ attribute: false }) trouble: SpeechTrouble | null = null;
  @property({ type: Boolean }) blocked = false;
  @property({ attribute: false }) packer: string | null = null;
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    const { speaking: words } = this.words;
    const { on, wordsPerMinute, volume, form } = this.speech;
    const trouble = speechTrouble(this.words, this.speech, this.trouble, this.blocked);
    return html`<h1 class="instruction">${words.heading(this.packer)}</h1>
      ${trouble === null ? null : html`<p class="say trouble" role="status" data-speech-trouble>${trouble}</p>`}
      <div class="rows">
        ${this.choice('on', words.on, [true, false] as const, on, (each) => words.turned[each ? 'on' : 'off'])}
        ${this.choice('form', words.form, SPEECH_FORMS, form, (each) => words.forms[each])}
        ${this.amount('rate', words.rate, words.perMinute(wordsPerMinute), [
          [words.slower, { wordsPerMinute: wordsPerMinute - RATE_STEP }, wordsPerMinute - RATE_STEP >= SLOWEST],
          [words.faster, { wordsPerMinute: wordsPerMinute + RATE_STEP }, wordsPerMinute + RATE_STEP <= FASTEST],
        ])}
        ${this.amount('volume', words.volume, words.ofFull(volume), [
          [words.quieter, { volume: volume - VOLUME_STEP }, volume - VOLUME_STEP >= QUIETEST],
          [words.louder, { volume: volume + VOLUME_STEP }, volume + VOLUME_STEP <= 100],
        ])}
      </div>
      <div class="foot">
        <button type="button" data-speech="trial" ?disabled=${!on} @click=${() => this.tell('bf-speech-trial')}>
          ${words.trial}
        </button>
        <button type="button" class="done" data-speech="done" @click=${() => this.tell('bf-speech-left')}>
          ${words.done}
        </button>
      </div>`;
  }

  private choice<Value extends string | boolean>(
    name: 'on' | 'form',
    label: string,
    values: readonly Value[],
    chosen: Value,
    said: (value: Value) => string,
  ): TemplateResult {
    return html`<span id=${`label-${name}`} class="label">${label}</span>
      <div class="pair" role="group" aria-labelledby=${`label-${name}`}>
        ${values.map(
          (value) =>
            html`<button
              type="button"
              data-speech=${`${name}-${String(value)}`}
              aria-pressed=${value === chosen ? 'true' : 'false'}
              @click=${() => this.change({ [name]: value })}
            >
              ${said(value)}
            </button>`,
        )}
      </div>`;
  }

  private amount(
    name: 'rate' | 'volume',
    label: string,
    shown: string,
    steps: readonly (readonly [string, SpeechChange, boolean])[],
  ): TemplateResult {
    const [less, more] = steps.map(
      ([said, change, possible], index) =>
        html`<button
          type="button"
          data-speech=${`${name}-${index === 0 ? 'less' : 'more'}`}
          ?disabled=${!possible}
          @click=${() => this.change(change)}
        >
          ${said}
        </button>`,
    );
    return html`<span class="label">${label}: <b data-shown=${name}>${shown}</b></span>
      <div class="pair">${less} ${more}</div>`;
  }

  private change(detail: SpeechChange): void {
    this.dispatchEvent(new CustomEvent('bf-speech-change', { detail }));
  }

  private tell(type: string): void {
    this.dispatchEvent(new CustomEvent(type));
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: flex;
        flex-direction: column;
        gap: 14px;
        height: 100%;
        --size-instruction: 44px;
      }
      .trouble {
        font-weight: 700;
      }
      .rows {
        flex: 1;
        min-height: 0;
        display: grid;
        grid-template-columns: minmax(0, 2fr) minmax(0, 3fr);
        gap: 10px 20px;
        align-content: start;
        align-items: center;
        overflow: auto;
      }
      .label {
        font-size: 26px;
        line-height: 1.15;
      }
      .pair,
      .foot {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 12px;
      }
      button {
        min-height: 64px;
        padding: 4px 12px;
        font-size: 26px;
        line-height: 1.1;
        font-weight: 700;
        border: 4px solid var(--ink);
        background: var(--kraft);
        cursor: pointer;
      }
      button[aria-pressed='false'] {
        background: var(--chalk);
        font-weight: 400;
        border-style: dashed;
        border-color: var(--thread);
      }
      button[aria-pressed='true']::before {
        content: '✓ ';
      }
      button:disabled {
        opacity: 0.45;
        cursor: default;
      }
      .done {
        background: var(--ink);
        color: var(--chalk);
      }
    `,
  ];
}

/** Why nothing is heard although speech is on; null when nothing is the matter. */
export function speechTrouble(
  { speaking }: Words,
  { on, engine }: SpeechView,
  trouble: SpeechTrouble | null,
  blocked: boolean,
): string | null {
  if (!on) return null;
  if (engine !== 'working') return speaking.troubles[engine];
  if (trouble !== null) return speaking.troubles[trouble];
  return blocked ? speaking.blocked : null;
}

/** The same where the packer looks while working; null when nothing is the matter. */
export function speechLine(...about: Parameters<typeof speechTrouble>): TemplateResult | null {
  const said = speechTrouble(...about);
  return said === null ? null : html`<p class="small" role="status" data-speech-trouble>${said}</p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-speech-panel': SpeechPanel;
  }
}
