import { LitElement, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { COMMANDS } from '#shared/run/commands.ts';
import { parseMass } from '#shared/units/mass.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import { typedQuantity } from '#shared/units/typed.ts';
import { PRINTER_DOES } from '#shared/wire/events.ts';
import type { Ack, SimulatorAction, SimulatorOffers } from '#shared/wire/events.ts';
import type { DeviceHealth, DeviceName } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import type { Words } from '../i18n/words.ts';
import { dayAndTime } from '../i18n/time.ts';
import { base } from '../theme/styles.ts';
import { trayStyles } from './tray-styles.ts';

const DEVICES: readonly DeviceName[] = ['scale', 'scanner', 'printer'];
const PAPER = ['ok', 'near-end', 'out'] as const;

/** A drawer for the hands that a demo lacks: it plays the simulated devices and is no part of the bench itself. */
@customElement('bf-tray')
export class Tray extends LitElement {
  @property({ attribute: false }) offers: SimulatorOffers = { codes: [], slips: [] };
  @property({ attribute: false }) devices: readonly DeviceHealth[] = [];
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';
  @property({ type: Number }) discarded = 0;
  @property({ attribute: false }) unit: MassUnit = 'oz';
  @property({ attribute: false }) simulate!: (action: SimulatorAction) => Promise<Ack | null>;
  @property({ attribute: false }) pressFoot!: () => void;
  @property({ type: Boolean, reflect: true }) open = false;
  @state() private problem = '';
  @state() private typed: string | null = null;
  @state() private code = '';

  /** What a hand would put on first, in the shop's unit. */
  private get mass(): string {
    return this.typed ?? (this.unit === 'g' || this.unit === 'kg' ? '450 g' : '15.9 oz');
  }

  override render(): TemplateResult {
    const { tray } = this.words;
    return html`<button
        type="button"
        class="tab"
        aria-expanded=${this.open ? 'true' : 'false'}
        aria-controls="drawer"
        data-tray="tab"
        @click=${this.turn}
      >
        <span>${tray.title}</span>
      </button>
      <aside id="drawer" aria-label=${tray.title} ?hidden=${!this.open}>${this.open ? this.drawer() : null}</aside>`;
  }

  private drawer(): TemplateResult {
    const { tray } = this.words;
    return html`<header>
        <h2>${tray.title}</h2>
        <button type="button" data-tray="close" @click=${this.turn}>${tray.close}</button>
      </header>
      ${this.problem === '' ? null : html`<p class="problem" role="alert">${this.problem}</p>`} ${this.scaleRows()}
      ${this.scanRows()}
      <div class="row">
        <button type="button" data-tray="foot" @click=${() => this.pressFoot()}>${tray.foot}</button>
      </div>
      ${this.deviceRows()} ${this.slips()}`;
  }

  private scaleRows(): TemplateResult {
    const { tray, devices } = this.words;
    return html`<fieldset>
      <legend>${devices.scale}</legend>
      <form class="row" @submit=${this.putMass}>
        <input
          name="mass"
          aria-label=${tray.mass}
          .value=${this.mass}
          @input=${(event: InputEvent) => (this.typed = fieldValue(event))}
        />
        <button type="submit" data-tray="put-mass">${tray.put}</button>
      </form>
      <div class="row">
        <button type="button" data-tray="put-expected" @click=${() => this.act({ do: 'put-expected' })}>
          ${tray.expectedMass}
        </button>
        <button type="button" data-tray="empty-pan" @click=${() => this.act({ do: 'empty-pan' })}>
          ${tray.emptyPan}
        </button>
        <button type="button" data-tray="drift" @click=${this.drift}>${tray.drift}</button>
      </div>
      ${this.discarded > 0 ? html`<p>${tray.discarded(this.discarded)}</p>` : null}
    </fieldset>`;
  }

  private scanRows(): TemplateResult {
    const { tray, devices } = this.words;
    return html`<fieldset>
      <legend>${devices.scanner}</legend>
      <form class="row" @submit=${this.scanCode}>
        <input
          name="code"
          aria-label=${tray.scan}
          .value=${this.code}
          @input=${(event: InputEvent) => (this.code = fieldValue(event))}
        />
        <button type="submit" data-tray="scan">${tray.scanThis}</button>
      </form>
      <div class="codes">
        ${this.offers.codes.map(
          (offer) =>
            html`<button
              type="button"
              data-code=${offer.text}
              @click=${() => this.act({ do: 'scan', text: offer.text })}
            >
              ${this.label(offer.label)}
            </button>`,
        )}
      </div>
    </fieldset>`;
  }

  /** A command card is offered by the command's id. */
  private label(offered: string): string {
    const command = COMMANDS.find((each) => each === offered);
    return command === undefined ? offered : `“${this.words.commands[command]}”`;
  }

  private deviceRows(): TemplateResult {
    const { tray, devices } = this.words;
    return html`<fieldset>
      <legend>${tray.paper}</legend>
      <div class="row">
        ${PAPER.map(
          (paper) =>
            html`<button type="button" data-paper=${paper} @click=${() => this.act({ do: 'paper', state: paper })}>
              ${tray.paperStates[paper]}
            </button>`,
        )}
      </div>
      <div class="row">
        ${PRINTER_DOES.map(
          (does) =>
            html`<button type="button" data-printer=${does} @click=${() => this.act({ do: 'printer', does })}>
              ${tray.printerDoes[does]}
            </button>`,
        )}
      </div>
      <div class="row">
        ${DEVICES.map((device) => {
          const gone = this.devices.find((each) => each.device === device)?.state === 'lost';
          return html`<button
            type="button"
            data-plug=${device}
            @click=${() => this.act({ do: gone ? 'plug' : 'unplug', device })}
          >
            ${gone ? tray.plug(devices[device]) : tray.unplug(devices[device])}
          </button>`;
        })}
      </div>
    </fieldset>`;
  }

  private slips(): TemplateResult {
    const { tray } = this.words;
    return html`<fieldset class="slips">
      <legend>${tray.slips}</legend>
      ${this.offers.slips.length === 0 ? html`<p>${tray.noSlips}</p>` : null}
      ${this.offers.slips.map(
        (slip) =>
          html`<figure>
            <img
              alt=${tray.slipAt(dayAndTime(new Date(slip.at).toISOString(), this.language, { now: new Date(), timeZone: undefined }))}
              src=${svgPicture(slip.svg)}
            />
          </figure>`,
      )}
    </fieldset>`;
  }

  private readonly turn = (): void => {
    this.dispatchEvent(new CustomEvent('bf-tray-turned'));
  };

  private readonly putMass = (event: Event): void => {
    event.preventDefault();
    if (this.massIsGood()) void this.act({ do: 'put-mass', mass: this.mass });
  };

  private readonly drift = (): void => {
    if (this.massIsGood()) void this.act({ do: 'drift', mass: this.mass });
  };

  private massIsGood(): boolean {
    try {
      parseMass(typedQuantity(this.mass, 'comma', null));
      return true;
    } catch {
      this.problem = this.words.tray.badMass;
      return false;
    }
  }

  private readonly scanCode = (event: Event): void => {
    event.preventDefault();
    const text = this.code.trim();
    if (text === '') return;
    this.code = '';
    void this.act({ do: 'scan', text });
  };

  private async act(action: SimulatorAction): Promise<void> {
    const ack = await this.simulate(action);
    this.problem =
      ack === null ? this.words.bench.linkLost : ack.ok ? '' : `${this.words.wireErrors[ack.error]}: ${ack.message}`;
  }

  static override styles = [base, trayStyles];
}

function fieldValue(event: Event): string {
  return event.target instanceof HTMLInputElement ? event.target.value : '';
}

/** As a picture in an img element: a script inside an SVG does not run there. */
function svgPicture(svg: string): string {
  return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-tray': Tray;
  }
}
