import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { BenchRow } from '#shared/wire/office.ts';
import { screenLanguage, wordsOf } from '../i18n/language.ts';
import './door.ts';
import { base, benchType } from '../theme/styles.ts';

/** The address names no bench: which one is this? */
@customElement('bf-choose-bench')
export class ChooseBench extends LitElement {
  @state() private benches: readonly BenchRow[] = [];
  @state() private failed = false;
  @state() private paired = true;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.read();
  }

  override render(): TemplateResult {
    const { bench } = wordsOf(screenLanguage());
    if (!this.paired) {
      return html`<bf-bench-door .language=${screenLanguage()} @bf-paired=${() => void this.read()}></bf-bench-door>`;
    }
    return html`<main>
      <h1 class="instruction">${bench.chooseBench}</h1>
      ${this.failed ? html`<p class="say" role="alert">${bench.linkLost}</p>` : null}
      <ul>
        ${this.benches.map((each) => html`<li><a href=${`?bench=${encodeURIComponent(each.id)}`}>${each.name}</a></li>`)}
      </ul>
    </main>`;
  }

  private async read(): Promise<void> {
    try {
      const answer = await fetch('/api/benches');
      this.paired = answer.status !== 401;
      if (!this.paired) return;
      if (!answer.ok) throw new Error(answer.statusText);
      this.benches = (await answer.json()) as readonly BenchRow[];
      this.failed = false;
    } catch {
      this.failed = true;
      setTimeout(() => void this.read(), 2000);
    }
  }

  static override styles = [
    base,
    benchType,
    css`
      main {
        padding: 40px;
      }
      ul {
        display: grid;
        gap: 18px;
        margin-top: 32px;
        max-width: 640px;
      }
      a {
        display: block;
        padding: 24px;
        font-size: 40px;
        color: var(--ink);
        background: var(--kraft);
        clip-path: polygon(0 0, calc(100% - 24px) 0, 100% 24px, 100% 100%, 0 100%);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-choose-bench': ChooseBench;
  }
}
