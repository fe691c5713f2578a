import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { BenchDesk, DevicesView } from '#shared/wire/devices.ts';
import { FirstReading } from '../components/first-reading.ts';
import { shape } from '../components/shapes.ts';
import { base } from '../theme/styles.ts';
import { DeviceElement } from './device-element.ts';
import './device-table.ts';
import './form-trial.ts';
import './label-printer-desk.ts';
import { officeStyles } from './office-styles.ts';
import './pedals.ts';
import './print-desk.ts';
import './scale-setting.ts';
import './scan-desk.ts';
import './weigh-desk.ts';

/** Often enough for a live reading. */
const LOOK_AGAIN_MS = 500;

/** Every device of every bench: how it is, what it sends, and trying it. */
@customElement('bf-devices')
export class Devices extends DeviceElement {
  @state() private view: DevicesView | null = null;
  @state() private mute = false;
  @state() private deaf: 'not-installed' | 'faulty' | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private looking = false;

  constructor() {
    super();
    for (const ask of [this.askVoice, this.askRecogniser]) {
      new FirstReading(this, async (again) => {
        await this.updateComplete;
        return this.attempt(ask, again);
      });
    }
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('bf-devices-changed', this.look);
    void this.updateComplete.then(this.look);
  }

  override disconnectedCallback(): void {
    clearTimeout(this.timer);
    this.removeEventListener('bf-devices-changed', this.look);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const { view } = this;
    return html`${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${this.mute ? html`<p class="said" data-voice-missing>${shape('attention', 22)} ${this.words.speaking.troubles['not-installed']}</p>` : null}
      ${this.deaf === null ? null : html`<p class="said" data-recogniser-missing>${shape('attention', 22)} ${this.words.voice.states[this.deaf]}</p>`}
      ${
        view === null
          ? html`<p>${this.words.office.loading}</p>`
          : repeat(
              view.benches,
              (desk) => desk.bench.id,
              (desk) => this.desk(desk, view),
            )
      }
      <bf-scale-setting .words=${this.words} .language=${this.language} .api=${this.api}></bf-scale-setting>
      <bf-pedals .words=${this.words} .language=${this.language} .api=${this.api}></bf-pedals>
      <bf-form-trial .words=${this.words} .language=${this.language} .api=${this.api}></bf-form-trial>`;
  }

  private desk(desk: BenchDesk, view: DevicesView): TemplateResult {
    const { words, language, api } = this;
    return html`<section data-desk=${desk.bench.id}>
      <h2>${desk.bench.name}</h2>
      <bf-device-table
        .words=${words}
        .language=${language}
        .api=${api}
        .rows=${desk.devices}
        .now=${view.now}
        .bench=${desk.bench.id}
      ></bf-device-table>
      <div class="desks">
        <bf-weigh-desk
          .words=${words}
          .language=${language}
          .api=${api}
          .desk=${desk}
          .unit=${view.unit}
          .places=${view.places}
        ></bf-weigh-desk>
        <bf-print-desk .words=${words} .language=${language} .api=${api} .desk=${desk}></bf-print-desk>
        <bf-label-printer-desk
          .words=${words}
          .language=${language}
          .api=${api}
          .desk=${desk}
          .now=${view.now}
        ></bf-label-printer-desk>
        <bf-scan-desk .words=${words} .language=${language} .api=${api} .desk=${desk} .now=${view.now}></bf-scan-desk>
      </div>
    </section>`;
  }

  /** Whether the station has a voice at all. */
  private readonly askVoice = async (): Promise<void> => {
    this.mute = (await this.api.speech()).engine === 'not-installed';
  };

  /** Whether spoken commands can be understood at all. */
  private readonly askRecogniser = async (): Promise<void> => {
    const { recogniser } = await this.api.recogniser();
    this.deaf = recogniser === 'not-installed' || recogniser === 'faulty' ? recogniser : null;
  };

  /** Looks now, and again after a while as long as the page is shown. */
  private readonly look = (): void => {
    if (this.looking || !this.isConnected) return;
    this.looking = true;
    clearTimeout(this.timer);
    void this.attempt(async () => {
      this.view = await this.api.view();
    }).then(() => {
      this.looking = false;
      if (this.isConnected) this.timer = setTimeout(this.look, LOOK_AGAIN_MS);
    });
  };

  static override styles = [
    base,
    officeStyles,
    css`
      :host {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 28px;
      }
      section {
        border-bottom: 3px dashed var(--thread);
        padding-bottom: 18px;
      }
      h2 {
        margin-bottom: 8px;
      }
      .desks {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 360px), 1fr));
        gap: 8px 32px;
        align-items: start;
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-devices': Devices;
  }
}
