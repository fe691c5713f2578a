import { LitElement, html, nothing } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { classMap } from 'lit/directives/class-map.js';
import { repeatGuard } from '#shared/codes/repeat-guard.ts';
import type { RepeatState } from '#shared/codes/repeat-guard.ts';
import type { Command } from '#shared/run/commands.ts';
import type { ListeningMode } from '#shared/wire/voice.ts';
import type { BenchInput, SimulatorAction, SimulatorOffers } from '#shared/wire/events.ts';
import type { BenchView, DeviceHealth } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { play } from '../audio/earcons.ts';
import { cameraWasOn, keepCamera } from '../camera/kept-choice.ts';
import { NOT_SCANNING } from '../camera/scanning.ts';
import type { ScanningState } from '../camera/scanning.ts';
import '../components/commands.ts';
import '../components/device-marks.ts';
import '../components/last-scan.ts';
import '../components/seam.ts';
import '../components/weigh-line.ts';
import type { SpeechTrouble } from '../audio/speaker.ts';
import { soundIsBlocked, watchSound } from '../audio/sound-context.ts';
import type { SpeechChange } from '#shared/wire/speech.ts';
import type { Asked } from '../components/asked.ts';
import { keepLanguage, otherLanguage, screenLanguage, wordsOf } from '../i18n/language.ts';
import type { Words } from '../i18n/words.ts';
import { chooseTheme, currentTheme } from '../theme/theme.ts';
import { base, benchType, striped } from '../theme/styles.ts';
import { benchStyles } from './bench-styles.ts';
import './camera-line.ts';
import { batchLine } from './batch-line.ts';
import { banners } from './banners.ts';
import { dayCount } from './day-count.ts';
import { Dwell } from './dwell.ts';
import { guidanceShown } from './guidance-shown.ts';
import { mainMeans, practiceChip } from './main-means.ts';
import { keysOf, listenToKeys } from './keys.ts';
import type { KeyMap, KeyMeaning } from './keys.ts';
import { lastCall } from './last-call.ts';
import { linkTo } from './link.ts';
import { Listening, NOT_LISTENING } from './listening.ts';
import type { ListeningState } from './listening.ts';
import { noticeShown } from './notice-shown.ts';
import { noView } from './no-view.ts';
import './reasons.ts';
import { ScreenCare } from './screen-care.ts';
import './side.ts';
import { Proof } from './proof.ts';
import { newScanning } from './new-scanning.ts';
import { newSpeaking } from './new-speaking.ts';
import { speechLine } from './speech-panel.ts';
import { Station, nameOf } from './station.ts';
import { switches } from './switches.ts';
import type { Turns } from './switches.ts';
import type { StationParts, StationState } from './station.ts';
import { listenToTalkKeys } from './talk-keys.ts';
import { taskElement, taskInWords } from './tasks/all.ts';
import './tray.ts';
import './voice-line.ts';

/** Here the middle of the screen is a drawing, or many words. */
const NEEDS_ROOM: ReadonlySet<string> = new Set(['fold', 'fill', 'weigh', 'decide']);
const NONE_WAITING: readonly BenchInput[] = [];
const NO_DEVICES: readonly DeviceHealth[] = [];
const NO_OFFERS: SimulatorOffers = { codes: [], slips: [] };

/** The packer's screen: one thing to do at a time, chosen by the view. */
@customElement('bf-bench')
export class Bench extends LitElement {
  @property() bench = '';
  /** where the link comes from; replaced where there is no server */
  @property({ attribute: false }) open: StationParts['open'] = (lastSeq, handlers) =>
    linkTo(this.bench, lastSeq, handlers);
  @state() private shown: StationState | null = null;
  @state() private language: Language = screenLanguage();
  @state() private choosingReason = false;
  @state() private trayOpen = false;
  @state() private settingSpeech = false;
  @state() private speechTrouble: SpeechTrouble | null = null;
  @state() private soundBlocked = false;
  @state() private listeningShown: ListeningState = NOT_LISTENING;
  @state() private level = -100;
  @state() private scanningShown: ScanningState = NOT_SCANNING;
  @query('bf-bench-door') private readonly door!: HTMLElementTagNameMap['bf-bench-door'] | null;
  @query('bf-camera-line') private readonly cameraLine!: HTMLElementTagNameMap['bf-camera-line'] | null;

  private readonly notice = lastCall(noticeShown);
  private readonly commandsWaiting = lastCall(
    (waiting: readonly BenchInput[]) =>
      new Set(waiting.flatMap((each) => (each.type === 'command' ? [each.command] : []))),
  );
  private station: Station | null = null;
  private readonly listening = new Listening({
    ear: (ask) => this.station?.ear(ask),
    sound: (piece) => this.station?.soundPiece(piece) ?? Promise.resolve(null),
    changed: (state) => (this.listeningShown = state),
    level: (db) => (this.level = Math.round(db)),
  });
  private readonly scanning = newScanning({
    line: () => this.cameraLine,
    door: () => this.door,
    station: () => this.station,
    changed: (state) => (this.scanningShown = state),
  });
  private readonly proof = new Proof({
    station: () => this.station,
    stream: () => this.scanningShown.stream,
    changed: () => this.requestUpdate(),
  });
  private readonly dwell = new Dwell(() => this.give('confirm', 'key'));
  private readonly screenCare = new ScreenCare(() => this.requestUpdate());
  private stopKeys: (() => void) | null = null;
  private lastScanned: RepeatState | null = null;
  private readonly speaking = newSpeaking(
    (ask, milliseconds) => this.station?.ear(ask, milliseconds),
    (trouble) => (this.speechTrouble = trouble),
  );
  private stopWatching: (() => void) | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('bf-asked', this.asked);
    this.addEventListener('bf-reasons-left', this.leaveReasons);
    this.soundBlocked = soundIsBlocked();
    this.stopWatching = watchSound((blocked) => (this.soundBlocked = blocked));
    this.addEventListener('bf-chosen', this.choose);
    const stopTalkKeys = listenToTalkKeys(
      () => (this.shown?.voice?.mode === 'push-to-talk' ? this.shown.voice.talkKeys : []),
      (held) => this.listening.hold(held),
    );
    const stopKeys = listenToKeys(this.keyed, this.keyMap);
    this.stopKeys = () => {
      stopTalkKeys();
      stopKeys();
    };
    void this.updateComplete.then(() => {
      this.station ??= new Station({
        bench: this.bench,
        keeping: localStorage,
        open: this.open,
        changed: this.changed,
        speaking: this.speaking,
        pages: this.screenCare.pages,
      });
      if (cameraWasOn()) void this.scanning.turn(true);
    });
    document.addEventListener('visibilitychange', this.hiddenOrSeen);
  }

  override disconnectedCallback(): void {
    this.stopKeys?.();
    this.stopWatching?.();
    this.dwell.stop();
    void this.listening.turn(false);
    void this.scanning.turn(false);
    document.removeEventListener('visibilitychange', this.hiddenOrSeen);
    this.screenCare.close();
    this.station?.close();
    this.station = null;
    this.proof.close();
    this.removeEventListener('bf-asked', this.asked);
    this.removeEventListener('bf-reasons-left', this.leaveReasons);
    this.removeEventListener('bf-chosen', this.choose);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = wordsOf(this.language);
    const view = this.shown?.view ?? null;
    return html`<div
      class=${classMap({ shell: true, simulated: view?.simulated === true, practising: view?.task.at === 'practice', alone: view?.order === null && view.container === null, 'tray-open': this.trayOpen && view?.simulated === true })}
      data-task=${view?.task.at ?? 'none'}
      data-seq=${view?.seq ?? nothing}
      data-link=${this.shown?.link ?? 'connecting'}
      data-confirming=${view?.confirming?.command ?? nothing}
    >
      ${this.top(words, view)}
      ${view === null ? noView(words, this.shown, this.bench, this.language, () => this.station?.again(), this.cameraShown(words, null)) : this.body(words, view)}
      <p class="only-read" aria-live="polite" aria-atomic="true">
        ${view === null ? '' : taskInWords({ view, words, language: this.language })}${again(view)}
      </p>
    </div>`;
  }

  private top(words: Words, view: BenchView | null): TemplateResult {
    return html`<header class=${view?.practice ? 'top practising-top' : 'top'}>
      <p class="small who"><b>${nameOf(this.shown) ?? this.bench}</b> <span>${view?.packer?.name ?? ''}</span></p>
      ${practiceChip(view, this.language)}
      <bf-last-scan
        .scan=${view?.lastScan ?? null}
        .waiting=${this.shown?.waiting.length ?? 0}
        .words=${words}
      ></bf-last-scan>
      <bf-device-marks
        .devices=${this.shown?.devices ?? NO_DEVICES}
        .known=${this.shown?.link === 'up'}
        .words=${words}
      ></bf-device-marks>
      ${switches(words, this.language, this.settingSpeech, this.switchesOn(view), this.turn)}
    </header>`;
  }

  private switchesOn(view: BenchView | null) {
    return { microphone: this.microphoneOn, camera: this.scanningShown.on, speech: view?.speech.on !== false };
  }

  private body(words: Words, view: BenchView): TemplateResult {
    const { language, shown } = this;
    const live = shown?.live ?? null;
    const waiting = this.commandsWaiting(shown?.waiting ?? NONE_WAITING);
    const weighing = view.task.at === 'weigh' || view.task.at === 'decide';
    return html`<main class=${weighing ? 'weighing' : ''}>
        ${banners(words, view, this.shown, this.notice(view, words, this.language))}
        ${this.screenCare.lines(view, language)} ${this.voiceLine(words)}
        ${this.settingSpeech || this.shown?.link !== 'up' ? null : speechLine(words, view.speech, this.speechTrouble, this.soundBlocked)}
        ${this.cameraShown(words, view)} ${this.proof.line(language)} ${batchLine(view, language)}
        <div class="task" @bf-digit=${this.digitTouched}>
          ${
            this.settingSpeech
              ? this.speechPanel(words, view)
              : this.choosingReason
                ? html`<bf-reasons .words=${words}></bf-reasons>`
                : taskElement({ view, live, words, language })
          }
        </div>
      </main>
      <bf-side
        class="side kraft"
        role="complementary"
        aria-label=${words.bench.orderHere}
        .view=${view}
        .words=${words}
        .language=${language}
      ></bf-side>
      <section class="commands" aria-label=${words.bench.commandsHere}>
        <bf-commands
          .commands=${view.commands}
          .waiting=${waiting}
          .means=${mainMeans(view, words, language)}
          .words=${words}
        ></bf-commands>
        ${guidanceShown(view, words, language)}
      </section>
      <section class="seam" aria-label=${words.bench.seamHere}>
        <bf-seam .seam=${view.seam} .words=${words}></bf-seam>${dayCount(view, language)}
      </section>
      <bf-weigh-line
        class="weigh"
        role="region"
        aria-label=${words.scale.name}
        .view=${view}
        .live=${live}
        .words=${words}
      ></bf-weigh-line>
      ${view.simulated ? this.tray(words, view) : null}`;
  }

  private voiceLine(words: Words): TemplateResult | null {
    const { trouble } = this.listeningShown;
    if (!this.microphoneOn && trouble === null) return null;
    return html`<bf-voice-line
      .listening=${this.listeningShown}
      .voice=${this.shown?.voice ?? null}
      .level=${this.microphoneHere ? this.level : (this.shown?.level ?? -100)}
      .words=${words}
      @bf-voice-mode=${(event: CustomEvent<ListeningMode>) => this.station?.ear(event.detail)}
      @bf-talk=${(event: CustomEvent<boolean>) => this.listening.hold(event.detail)}
    ></bf-voice-line>`;
  }

  private cameraShown(words: Words, view: BenchView | null): TemplateResult | null {
    if (!this.scanningShown.on && this.scanningShown.trouble === null) return null;
    return html`<bf-camera-line
      ?narrow=${view !== null && NEEDS_ROOM.has(view.task.at)}
      .scanning=${this.scanningShown}
      .words=${words}
      @bf-camera-light=${() => void this.scanning.switchLight()}
      @bf-camera-left=${() => this.turnCamera(false)}
    ></bf-camera-line>`;
  }

  private speechPanel(words: Words, view: BenchView): TemplateResult {
    return html`<bf-speech-panel
      .speech=${view.speech}
      .trouble=${this.speechTrouble}
      .blocked=${this.soundBlocked}
      .packer=${view.packer?.name ?? null}
      .words=${words}
      @bf-speech-change=${(event: CustomEvent<SpeechChange>) => void this.station?.speech(event.detail)}
      @bf-speech-trial=${() => this.speaking.trial()}
      @bf-speech-left=${() => (this.settingSpeech = false)}
    ></bf-speech-panel>`;
  }

  private tray(words: Words, view: BenchView): TemplateResult {
    return html`<bf-tray
      class="tray"
      ?open=${this.trayOpen}
      @bf-tray-turned=${() => (this.trayOpen = !this.trayOpen)}
      .offers=${this.shown?.offers ?? NO_OFFERS}
      .devices=${this.shown?.devices ?? NO_DEVICES}
      .unit=${view.units.mass}
      .discarded=${this.shown?.live?.discarded ?? 0}
      .words=${words}
      .language=${this.language}
      .simulate=${this.simulate}
      .pressFoot=${this.pressFoot}
    ></bf-tray>`;
  }

  private readonly simulate = (action: SimulatorAction): ReturnType<Station['simulate']> =>
    this.station?.simulate(action) ?? Promise.resolve(null);

  private readonly pressFoot = (): void => {
    this.give(this.shown?.view?.commands[0], 'key');
  };

  private readonly changed = (shown: StationState): void => {
    const before = this.shown?.view;
    const linkBack = this.shown !== null && this.shown.link !== 'up' && shown.link === 'up';
    this.shown = shown;
    if (linkBack) this.listening.linked();
    this.proof.seen(shown);
    this.screenCare.seen(shown, this.choosingReason || this.settingSpeech);
    if (shown.view === null || shown.view === before) return;
    if (shown.view.seq !== before?.seq) {
      this.choosingReason = false;
      this.scanning.moved();
      this.settingSpeech = false;
    }
    if (shown.view.language !== before?.language) this.language = shown.view.language;
    document.documentElement.lang = this.language;
    document.title = `${shown.view.bench.name} · ${taskInWords({ view: shown.view, words: wordsOf(this.language), language: this.language })}`;
  };

  private readonly asked = (event: Event): void => {
    const { command, reason } = (event as CustomEvent<Asked>).detail;
    this.give(command, 'touch', reason);
  };

  /** An option of practice was touched. */
  private readonly choose = (event: Event): void => {
    this.dwell.stop();
    this.station?.choose((event as CustomEvent<string>).detail);
  };

  private readonly leaveReasons = (): void => {
    this.choosingReason = false;
  };

  private readonly keyMap = (): KeyMap => keysOf(this.shown?.view ?? null);

  private readonly digitTouched = (event: CustomEvent<string>): void => {
    this.station?.digits(event.detail, 'touch');
  };

  private readonly keyed = (meaning: KeyMeaning): void => {
    if (meaning.means === 'scan') this.scanned(meaning.scan.text, meaning.at, meaning.scan.otherwise);
    else if (meaning.means === 'half-read') play('refused');
    else if (meaning.means === 'digit') this.station?.digits(meaning.digit, 'key');
    // While a reason is being chosen a foot on the switch must not do something else.
    else if (this.choosingReason) this.choosingReason = meaning.means === 'main' || meaning.command !== 'cancel';
    else if (meaning.means === 'main') this.give(this.shown?.view?.commands[0], 'key');
    else if (this.shown?.view?.commands.includes(meaning.command) === true) this.give(meaning.command, 'key');
  };

  private give(command: Command | undefined, by: 'touch' | 'key', reason?: Asked['reason']): void {
    if (command === undefined) return;
    if (command === 'set-aside' && reason === undefined && by === 'touch') {
      this.choosingReason = true;
      return;
    }
    this.choosingReason = false;
    this.station?.command(command, by, reason);
    this.dwell.given(by, this.shown?.view ?? null);
  }

  private readonly switchLanguage = (): void => {
    this.language = otherLanguage(this.language);
    keepLanguage(this.language);
    document.documentElement.lang = this.language;
    this.station?.language(this.language);
  };

  /** The microphone is this screen's own, not one that is plugged into the server. */
  private get microphoneHere(): boolean {
    return this.shown?.voice?.microphone.at !== 'server';
  }

  private get microphoneOn(): boolean {
    return this.microphoneHere ? this.listeningShown.on : this.shown?.voice?.state !== 'off';
  }

  private readonly switchMicrophone = (): void => {
    if (this.microphoneHere) void this.listening.turn(!this.listeningShown.on);
    else this.station?.ear(this.microphoneOn ? 'off' : 'on');
  };

  /** Read twice in a moment by one scanner, a code acts once; what two readers read, the server tells. */
  private scanned(text: string, at: number, otherwise: string | null): void {
    const { state, act } = repeatGuard(this.lastScanned, text, at);
    this.lastScanned = state;
    if (!act) return;
    if (this.door !== null) void this.door.badge(text);
    else this.station?.scan(text, 'scan', otherwise);
  }

  private turnCamera(on: boolean): void {
    keepCamera(on);
    void this.scanning.turn(on);
  }

  private readonly hiddenOrSeen = (): void => {
    this.scanning.rest(document.hidden);
    this.screenCare.hiddenOrSeen();
  };

  private readonly switchTheme = (): void => {
    chooseTheme(currentTheme() === 'dark' ? 'light' : 'dark');
    this.requestUpdate();
  };

  private readonly turn: Turns = {
    microphone: this.switchMicrophone,
    camera: () => this.turnCamera(!this.scanningShown.on),
    speech: () => (this.settingSpeech = !this.settingSpeech),
    language: this.switchLanguage,
    theme: this.switchTheme,
  };

  static override styles = [base, benchType, striped, benchStyles];
}

/** Asked to say it again, a screen reader reads only what has changed: an unseen character does that. */
function again(view: BenchView | null): string {
  return (view?.repeats ?? 0) % 2 === 0 ? '' : '\u00a0';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-bench': Bench;
  }
}
