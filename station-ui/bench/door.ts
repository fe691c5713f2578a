import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { CODE_DIGITS } from '#shared/access/limits.ts';
import { MOST_DIGITS } from '#shared/access/pin.ts';
import type { AccessView, PersonAtDoor } from '#shared/wire/access.ts';
import type { Language } from '#shared/words/language.ts';
import { enter, readAccess, whyNot } from '../access/access-api.ts';
import { ReadAgain } from '../components/read-again.ts';
import { shape } from '../components/shapes.ts';
import { accessWords } from '../i18n/access.ts';
import { base, benchType } from '../theme/styles.ts';

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;

/** Where nobody is signed in: pairs the tablet by a code, then waits for a badge, or a name and its PIN. */
@customElement('bf-bench-door')
export class BenchDoor extends LitElement {
  @property() bench = '';
  @property() language: Language = 'en';
  @state() private access: AccessView | null = null;
  @state() private person: PersonAtDoor | null = null;
  @state() private digits = '';
  @state() private failure = '';
  @state() private sending = false;

  constructor() {
    super();
    // The shop may be set up, or this tablet paired, while it stands here.
    new ReadAgain(this, 3000, () => void this.read());
  }

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('keydown', this.keyed);
  }

  override disconnectedCallback(): void {
    document.removeEventListener('keydown', this.keyed);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = accessWords[this.language];
    const { access, person } = this;
    if (access === null) return html`<main><h1 class="instruction">${words.signIn}</h1></main>`;
    const pairing = !access.paired;
    const withPin = access.people.filter(({ pin }) => pin);
    return html`<main data-door=${pairing ? 'pair' : person === null ? 'badge' : 'pin'}>
      <section>
        <h1 class="instruction">
          ${pairing ? words.notPaired : person === null ? words.scanBadge : words.pinOf(person.name)}
        </h1>
        ${pairing ? html`<p class="say">${words.notPairedHow}</p>` : null}
        ${!pairing && person === null && withPin.length > 0 ? html`<p class="say">${words.orPin}</p>` : null}
        ${this.failure === '' ? null : html`<p class="say failure" role="alert">${shape('stop', 40)} <span>${this.failure}</span></p>`}
        ${!pairing && person === null ? html`<slot></slot>${this.names(withPin)}` : null}
      </section>
      ${pairing || person !== null ? this.pad(pairing) : null}
    </main>`;
  }

  private names(people: readonly PersonAtDoor[]): TemplateResult {
    return html`<div class="names">
      ${people.map(
        (each) =>
          html`<button type="button" class="say" data-person=${each.id} @click=${() => this.turnTo(each)}>
            ${each.name}
          </button>`,
      )}
    </div>`;
  }

  private pad(pairing: boolean): TemplateResult {
    const words = accessWords[this.language];
    const shown = pairing
      ? this.digits.padEnd(CODE_DIGITS, '·').replace(/(.{4})/, '$1 ')
      : '●'.repeat(this.digits.length);
    const key = (digit: string) =>
      html`<button type="button" data-digit=${digit} aria-label=${words.digit(digit)} @click=${() => this.add(digit)}>
        ${digit}
      </button>`;
    return html`<div class="pad">
      <output class="digits" aria-label=${words.entered(this.digits.length)}>${shown}</output>
      ${DIGITS.map(key)}
      <button type="button" class="word" data-door-key="back" @click=${this.takeBack}>${words.takeBack}</button>
      ${key('0')}
      <button
        type="button"
        class="word main"
        data-door-key="done"
        ?disabled=${this.sending || this.digits.length < 4}
        @click=${this.send}
      >
        ${words.done}
      </button>
      ${
        pairing
          ? null
          : html`<button type="button" class="word wide" data-door-key="others" @click=${() => this.turnTo(null)}>
              ${words.others}
            </button>`
      }
    </div>`;
  }

  /** A badge was read by this tablet's keyboard scanner or camera. */
  async badge(text: string): Promise<void> {
    if (this.access?.paired === false) return;
    await this.attempt('sign-in', { place: 'bench', bench: this.bench, badge: text });
  }

  private async read(): Promise<void> {
    const access = await readAccess();
    if (access === null) return;
    this.access = access;
    // Whoever sits at the server's own computer needs no code, but the bench needs a name for this browser.
    if (access.locked && access.here && !access.device && !this.sending) {
      await this.attempt('pair', { name: accessWords[this.language].tablet(this.bench) });
    }
  }

  private turnTo(person: PersonAtDoor | null): void {
    this.person = person;
    this.digits = '';
    this.failure = '';
  }

  private add(digit: string): void {
    const most = this.access?.paired === true ? MOST_DIGITS : CODE_DIGITS;
    if (this.digits.length < most) this.digits += digit;
    this.failure = '';
  }

  private readonly takeBack = (): void => {
    this.digits = this.digits.slice(0, -1);
  };

  private readonly send = (): void => {
    const { person, digits, bench } = this;
    if (this.access?.paired === false) {
      void this.attempt('pair', { code: digits, name: accessWords[this.language].tablet(bench) });
    } else if (person !== null) void this.attempt('sign-in', { place: 'bench', bench, person: person.id, pin: digits });
  };

  private async attempt(what: 'pair' | 'sign-in', body: object): Promise<void> {
    this.sending = true;
    const entered = await enter(what, body);
    this.sending = false;
    this.digits = '';
    this.failure = entered.ok ? '' : whyNot(accessWords[this.language], entered);
    if (!entered.ok) return;
    if (what === 'pair') this.dispatchEvent(new Event('bf-paired', { bubbles: true, composed: true }));
    await this.read();
  }

  private readonly keyed = (event: KeyboardEvent): void => {
    if (this.person === null && this.access?.paired !== false) return;
    if (/^[0-9]$/.test(event.key)) this.add(event.key);
    else if (event.key === 'Backspace') this.takeBack();
    else if (event.key === 'Enter' && this.digits.length >= 4) this.send();
    else return;
    event.preventDefault();
  };

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
        overflow: auto;
        grid-column: 1 / -1;
        grid-row: 2 / -1;
      }
      main {
        display: flex;
        flex-wrap: wrap;
        gap: 32px 56px;
        padding: 40px;
      }
      section {
        flex: 1 1 420px;
        display: grid;
        gap: 24px;
        align-content: start;
      }
      .names {
        display: grid;
        gap: 16px;
        grid-template-columns: repeat(auto-fill, minmax(240px, 1fr));
      }
      button {
        min-height: 84px;
        padding: 8px 20px;
        border: 3px solid var(--ink);
        background: var(--chalk);
        cursor: pointer;
      }
      .names button {
        background: var(--kraft);
        border: 0;
        clip-path: polygon(0 0, calc(100% - 20px) 0, 100% 20px, 100% 100%, 0 100%);
        text-align: left;
        font-weight: 700;
      }
      .pad {
        display: grid;
        grid-template-columns: repeat(3, 130px);
        gap: 12px;
        align-content: start;
      }
      .pad button {
        font-size: 38px;
        font-weight: 700;
      }
      .pad .word {
        font-size: 24px;
        padding: 4px;
      }
      .pad .main {
        background: var(--indigo);
        border-color: var(--indigo);
        color: var(--on-indigo);
      }
      .pad .main:disabled {
        background: var(--chalk);
        border: 3px dashed var(--walnut);
        color: var(--walnut);
      }
      .wide,
      .digits {
        grid-column: 1 / -1;
      }
      .digits {
        min-height: 64px;
        font-size: 44px;
        letter-spacing: 0.12em;
        text-align: center;
        border-bottom: 4px dashed var(--thread);
        font-variant-numeric: tabular-nums;
      }
      .failure {
        display: flex;
        gap: 16px;
        align-items: center;
        font-weight: 700;
        color: var(--madder);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-bench-door': BenchDoor;
  }
}
