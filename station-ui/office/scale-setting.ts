import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { CorrectionsTaken, PortRow, ScaleFinding, UsbScalesView } from '#shared/wire/devices.ts';
import { shape } from '../components/shapes.ts';
import { DeviceElement } from './device-element.ts';
import { bytesStyles } from './bytes-styles.ts';

const LOOK_AGAIN_MS = 400;

/** Finds out how a scale on a serial port is set, and takes in what carriers found. */
@customElement('bf-scale-setting')
export class ScaleSetting extends DeviceElement {
  /** without what carriers found */
  @property({ type: Boolean }) finderOnly = false;
  @state() private ports: readonly PortRow[] | null = null;
  @state() private usb: UsbScalesView | null = null;
  @state() private finding: ScaleFinding = { at: 'idle' };
  @state() private path = '';
  @state() private taken: CorrectionsTaken | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;

  override disconnectedCallback(): void {
    clearTimeout(this.timer);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const { say, finding } = this;
    return html`<section>
        <h2>${say.finder}</h2>
        <p>${say.finderHow}</p>
        <p class="tools">
          <button type="button" data-do="ports" @click=${this.list}>${say.listPorts}</button>
          <label
            >${say.otherPort}
            <input
              type="search"
              data-field="port"
              placeholder="/dev/ttyUSB0"
              .value=${this.path}
              @input=${(event: Event) => (this.path = (event.target as HTMLInputElement).value)}
          /></label>
          <button
            type="button"
            class="main"
            data-do="listen"
            ?disabled=${finding.at === 'listening' || this.path === ''}
            @click=${this.listen}
          >
            ${say.listen}
          </button>
        </p>
        ${this.ports === null ? null : this.portList(this.ports)} ${this.found()}
        <p class="tools">
          <button type="button" data-do="usb-scales" @click=${this.listUsb}>${say.listUsbScales}</button>
        </p>
        ${this.usb === null ? null : this.usbScales(this.usb)}
        ${
          this.failure === ''
            ? null
            : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`
        }
      </section>
      ${this.finderOnly ? null : this.correctionsIn()}`;
  }

  private correctionsIn(): TemplateResult {
    const { say } = this;
    return html`<section>
      <h2>${say.corrections}</h2>
      <p>${say.correctionsHow}</p>
      <p>
        <label class="button"
          >${say.chooseFile}
          <input
            class="only-read"
            type="file"
            accept=".csv,.tsv,.txt,text/csv"
            data-field="corrections"
            @change=${this.chosen}
        /></label>
      </p>
      ${this.taken === null ? null : this.corrections(this.taken)}
    </section>`;
  }

  private portList(ports: readonly PortRow[]): TemplateResult {
    const { say } = this;
    if (ports.length === 0) return html`<p>${say.noPorts}</p>`;
    return html`<ul class="ports" aria-label=${say.ports}>
      ${ports.map(
        (port) =>
          html`<li>
            <button type="button" ?disabled=${port.inUse} @click=${() => (this.path = port.path)}>${port.path}</button>
            ${port.adapter} ${port.inUse ? say.inUse : ''}
          </li>`,
      )}
    </ul>`;
  }

  private usbScales({ missing, scales }: UsbScalesView): TemplateResult {
    const { say } = this;
    if (missing !== null) {
      return html`<p class="said" data-usb="missing">${shape('attention', 22)} ${say.hidMissing}</p>
        <p class="secondary"><code>${missing}</code></p>`;
    }
    if (scales.length === 0) return html`<p data-usb="none">${say.noUsbScales}</p>`;
    return html`<ul class="ports" aria-label=${say.usbScales} data-usb="found">
      ${scales.map(
        (scale) =>
          html`<li>
            <b>${scale.name}</b> ${scale.ids} ${scale.weighs ? '' : say.perhapsScale}
            <p>${say.forConfig}</p>
            <pre>${scale.yaml}</pre>
          </li>`,
      )}
    </ul>`;
  }

  private found(): TemplateResult | null {
    const { say, finding } = this;
    if (finding.at === 'idle') return null;
    if (finding.at === 'listening') return html`<p role="status">${say.listening(finding.port, finding.baud)}</p>`;
    const { found, tried } = finding;
    return html`<div data-finding=${found === null ? 'nothing' : 'found'} role="status">
      ${
        found === null
          ? html`<p class="said">${shape('attention', 22)} ${say.foundNothing}</p>`
          : html`<p class="said">${shape('well', 22)} ${say.found(found.baud, found.protocol)}</p>
              <p>${say.weight}: <b>${found.weight}</b></p>
              <p>${say.sample}: <code>${found.text}</code> <code class="secondary">${found.hex}</code></p>
              <p>${say.forConfig}</p>
              <pre>${found.yaml}</pre>`
      }
      <ul>
        ${tried.map(
          (each) => html`<li>${each.baud}: ${say.heard[each.heard] ?? each.heard} <code>${each.text}</code></li>`,
        )}
      </ul>
    </div>`;
  }

  private corrections(taken: CorrectionsTaken): TemplateResult {
    const { say } = this;
    return html`<p class="said" role="status" data-corrections=${taken.taken}>
        ${shape(taken.refused.length === 0 ? 'well' : 'attention', 22)}
        ${say.correctionsTaken(taken.taken, taken.refused.length)}
      </p>
      <ul>
        ${taken.refused.map(({ line, expected, found }) => html`<li>${say.refusedLine(line, expected, found)}</li>`)}
      </ul>`;
  }

  private readonly list = (): void => {
    void this.attempt(async () => {
      this.ports = await this.api.ports();
    });
  };

  private readonly listUsb = (): void => {
    void this.attempt(async () => {
      this.usb = await this.api.usbScales();
    });
  };

  private readonly listen = (): void => {
    void this.attempt(async () => {
      this.finding = await this.api.find(this.path);
      this.look();
    });
  };

  private look(): void {
    clearTimeout(this.timer);
    if (this.finding.at !== 'listening' || !this.isConnected) return;
    this.timer = setTimeout(() => {
      void this.attempt(async () => {
        this.finding = await this.api.finding();
      }).then(() => this.look());
    }, LOOK_AGAIN_MS);
  }

  private readonly chosen = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    const file = field.files?.[0];
    if (file === undefined) return;
    void this.attempt(async () => {
      this.taken = await this.api.corrections(file);
      this.changed();
    }).then(() => {
      // The same file may be chosen again after it was mended.
      field.value = '';
    });
  };

  static override styles = [
    ...bytesStyles,
    css`
      :host {
        display: grid;
        gap: 24px;
      }
      .main:disabled {
        background: var(--chalk);
      }
      .ports {
        display: grid;
        gap: 6px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-scale-setting': ScaleSetting;
  }
}
