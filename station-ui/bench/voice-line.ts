import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { LISTENING_MODES } from '#shared/wire/voice.ts';
import type { ListeningMode, VoiceView } from '#shared/wire/voice.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import type { ListeningState } from './listening.ts';

/** Quieter than this the meter is empty. */
const QUIET_DB = -70;

/** Nothing is understood until somebody does what the line says: no way of listening is offered beside it. */
const MENDED_BY_HAND: ReadonlySet<VoiceView['state']> = new Set([
  'off',
  'no-microphone',
  'not-installed',
  'faulty',
  'language-not-heard',
]);

/** What the microphone hears: how loud, what of it was a command, and what was not and why. */
@customElement('bf-voice-line')
export class VoiceLine extends LitElement {
  @property({ attribute: false }) listening!: ListeningState;
  @property({ attribute: false }) voice: VoiceView | null = null;
  @property({ attribute: false }) words!: Words;
  @property({ type: Number }) level = -100;

  override render(): TemplateResult {
    const { voice: words } = this.words;
    const { trouble, held, dropped } = this.listening;
    const mode = this.voice?.mode ?? 'always';
    if (trouble !== null)
      return html`<p class="small" role="alert" data-trouble=${trouble}><b>${words.troubles[trouble]}</b></p>`;
    const state = this.voice?.state ?? 'off';
    const counts = this.voice?.counts;
    // How it is mended needs all the room.
    const mending = MENDED_BY_HAND.has(state);
    return html`<div class="line small" data-voice=${state}>
      <meter
        min="0"
        max="1"
        .value=${Math.max(0, Math.min(1, (this.level - QUIET_DB) / -QUIET_DB))}
        aria-label=${words.level}
      ></meter>
      ${
        mending
          ? null
          : html`<button type="button" data-mode=${mode} @click=${() => this.tell('bf-voice-mode', after(mode))}>
              ${words.modes[mode]}
            </button>`
      }
      ${
        mending || mode !== 'push-to-talk'
          ? null
          : html`<button
              type="button"
              class="talk"
              data-talk
              aria-pressed=${held ? 'true' : 'false'}
              @pointerdown=${() => this.tell('bf-talk', true)}
              @pointerup=${() => this.tell('bf-talk', false)}
              @pointercancel=${() => this.tell('bf-talk', false)}
              @pointerleave=${() => this.tell('bf-talk', false)}
            >
              ${words.talk}
            </button>`
      }
      <p class="heard" aria-live="polite" data-heard=${this.voice?.heard?.outcome ?? 'none'}>${this.said(state)}</p>
      ${mending || counts === undefined ? null : html`<p class="counts secondary">${words.counts(counts.rejected, Math.max(counts.dropped, dropped), counts.junk)}</p>`}
    </div>`;
  }

  private said(state: VoiceView['state']): string {
    const { voice: words, commands } = this.words;
    const heard = this.voice?.heard ?? null;
    const microphone = this.voice?.microphone;
    if (state === 'no-microphone' && microphone?.at === 'server') {
      return words.captureTroubles(microphone.state, microphone.said);
    }
    const attentive = state === 'listening' || state === 'asleep' || state === 'not-held';
    if (!attentive || heard === null) return words.states[state];
    const said = words.heard(heard.outcome, heard.command === null ? '' : commands[heard.command]);
    // What to do comes first where a command would not count as it is.
    if (state !== 'listening')
      return heard.outcome === 'woken' ? words.states[state] : `${words.states[state]} · ${said}`;
    return said;
  }

  private tell(type: string, detail?: boolean | ListeningMode): void {
    this.dispatchEvent(new CustomEvent(type, { detail }));
  }

  static override styles = [
    base,
    benchType,
    css`
      .line {
        display: flex;
        align-items: center;
        gap: 14px;
        min-width: 0;
      }
      meter {
        flex: none;
        width: 110px;
        height: 22px;
      }
      .heard {
        flex: 1;
        min-width: 0;
        font-weight: 700;
      }
      .counts {
        white-space: nowrap;
        overflow: hidden;
        text-overflow: ellipsis;
        flex: 0 1 auto;
      }
      button {
        min-height: 64px;
        padding: 0 12px;
        background: transparent;
        border: 3px dashed var(--thread);
        white-space: nowrap;
        cursor: pointer;
        touch-action: none;
      }
      .talk[aria-pressed='true'] {
        background: var(--weld);
        color: var(--on-weld);
      }
      @media (max-width: 1100px), (max-height: 680px) {
        .counts {
          display: none;
        }
      }
    `,
  ];
}

function after(mode: ListeningMode): ListeningMode {
  return LISTENING_MODES[(LISTENING_MODES.indexOf(mode) + 1) % LISTENING_MODES.length] ?? mode;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-voice-line': VoiceLine;
  }
}
