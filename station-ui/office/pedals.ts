import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { COMMANDS } from '#shared/run/commands.ts';
import type { Command } from '#shared/run/commands.ts';
import { shape } from '../components/shapes.ts';
import { pedalWords } from '../i18n/pedals.ts';
import { DeviceElement } from './device-element.ts';
import { bytesStyles } from './bytes-styles.ts';

type Meaning = 'main' | Command;

/** The line of devices.yaml for learned pedals: a plain list where each presses the main command. */
export function footSwitchLine(learned: ReadonlyMap<string, Meaning>): string {
  const byMeaning = new Map<Meaning, string[]>();
  for (const [key, meaning] of learned) byMeaning.set(meaning, [...(byMeaning.get(meaning) ?? []), key]);
  const onlyMain = [...byMeaning.keys()].every((meaning) => meaning === 'main');
  if (onlyMain) return `footSwitchKeys: [${[...learned.keys()].join(', ')}]`;
  return `footSwitchKeys: { ${[...byMeaning].map(([meaning, keys]) => `${meaning}: [${keys.join(', ')}]`).join(', ')} }`;
}

/** Learns which keys the pedals of a foot switch send, by pressing them. */
@customElement('bf-pedals')
export class Pedals extends DeviceElement {
  @state() private waiting = false;
  @state() private meaning: Meaning = 'main';
  @state() private learned: ReadonlyMap<string, Meaning> = new Map();
  @state() private refused: string | null = null;

  override disconnectedCallback(): void {
    this.wait(false);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = pedalWords[this.language];
    return html`<section>
      <h2>${words.heading}</h2>
      <p>${words.how}</p>
      <p class="tools">
        <label
          >${words.does}
          <select data-field="pedal" @change=${this.chosen}>
            ${(['main', ...COMMANDS] as const).map((each) => html`<option value=${each}>${this.said(each)}</option>`)}
          </select></label
        >
        <button
          type="button"
          class="main"
          data-do="pedal"
          aria-pressed=${this.waiting ? 'true' : 'false'}
          @click=${this.turn}
        >
          ${words.press}
        </button>
        ${
          this.learned.size === 0
            ? null
            : html`<button type="button" data-do="pedals-again" @click=${this.again}>${words.again}</button>`
        }
      </p>
      <div role="status">
        ${this.waiting ? html`<p data-pedal="waiting">${words.waiting}</p>` : null}
        ${
          this.refused === null
            ? null
            : html`<p class="said" data-pedal="taken">
                ${shape('attention', 22)}
                ${words.taken(this.refused, this.said(this.learned.get(this.refused) ?? 'main'))}
              </p>`
        }
        ${this.learned.size === 0 ? null : this.told()}
      </div>
    </section>`;
  }

  private told(): TemplateResult {
    const words = pedalWords[this.language];
    return html`<ul>
        ${[...this.learned].map(([key, meaning]) => html`<li data-key=${key}>${words.sends(key, this.said(meaning))}</li>`)}
      </ul>
      <p>${words.forConfig}</p>
      <pre>${footSwitchLine(this.learned)}</pre>`;
  }

  private said(meaning: Meaning): string {
    return meaning === 'main' ? pedalWords[this.language].main : this.words.commands[meaning];
  }

  private readonly chosen = (event: Event): void => {
    const { value } = event.target as HTMLSelectElement;
    this.meaning = COMMANDS.find((each) => each === value) ?? 'main';
  };

  private readonly turn = (): void => {
    this.refused = null;
    this.wait(!this.waiting);
  };

  private readonly again = (): void => {
    this.learned = new Map();
    this.refused = null;
  };

  /** The key goes nowhere else while a pedal is waited for. */
  private wait(on: boolean): void {
    this.waiting = on;
    if (on) addEventListener('keydown', this.pressed, { capture: true });
    else removeEventListener('keydown', this.pressed, { capture: true });
  }

  private readonly pressed = (event: KeyboardEvent): void => {
    event.preventDefault();
    event.stopImmediatePropagation();
    const { code } = event;
    if (event.repeat || code === '') return;
    this.wait(false);
    if (code === 'Escape') return;
    const other = this.learned.get(code);
    if (other !== undefined && other !== this.meaning) this.refused = code;
    else this.learned = new Map([...this.learned, [code, this.meaning]]);
  };

  static override styles = bytesStyles;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-pedals': Pedals;
  }
}
