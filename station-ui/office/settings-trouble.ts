import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { SettingsTrouble } from '#shared/wire/settings.ts';
import { ReadAgain } from '../components/read-again.ts';
import { shape } from '../components/shapes.ts';
import { settingsWords } from '../i18n/settings.ts';
import { dayAndTime } from '../i18n/time.ts';
import { OfficeRequestError, ask } from './api.ts';
import { PageElement } from './page-element.ts';
import { problemList } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';

/** Files may be changed by hand at any time. */
const LOOK_EVERY_MS = 5000;

/** At the top of the office: why the shop's files cannot be used as they lie there. */
@customElement('bf-settings-trouble')
export class SettingsTroubleElement extends PageElement {
  @state() private trouble: SettingsTrouble = { problems: [], since: null };

  constructor() {
    super();
    new ReadAgain(this, LOOK_EVERY_MS, () => this.look());
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('bf-settings-written', this.look);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('bf-settings-written', this.look);
    super.disconnectedCallback();
  }

  override render(): TemplateResult | null {
    const { problems, since } = this.trouble;
    const words = settingsWords[this.language];
    if (problems.length === 0 || since === null) return null;
    const when = dayAndTime(new Date(since).toISOString(), this.language, { now: new Date(), timeZone: undefined });
    return html`<section role="alert" data-trouble>
      <p class="said refused">
        ${shape('stop', 24)} ${words.trouble(when)} <a class="button" href="#settings">${words.mend}</a>
      </p>
      ${problemList(problems, this.language)}
    </section>`;
  }

  private readonly look = (): void => {
    void (async () => {
      try {
        this.trouble = await ask<SettingsTrouble>('/api/settings/trouble');
      } catch (error) {
        // Somebody who may not see it, or no server: the page says that elsewhere.
        if (!(error instanceof OfficeRequestError)) throw error;
      }
    })();
  };

  static override styles = [
    ...PageElement.styles,
    settingsStyles,
    css`
      section {
        padding: 10px 28px;
        border-bottom: 3px dashed var(--madder);
      }
      @media print {
        section {
          display: none;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-trouble': SettingsTroubleElement;
  }
}
