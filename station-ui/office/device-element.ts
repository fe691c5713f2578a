import { LitElement } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Language } from '#shared/words/language.ts';
import type { DevicesWords } from '../i18n/devices-words.ts';
import type { Words } from '../i18n/words.ts';
import { OfficeRequestError } from './api.ts';
import { devicesApi } from './devices-api.ts';
import type { DevicesApi } from './devices-api.ts';

/** A part of the devices page: words, the way to the server, and what it said when it would not. */
export abstract class DeviceElement extends LitElement {
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: DevicesApi = devicesApi;
  @state() protected failure = '';

  protected get say(): DevicesWords {
    return this.words.devicesPage;
  }

  /**
   * Does something at the server; what it refuses is shown and nothing else happens. True when it was done.
   * @param again of something that has failed: it stays told until it is done
   */
  protected async attempt(task: () => Promise<void>, again = false): Promise<boolean> {
    if (!again) this.failure = '';
    try {
      await task();
      if (again) this.failure = '';
      return true;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const { office } = this.words;
      this.failure = office.failed(error.message === '' ? office.noServer : error.message);
      return false;
    }
  }

  /** The same for what changes something: the page looks at the devices afresh. */
  protected change(task: () => Promise<unknown>): Promise<boolean> {
    return this.attempt(async () => {
      await task();
      this.changed();
    });
  }

  /** Asks the page for a fresh look at the devices. */
  protected changed(): void {
    this.dispatchEvent(new CustomEvent('bf-devices-changed', { bubbles: true, composed: true }));
  }
}
