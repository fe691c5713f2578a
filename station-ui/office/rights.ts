import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { AccessView, PairedDevice, PairingCode, PersonAtDoor, RightsView } from '#shared/wire/access.ts';
import { fingerprintRows } from '#shared/access/fingerprint.ts';
import { enter, readAccess, whyNot } from '../access/access-api.ts';
import { shape } from '../components/shapes.ts';
import { accessWords } from '../i18n/access.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';
import { pinFields, readPins } from './pin-fields.ts';

/** Who may come in: people's PINs and paired devices. */
@customElement('bf-rights')
export class Rights extends PageElement {
  @state() private access: AccessView | null = null;
  @state() private view: RightsView | null = null;
  @state() private code: PairingCode | null = null;
  @state() private setting: string | null = null;
  @state() private revoking: number | null = null;

  constructor() {
    super();
    this.readFirst(() => this.read());
  }

  override render(): TemplateResult {
    const words = accessWords[this.language];
    const { access, view } = this;
    return html`<h2>${words.page}</h2>
      ${this.alert()} ${access?.locked === false ? this.locking(access) : null}
      ${view === null ? null : html`${this.people(view.people, access?.locked === true)} ${this.devices(view.devices)}`}`;
  }

  private locking({ people }: AccessView): TemplateResult {
    const words = accessWords[this.language];
    return html`<form class="tag" @submit=${this.lock} data-rights="lock">
      <p class="said">
        ${shape('attention', 24)} <span><b>${words.unlocked}</b> ${words.unlockedHow}</span>
      </p>
      <p>${words.lockFirst}</p>
      <div class="tools">
        <label
          ><span>${words.roles.owner}</span
          ><select name="person">
            ${people.filter(({ role }) => role === 'owner').map(({ id, name }) => html`<option value=${id}>${name}</option>`)}
          </select></label
        >
        ${pinFields(words, true)}
        <button type="submit" class="main">${words.setOwnerPin}</button>
      </div>
      <p class="hint">${words.ownerRule}</p>
    </form>`;
  }

  private people(people: readonly PersonAtDoor[], locked: boolean): TemplateResult {
    const words = accessWords[this.language];
    return html`<section>
      <h3>${words.people}</h3>
      <p class="hint">${words.peopleHow}</p>
      <table>
        <thead>
          <tr>
            <th class="plain" scope="col">${words.people}</th>
            <th class="plain" scope="col">${words.role}</th>
            <th class="plain" scope="col">${words.signIn}</th>
            <td></td>
          </tr>
        </thead>
        <tbody>
          ${people.map(
            (each) =>
              html`<tr data-person=${each.id}>
                <td><b>${each.name}</b></td>
                <td>${words.roles[each.role]}</td>
                <td>${each.pin ? words.hasPin : words.badgeOnly}</td>
                <td>${locked ? this.pinOf(each) : null}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </section>`;
  }

  private pinOf(person: PersonAtDoor): TemplateResult {
    const words = accessWords[this.language];
    const { id, name, pin, role } = person;
    if (this.setting === id) {
      return html`<form
        class="tools"
        aria-label=${words.setPinFor(name)}
        @submit=${(event: SubmitEvent) => this.setPin(event, id)}
      >
        ${pinFields(words, true)}
        <button type="submit" class="main">${words.store}</button>
        <button type="button" @click=${() => (this.setting = null)}>${words.keep}</button>
      </form>`;
    }
    return html`<div class="tools">
      <button
        type="button"
        data-rights="pin"
        aria-label=${`${pin ? words.changePin : words.setPin}: ${name}`}
        @click=${() => (this.setting = id)}
      >
        ${pin ? words.changePin : words.setPin}
      </button>
      ${
        pin && role !== 'owner'
          ? html`<button type="button" aria-label=${`${words.takePin}: ${name}`} @click=${() => this.takePin(id)}>
              ${words.takePin}
            </button>`
          : null
      }
    </div>`;
  }

  private devices(devices: readonly PairedDevice[]): TemplateResult {
    const words = accessWords[this.language];
    const when = (at: number) =>
      dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: undefined });
    return html`<section class="seamed">
      <div class="heading">
        <h3>${words.devices}</h3>
        <button type="button" class="main" data-rights="pair" @click=${this.makeCode}>${words.pairOne}</button>
      </div>
      <p class="hint">${words.devicesHow}</p>
      ${this.trust()}
      ${
        this.code === null
          ? null
          : html`<div class="tag" role="status">
              <p>${words.codeIs}</p>
              <p class="code" data-rights="code">${this.code.code}</p>
              <p class="hint">${words.codeHow}</p>
            </div>`
      }
      ${
        devices.length === 0
          ? html`<p>${words.noDevices}</p>`
          : html`<table>
              <thead>
                <tr>
                  ${[words.device, words.pairedAt, words.seenAt].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
                  <td></td>
                </tr>
              </thead>
              <tbody>
                ${devices.map(
                  (each) =>
                    html`<tr data-device=${each.id}>
                      <td><b>${each.name}</b>${each.this ? ` (${words.thisOne})` : ''}</td>
                      <td>${when(each.pairedAt)}</td>
                      <td>${when(each.seenAt)}</td>
                      <td>${this.revokeOf(each)}</td>
                    </tr>`,
                )}
              </tbody>
            </table>`
      }
    </section>`;
  }

  /** What somebody holds the tablet's page against, before the tablet trusts anything. */
  private trust(): TemplateResult | null {
    const words = accessWords[this.language];
    const trust = this.view?.trust ?? null;
    if (trust === null) return null;
    return html`<div class="tag" data-rights="trust">
      <p>${trust.page === null ? words.trustNoNetwork : words.trustFirst(trust.page)}</p>
      <p><b>${words.fingerprint}</b></p>
      <p class="fingerprint">${fingerprintRows(trust.fingerprint).map((row) => html`<span>${row}</span>`)}</p>
      <p class="hint">${words.fingerprintHow}</p>
    </div>`;
  }

  private revokeOf({ id, name }: PairedDevice): TemplateResult {
    const words = accessWords[this.language];
    if (this.revoking !== id) {
      return html`<button type="button" aria-label=${words.revokeFor(name)} @click=${() => (this.revoking = id)}>
        ${words.revoke}
      </button>`;
    }
    return html`<p role="status">${words.reallyRevoke(name)}</p>
      <div class="tools">
        <button type="button" class="main" data-rights="really" @click=${() => this.revoke(id)}>${words.revoke}</button>
        <button type="button" @click=${() => (this.revoking = null)}>${words.keep}</button>
      </div>`;
  }

  private async read(): Promise<void> {
    this.access = await readAccess();
    this.view = await ask<RightsView>('/api/access/rights');
  }

  private readonly lock = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const words = accessWords[this.language];
    const pin = readPins(form);
    const person = form.querySelector('select')?.value ?? '';
    if (pin === null) {
      this.failure = words.pinsDiffer;
      return;
    }
    void enter('set-up', { person, pin }).then(async (entered) => {
      this.failure = entered.ok ? '' : whyNot(words, entered);
      if (!entered.ok) return;
      dispatchEvent(new Event('bf-signed-out'));
      await this.attempt(() => this.read());
    });
  };

  private setPin(event: SubmitEvent, person: string): void {
    event.preventDefault();
    const words = accessWords[this.language];
    const pin = readPins(event.target as HTMLFormElement);
    if (pin === null) {
      this.failure = words.pinsDiffer;
      return;
    }
    void this.attempt(async () => {
      this.view = await ask<RightsView>('/api/access/pins', sent({ person, pin }));
      this.setting = null;
    });
  }

  private takePin(person: string): void {
    void this.attempt(async () => {
      this.view = await ask<RightsView>('/api/access/pins', sent({ person, pin: null }));
    });
  }

  private readonly makeCode = (): void => {
    void this.attempt(async () => {
      this.code = await ask<PairingCode>('/api/access/codes', sent({}));
    });
  };

  private revoke(id: number): void {
    void this.attempt(async () => {
      this.view = await ask<RightsView>(`/api/access/devices/${String(id)}/revoke`, sent({}));
      this.revoking = null;
    });
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      section,
      .tag {
        display: grid;
        gap: 12px;
      }
      .tag {
        padding: 16px 22px;
        background: var(--kraft);
        --walnut: var(--walnut-deep);
        clip-path: polygon(0 0, calc(100% - 20px) 0, 100% 20px, 100% 100%, 0 100%);
      }
      .fingerprint {
        font-family: ui-monospace, monospace;
        font-size: clamp(14px, 2.2vw, 22px);
      }
      .fingerprint span {
        display: block;
      }
      .code {
        font-size: 44px;
        font-weight: 700;
        letter-spacing: 0.08em;
        font-variant-numeric: tabular-nums;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rights': Rights;
  }
}
