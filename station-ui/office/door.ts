import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { AccessView } from '#shared/wire/access.ts';
import type { Language } from '#shared/words/language.ts';
import { enter, readAccess, whyNot } from '../access/access-api.ts';
import { shape } from '../components/shapes.ts';
import { accessWords } from '../i18n/access.ts';
import { LANGUAGE_KEPT, keepLanguage, otherLanguage, screenLanguage, wordsOf } from '../i18n/language.ts';
import { base } from '../theme/styles.ts';
import { SIGNED_OUT } from './api.ts';
import './office.ts';
import { officeStyles } from './office-styles.ts';
import { pinFields, readPins } from './pin-fields.ts';

const ACTIVE_EVERY_MS = 60_000;
const SEEN_AS = 'benchfold.not-locked-seen';

/** Before the office: the shop is set up, this device is paired, somebody signs in. Behind it: the office, with who is in it. */
@customElement('bf-office-door')
export class OfficeDoor extends LitElement {
  @property({ attribute: false }) language: Language = screenLanguage();
  @state() private access: AccessView | null = null;
  @state() private asked = false;
  @state() private failure = '';
  @state() private seen = sessionStorage.getItem(SEEN_AS) !== null;
  private lastActive = 0;

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener(SIGNED_OUT, this.signedOut);
    addEventListener(LANGUAGE_KEPT, this.languageKept);
    for (const sign of ['pointerdown', 'keydown'] as const) addEventListener(sign, this.active);
    void this.read();
  }

  override disconnectedCallback(): void {
    removeEventListener(SIGNED_OUT, this.signedOut);
    removeEventListener(LANGUAGE_KEPT, this.languageKept);
    for (const sign of ['pointerdown', 'keydown'] as const) removeEventListener(sign, this.active);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const { access } = this;
    if (!this.asked) return html``;
    if (access === null) return html`<bf-office></bf-office>`;
    const inside = access.standing === 'supervisor' || access.standing === 'owner';
    return inside ? html`${this.strip(access)}<bf-office></bf-office>` : this.door(access);
  }

  private strip(access: AccessView): TemplateResult | null {
    const words = accessWords[this.language];
    if (!access.locked) {
      if (this.seen) return null;
      return html`<p class="strip" role="status" data-door="unlocked">
        ${shape('attention', 24)} <span><b>${words.unlocked}</b> ${words.unlockedHow}</span>
        <a class="button" href="#access" @click=${this.put}>${words.setOwnerPin}</a>
        <button type="button" aria-label="×" data-door-key="put-away" @click=${this.put}>×</button>
      </p>`;
    }
    return html`<aside class="strip" data-door="in" aria-label=${words.signIn}>
      <span><b>${access.person?.name ?? ''}</b> · ${words.roles[access.person?.role ?? 'owner']}</span>
      <button type="button" data-door-key="out" @click=${this.leave}>${words.signOut}</button>
    </aside>`;
  }

  private door(access: AccessView): TemplateResult {
    const words = accessWords[this.language];
    const at = !access.ownerPin ? 'set-up' : access.paired ? 'sign-in' : 'pair';
    const title = { 'set-up': words.setOwnerPin, 'sign-in': words.signIn, pair: words.notPaired }[at];
    return html`<main data-door=${at}>
      <h1>${wordsOf(this.language).office.title}</h1>
      <button type="button" class="language" lang=${otherLanguage(this.language)} @click=${this.turnLanguage}>
        ${wordsOf(this.language).bench.switchLanguage}
      </button>
      <form @submit=${this.send} data-at=${at}>
        <h2>${title}</h2>
        ${at === 'pair' ? html`<p>${words.notPairedHow}</p>` : null}
        ${access.standing === 'packer' ? html`<p class="said">${shape('attention', 22)} ${words.packerHere}</p>` : null}
        ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
        ${at === 'sign-in' ? null : html`<label><span>${at === 'set-up' ? words.setUpCode : words.code}</span><input name="code" inputmode="numeric" autocomplete="off" required /></label>`}
        ${at === 'pair' ? html`<label><span>${words.deviceName}</span><input name="name" maxlength="60" required value="Office" /></label>` : this.whoAndPin(access, at === 'set-up')}
        <button type="submit" class="main">
          ${at === 'pair' ? words.pair : at === 'set-up' ? words.store : words.signIn}
        </button>
      </form>
    </main>`;
  }

  private whoAndPin(access: AccessView, twice: boolean): TemplateResult {
    const words = accessWords[this.language];
    const people = twice ? access.people : access.people.filter(({ pin }) => pin);
    return html`<label
        ><span>${words.who}</span>
        <select name="person">
          ${people.map(({ id, name }) => html`<option value=${id}>${name}</option>`)}
        </select></label
      >
      ${pinFields(words, twice)} ${twice ? html`<p class="hint">${words.ownerRule}</p>` : null}`;
  }

  private readonly send = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const said = Object.fromEntries(
      [...new FormData(form)].map(([name, value]) => [name, typeof value === 'string' ? value : '']),
    );
    const words = accessWords[this.language];
    const { at } = form.dataset;
    const pin = readPins(form);
    if (pin === null) {
      this.failure = words.pinsDiffer;
      return;
    }
    const { code = '', name = '', person = '' } = said;
    if (at === 'pair') void this.attempt('pair', { code, name });
    else if (at === 'set-up') void this.attempt('set-up', { code, person, pin });
    else void this.attempt('sign-in', { place: 'office', person, pin });
  };

  private async attempt(what: 'pair' | 'sign-in' | 'set-up' | 'sign-out', body: object): Promise<void> {
    const entered = await enter(what, body);
    this.failure = entered.ok ? '' : whyNot(accessWords[this.language], entered);
    if (entered.ok) await this.read();
  }

  private async read(): Promise<void> {
    this.access = (await readAccess()) ?? this.access;
    this.asked = true;
    this.language = screenLanguage();
  }

  private readonly signedOut = (): void => void this.read();
  private readonly leave = (): void => void this.attempt('sign-out', { place: 'office' });

  private readonly put = (): void => {
    this.seen = true;
    sessionStorage.setItem(SEEN_AS, 'yes');
  };

  private readonly languageKept = (event: Event): void => {
    this.language = (event as CustomEvent<Language>).detail;
  };

  private readonly turnLanguage = (): void => {
    keepLanguage(otherLanguage(this.language));
    document.documentElement.lang = this.language;
  };

  /** A page asks by itself all the time; only hands keep a session open. */
  private readonly active = (): void => {
    if (this.access?.locked !== true || Date.now() - this.lastActive < ACTIVE_EVERY_MS) return;
    this.lastActive = Date.now();
    void fetch('/api/access/active', { method: 'POST' }).catch(() => undefined);
  };

  static override styles = [
    base,
    officeStyles,
    css`
      .strip {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 18px;
        align-items: center;
        padding: 6px 28px;
        background: var(--kraft);
      }
      .strip[data-door='in'] {
        justify-content: flex-end;
        padding: 2px 28px;
      }
      .strip span {
        flex: 0 1 auto;
      }
      main {
        display: grid;
        gap: 22px;
        max-width: 560px;
        margin: 6vh auto;
        padding: 0 24px;
      }
      h1 {
        font-size: 30px;
      }
      .language {
        justify-self: start;
      }
      form {
        display: grid;
        gap: 16px;
        padding: 24px 28px 28px;
        background: var(--kraft);
        --walnut: var(--walnut-deep);
        --madder: var(--madder-deep);
        clip-path: polygon(0 0, calc(100% - 24px) 0, 100% 24px, 100% 100%, 0 100%);
      }
      label {
        display: grid;
        gap: 4px;
      }
      input {
        font: inherit;
        font-size: 20px;
        min-height: 52px;
        padding: 6px 12px;
        border: 2px solid var(--ink);
        border-radius: 0;
        background: var(--chalk);
        color: var(--ink);
      }
      select {
        min-height: 52px;
      }
      .main {
        min-height: 56px;
        justify-content: center;
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
      .hint {
        color: var(--walnut);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-office-door': OfficeDoor;
  }
}
