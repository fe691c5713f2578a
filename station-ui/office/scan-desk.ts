import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { PRINTER_DOES, type SimulatorAction } from '#shared/wire/events.ts';
import type { BenchDesk } from '#shared/wire/devices.ts';
import type { DeviceName } from '#shared/wire/views.ts';
import { shape } from '../components/shapes.ts';
import { deskStyles } from './desk-styles.ts';
import { DeviceElement } from './device-element.ts';

const PAPER = ['ok', 'near-end', 'out'] as const;

/** The scanner of a bench tried, and hands for those of its devices that are simulated. */
@customElement('bf-scan-desk')
export class ScanDesk extends DeviceElement {
  @property({ attribute: false }) desk!: BenchDesk;
  @property({ type: Number }) now = 0;
  @state() private mass = '';
  @state() private code = '';

  override render(): TemplateResult {
    const { say, desk } = this;
    const simulated = desk.devices.filter((row) => row.simulated);
    return html`<h3>${say.tryScan}</h3>
      <p>
        <button type="button" data-do="test-scan" @click=${this.wait}>${say.tryScan}</button>
        <span role="status" data-test-scan=${desk.testScan.at}>${this.scanned()}</span>
      </p>
      ${simulated.length === 0 ? null : this.hands(simulated.map((row) => row.device))}
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}`;
  }

  private scanned(): string {
    const { testScan } = this.desk;
    const { say } = this;
    if (testScan.at === 'off') return '';
    if (testScan.at === 'waiting') return say.scanWait(Math.max(0, Math.round((testScan.until - this.now) / 1000)));
    return `“${testScan.meaning.text.replace(/\p{Cc}/gu, '·')}” → ${this.meaning(testScan.meaning)}`;
  }

  private meaning(meaning: ScanMeaning): string {
    const { say, words } = this;
    switch (meaning.means) {
      case 'piece':
        return say.scanMeans.piece(meaning.sku);
      case 'container':
        return say.scanMeans.container(meaning.container);
      case 'order':
        return say.scanMeans.order(meaning.order);
      case 'sack':
        return say.scanMeans.sack(meaning.carrier);
      case 'command':
        return say.scanMeans.command(words.commands[meaning.command]);
      case 'staff':
        return say.scanMeans.staff(meaning.staff);
      case 'label':
        return say.scanMeans.label(
          meaning.postcode === null ? meaning.number : `${meaning.number} · ${meaning.postcode}`,
        );
      case 'unknown':
        return say.scanMeans.unknown(say.unknownScan[meaning.why]);
    }
  }

  private hands(devices: readonly DeviceName[]): TemplateResult {
    const { tray } = this.words;
    return html`<h3>${this.say.simulator}</h3>
      ${
        devices.includes('scale')
          ? html`<form class="tools" @submit=${this.put}>
              <input
                type="search"
                data-field="mass"
                aria-label=${tray.mass}
                placeholder=${tray.mass}
                .value=${this.mass}
                @input=${(event: Event) => (this.mass = (event.target as HTMLInputElement).value)}
              />
              <button type="submit" data-hand="put-mass">${tray.put}</button>
              <button type="button" data-hand="empty-pan" @click=${() => this.act({ do: 'empty-pan' })}>
                ${tray.emptyPan}
              </button>
              <button type="button" data-hand="drift" @click=${() => this.act({ do: 'drift', mass: this.mass })}>
                ${tray.drift}
              </button>
            </form>`
          : null
      }
      ${
        devices.includes('scanner')
          ? html`<form class="tools" @submit=${this.scan}>
              <input
                type="search"
                data-field="code"
                aria-label=${tray.scan}
                placeholder=${tray.scan}
                .value=${this.code}
                @input=${(event: Event) => (this.code = (event.target as HTMLInputElement).value)}
              />
              <button type="submit" data-hand="scan">${tray.scanThis}</button>
            </form>`
          : null
      }
      ${
        devices.includes('printer')
          ? html`<p class="tools">
              <span>${tray.paper}</span>
              ${PAPER.map(
                (paper) =>
                  html`<button
                    type="button"
                    data-paper=${paper}
                    @click=${() => this.act({ do: 'paper', state: paper })}
                  >
                    ${tray.paperStates[paper]}
                  </button>`,
              )}
              ${PRINTER_DOES.map(
                (does) =>
                  html`<button type="button" data-printer=${does} @click=${() => this.act({ do: 'printer', does })}>
                    ${tray.printerDoes[does]}
                  </button>`,
              )}
            </p>`
          : null
      }
      <p class="tools">
        ${devices.map((device) => {
          const gone = this.desk.devices.find((row) => row.device === device)?.health.state === 'lost';
          return html`<button
            type="button"
            data-plug=${device}
            @click=${() => this.act({ do: gone ? 'plug' : 'unplug', device })}
          >
            ${gone ? tray.plug(this.words.devices[device]) : tray.unplug(this.words.devices[device])}
          </button>`;
        })}
      </p>`;
  }

  private readonly wait = (): void => {
    void this.change(() => this.api.testScan(this.desk.bench.id));
  };

  private readonly put = (event: Event): void => {
    event.preventDefault();
    this.act({ do: 'put-mass', mass: this.mass });
  };

  private readonly scan = (event: Event): void => {
    event.preventDefault();
    if (this.code.trim() === '') return;
    this.act({ do: 'scan', text: this.code.trim() });
  };

  private act(action: SimulatorAction): void {
    void this.change(() => this.api.simulate(this.desk.bench.id, action));
  }

  static override styles = [
    ...deskStyles,
    css`
      .tools {
        margin: 6px 0;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-scan-desk': ScanDesk;
  }
}
