import { BenchChange } from './bench-change.ts';
import { BenchRun, type Applied } from './bench-run.ts';
import { HelpCall } from './help-call.ts';
import { LastLoad } from './last-load.ts';
import { meaningOf, openWorkOf } from './meaning.ts';
import { BenchDevices, type DeviceEvents } from '#server/devices/bench-devices.ts';
import { realDevices, withSimulators } from '#server/devices/stand-in.ts';
import { queueTrainingRecord } from '#server/people/training-record.ts';
import { inventedPiece } from '#server/practice/invented-piece.ts';
import { PracticeDesk } from '#server/practice/practice-desk.ts';
import { PrintQueue } from '#server/printing/print-queue.ts';
import { TestScanner } from '#server/devices/test-scan.ts';
import { badgeOf, scannedAtDoor } from './at-the-door.ts';
import { doOutside } from './outside-effects.ts';
import { Presence } from './presence.ts';
import { SackScanner } from './sack-scanner.ts';
import { settlePrint } from './settle-print.ts';
import type { ScannedText, StationListener, StationParts } from './station-parts.ts';
import { StationLabels } from './station-labels.ts';
import { stationView } from './station-view.ts';
import { ViewPublisher } from './view-publisher.ts';
import { WeighingTrust } from './weighing-trust.ts';
import { WorkedStretch } from './worked-stretch.ts';
import { screenRelay, type ScreenRelay } from '#drivers/transport/screen-relay.ts';
import { ZERO_MASS } from '#shared/units/mass.ts';
import { likelier } from '#shared/codes/likelier.ts';
import { meaningKey, readOnce, unread, type ReadersState } from '#shared/codes/two-readers.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { inHand } from '#shared/run/in-hand.ts';
import type { Command, GivenBy } from '#shared/run/commands.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { IDLE } from '#shared/run/initial.ts';
import type { SideInput } from '#shared/side-work/side-work.ts';
import { sideCommands } from '#shared/side-work/commands.ts';
import { SideDesk } from '#server/side-work/side-desk.ts';
import { queueSideList } from '#server/side-work/side-list.ts';
import { practiceCommands } from '#shared/practice/commands.ts';
import type { PracticeInput } from '#shared/practice/practise.ts';
import { openWorkKnows } from '#shared/run/open-work.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import { languageOf } from '#shared/run/view/bench-view.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { SpeechChange } from '#shared/wire/speech.ts';
import type { BenchView, DeviceName } from '#shared/wire/views.ts';

/** One bench as a whole: its run, its devices, its print queue, and what its screens see of them. */
export class Station {
  readonly bench: BenchConfig;
  readonly run: BenchRun;
  readonly practice: PracticeDesk;
  /** the set-aside shelf, folding ahead */
  readonly side: SideDesk;
  readonly trust: WeighingTrust;
  readonly worked: WorkedStretch;
  readonly change: BenchChange;
  readonly testScan: TestScanner;
  readonly #presence: Presence;
  readonly #sacks: SackScanner;
  readonly #publisher: ViewPublisher;
  readonly #parts: StationParts;
  readonly #printing: PrintQueue;
  readonly labels: StationLabels;
  /** where the reports of a scale at this bench's screen come in */
  readonly screenScale: ScreenRelay;
  readonly #standIns = new Set<DeviceName>();
  #devices: BenchDevices | null = null;
  #listener: StationListener | null = null;
  #stepBefore: string;
  readonly #load = new LastLoad();
  readonly help: HelpCall;
  #stopped = false;
  #read: ReadersState = [];
  /** settles once no scan is under way */
  #scans = Promise.resolve();

  constructor(given: StationParts) {
    const parts = { ...given, bench: { ...given.bench } };
    this.#parts = parts;
    this.#presence = new Presence(() => this.beat());
    this.bench = parts.bench;
    this.change = new BenchChange({
      ...parts,
      isFree: () => this.#devices !== null && !this.#stopped && this.#isFree(),
      reopen: () => {
        this.#standIns.clear();
        return this.#reopen();
      },
    });
    this.screenScale = screenRelay(`the screen of ${parts.bench.name}`);
    this.help = new HelpCall(parts.bench.id, parts.log, () => this.publish());
    this.trust = new WeighingTrust(parts.bench, parts.store);
    this.worked = new WorkedStretch(parts.store, parts.bench.id);
    this.testScan = new TestScanner(parts.clock);
    this.#sacks = new SackScanner(parts.bench.id);
    this.labels = new StationLabels(parts, () => this.publish());
    this.#publisher = new ViewPublisher({
      view: () => this.view(),
      isStopped: () => this.#stopped,
      onView: (view) => {
        this.#listener?.onView(view);
        this.#listener?.onSurroundings();
        void this.change.take();
      },
      onError: (error) => parts.log.error({ error, bench: this.bench.id }, 'a view could not be made'),
    });
    this.run = new BenchRun({
      store: parts.store,
      shop: () => parts.shops.current,
      bench: parts.bench,
      clock: parts.clock,
      metrics: parts.metrics,
      planner: parts.planner,
      queue: parts.queue,
      asksForLabels: () => this.labels.asked,
      weighFacts: () => this.trust.facts(this.#devices?.zeroDrift() ?? ZERO_MASS),
      ...(parts.onTakenOver === undefined ? {} : { onTakenOver: parts.onTakenOver }),
      onChange: () => this.#onRunChange(),
      onEffects: (effects) => doOutside(this, effects, parts),
    });
    this.practice = new PracticeDesk({
      store: parts.store,
      shop: () => parts.shops.current,
      bench: parts.bench,
      clock: parts.clock,
      planner: parts.planner,
      runFacts: () => this.run.facts(),
      log: parts.log,
      onChange: () => this.publish(),
      printRecord: (person) => this.#printRecord(person),
      callHelp: () => this.help.call(),
      onLeft: (person) => void this.#orTell('scan', undefined, () => this.signOn(person)),
    });
    this.side = new SideDesk({
      ...parts,
      shop: () => parts.shops.current,
      onChange: () => this.publish(),
      takeOrder: (order) => this.run.apply({ type: 'take-up', order, by: 'station' }),
      printList: () => queueSideList(parts, this.side.state.screen, languageOf(this.shownRun, parts.shops.current)),
      printQueued: () => this.printQueued(),
      callHelp: () => this.help.call(),
      tell: (notice) => this.run.tell(notice),
    });
    this.#stepBefore = this.run.state.step.at;
    this.#printing = new PrintQueue({
      store: parts.store,
      bench: parts.bench.id,
      clock: parts.clock,
      print: (bytes) => this.devices.printer.print(bytes),
      onOutcome: async (job, outcome) => {
        parts.metrics?.printed(this.bench.id, 'slips', outcome);
        const { state } = this.run;
        if (job.run === state.run && job.parcel === state.parcel)
          await this.run.apply({ type: 'print-result', outcome });
        this.#listener?.onSurroundings();
      },
      onError: (error) => parts.log.error({ error, bench: this.bench.id }, 'the print queue stopped'),
    });
  }

  /** Loads the run where it was, starts the devices, and prints what still waits. */
  async start(): Promise<void> {
    await this.run.load();
    await this.practice.load();
    await this.side.load();
    await this.trust.load();
    if (this.run.state.notice?.code === 'help-called') this.help.call();
    this.#stepBefore = this.run.state.step.at;
    await this.#startDevices();
    await this.#printing.recover();
    this.#printing.kick();
    await this.labels.start();
    this.#presence.start();
  }

  /**
   * Puts the simulator in a real device's place, or the device back, until the server is started anew. Refused while an
   * order is on the bench: nobody may weigh a parcel with a scale that is not there.
   */
  async standIn(device: DeviceName, simulated: boolean): Promise<'done' | 'packing' | 'not-real'> {
    if (!realDevices(this.bench).has(device)) return 'not-real';
    if (inHand(this.run.state)) return 'packing';
    if (simulated) this.#standIns.add(device);
    else this.#standIns.delete(device);
    await this.#reopen();
    return 'done';
  }

  #isFree(): boolean {
    return !inHand(this.run.state) && !this.practice.active && !this.side.active;
  }

  async #reopen(): Promise<void> {
    await this.#devices?.stop();
    await this.#startDevices();
    await this.labels.reopen();
    this.#listener?.onDevices(this.devices.health());
    this.publish();
  }

  async #startDevices(): Promise<void> {
    const bench = withSimulators(this.bench, this.#standIns);
    const events: DeviceEvents = {
      onSettled: (reading) => {
        // In practice the weight is invented, as the parcel is.
        if (!this.practice.active) void this.#weigh(reading);
      },
      onLive: (live) => this.#listener?.onScale(this.#load.shown(live, this.devices.onPan(), this.#parcelHere())),
      onScan: (text) => this.#scannedHere(text),
      onHealth: (health) => {
        this.#listener?.onDevices(health);
        this.#printing.kick();
      },
    };
    this.#devices = await BenchDevices.start(bench, this.#parts.shops.current, events, this.screenScale);
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    this.#presence.stop();
    this.#printing.stop();
    await this.#devices?.stop();
    await this.labels.stop();
    await this.run.settled();
    await this.practice.settled();
    await this.side.settled();
    await this.#publisher.settled();
  }

  get devices(): BenchDevices {
    if (this.#devices === null) throw new Error(`bench ${this.bench.id} is not started`);
    return this.#devices;
  }

  /** Some device is a simulator, so there is something to play with on the screen. */
  get isSimulated(): boolean {
    return Object.values(this.devices.simulators).some((simulator) => simulator !== null);
  }

  listen(listener: StationListener): void {
    this.#listener = listener;
  }

  /** A text that was scanned or typed at this bench. Null where it was for somebody else than the run. */
  scan({ text, by, reader, ago, id, otherwise }: ScannedText): Promise<Applied | null> {
    const at = this.#parts.clock.now() - ago;
    const taken = this.#orTell('scan', id, async () => {
      const read = await this.#meaningOf(text);
      const meaning = otherwise === undefined ? read : likelier(read, await this.#meaningOf(otherwise));
      const reading = { what: meaningKey(meaning), reader, at, ...(id === undefined ? {} : { id }) };
      const once = readOnce(this.#read, reading);
      this.#read = once.state;
      if (!once.act) return null;
      try {
        return await this.#takeScan(meaning, by, id);
      } catch (error) {
        this.#read = unread(this.#read, reading);
        throw error;
      }
    });
    this.#scans = Promise.allSettled([this.#scans, taken]).then(() => undefined);
    return taken;
  }

  /** Every scan that came before is taken: what is begun now is begun by whoever has just shown a badge. */
  scansTaken(): Promise<void> {
    return this.#scans;
  }

  /** The bench's own scanner read something: where nobody is signed in, only a badge counts. */
  #scannedHere(text: string): void {
    const { door } = this.#parts;
    if (door?.isOpen(this.bench.id) === false) {
      void scannedAtDoor(this.#parts, text, (person) => this.signOn(person));
      return;
    }
    door?.acted(this.bench.id);
    void this.scan({ text, by: 'scan', reader: 'scanner', ago: 0 });
  }

  /** Somebody has signed in at this bench: who stands here packs here, unless something else than packing is done. */
  async signOn(person: string): Promise<Applied | null> {
    const meaning = badgeOf(this.#parts.shops.current, person);
    if (meaning === null || this.side.active || this.practice.active || this.run.state.packer === person) return null;
    return this.run.apply({ type: 'scan', meaning, by: 'scan' });
  }

  async #takeScan(meaning: ScanMeaning, by: GivenBy, id: string | undefined): Promise<Applied | null> {
    this.help.given(null);
    this.#noteStrange(meaning);
    const beside = this.#beside({ type: 'scan', meaning, by }, id);
    if (beside !== null) return beside;
    if (this.testScan.takes(meaning) || (await this.#loadsSack(meaning, id))) return null;
    // A badge in practice signs a skill off, and nobody in.
    if (meaning.means === 'staff') await this.#parts.door?.badge(this.bench.id, meaning.staff);
    return this.apply({ type: 'scan', meaning, by }, id);
  }

  /** A choice of a list was touched; nothing where there is none. */
  choose(option: string, id: string): Promise<Applied | null> {
    this.help.given(null);
    return this.#beside({ type: 'choose', option, by: 'touch' }, id) ?? Promise.resolve(null);
  }

  /** The run that the screens show: the one on an invented order in practice, an empty bench where none is packed. */
  get shownRun(): RunState {
    const { side } = this;
    if (side.active) return { ...IDLE, packer: side.state.person, language: side.state.language };
    const { screen, person, language } = this.practice.state;
    if (screen.at === 'off') return this.run.state;
    return { ...(screen.at === 'guided' ? screen.run : IDLE), packer: person, language };
  }

  /** Grows with every stored input, of the run or of what is done beside it. */
  get seq(): number {
    return this.run.seq + this.practice.seq + this.side.seq;
  }

  get commands(): readonly Command[] {
    if (this.side.active) return sideCommands(this.side.state);
    return this.practice.active ? practiceCommands(this.practice.state) : commandsFor(this.run.state);
  }

  /** Gives an input to practice or to what else is done beside packing; null where the bench packs. */
  #beside(input: PracticeInput & SideInput, id: string | undefined): Promise<Applied> | null {
    const desk = this.side.active ? this.side : this.practice.active ? this.practice : null;
    if (desk === null) return null;
    return desk.apply(input, id).then((applied) => ({ ...applied, seq: this.seq - desk.seq + applied.seq }));
  }

  async #printRecord(person: string): Promise<void> {
    const { store, shops, clock } = this.#parts;
    const asked = { person, language: this.practice.language(), now: clock.now() };
    await queueTrainingRecord(store, shops.current, this.bench, asked);
    this.printQueued();
  }

  /** Whether the open work knows what a camera read; nothing is done about it. */
  async knows(text: string): Promise<boolean> {
    const meaning = await this.#meaningOf(text);
    this.#noteStrange(meaning);
    if (inventedPiece(text, this.shownRun) !== null) return true;
    return openWorkKnows(meaning, this.shownRun, await openWorkOf(meaning, this.#parts.store));
  }

  #noteStrange({ means, text }: ScanMeaning): void {
    if (means === 'unknown') this.#parts.door?.strange(this.bench.id, text);
  }

  /** Between two orders the scanner loads the carriers' sacks. */
  async #loadsSack(meaning: ScanMeaning, id: string | undefined): Promise<boolean> {
    const { at } = this.run.state.step;
    if (at !== 'idle' && at !== 'done') return false;
    const { store, shops, clock } = this.#parts;
    const parts = { store, shop: shops.current, now: clock.now() };
    const language = languageOf(this.run.state, shops.current);
    const notice = await this.#sacks.take(parts, meaning, language, id);
    if (notice === null) return false;
    this.run.tell(notice, { text: meaning.text, meaning: meaning.means });
    return true;
  }

  /** A screen of this bench is there from now on, until what is answered is called. */
  screenCame(): () => void {
    return this.#presence.came();
  }

  /** This bench is there; or what it had in hand has gone to another one, and it finds that out. */
  beat(): Promise<void> {
    return this.run
      .beat()
      .catch((error: unknown) =>
        this.#parts.log.error({ error, bench: this.bench.id }, 'a lease could not be renewed'),
      );
  }

  /** Something was queued for this bench's printer. */
  printQueued(): void {
    this.#printing.kick();
  }

  /** A person has seen whether an unsettled job was printed. False when it was settled already. */
  async settlePrint(id: number, as: 'printed' | 'again'): Promise<boolean> {
    const settled = await settlePrint(this.#parts, this.bench.id, this.run, { id, as });
    if (settled && as === 'again') this.#printing.kick();
    return settled;
  }

  /** @throws when the store fails */
  async apply(input: RunInput, id?: string, meantFor?: string): Promise<Applied> {
    if (input.type === 'command') this.help.given(input.command);
    const given = input.type === 'command' || input.type === 'digits' || input.type === 'language';
    const beside = given ? this.#beside(input, id) : null;
    if (beside !== null) return beside;
    const applied = await this.run.apply(input, id, meantFor);
    return { ...applied, seq: applied.seq + this.practice.seq + this.side.seq };
  }

  /** Whoever stands here is spoken to otherwise from now on. @throws when the store fails */
  async changeSpeech(change: SpeechChange): Promise<void> {
    await this.#parts.manners.change(this.bench.id, this.run.state.packer, change);
    this.publish();
  }

  view(): Promise<BenchView> {
    return stationView(this, this.#parts);
  }

  /** Shows the screens what has changed around the run: the queue, the day, the time left. */
  async refresh(): Promise<void> {
    if (this.#stopped || this.#devices === null) return;
    await this.side.refresh();
    await this.#publisher.refresh();
  }

  /** Shows the screens the present view. */
  publish(): void {
    this.#publisher.publish();
  }

  async #meaningOf(text: string): Promise<ScanMeaning> {
    const { store, shops, door } = this.#parts;
    const meaning = inventedPiece(text, this.shownRun) ?? (await meaningOf(text, store, shops.current));
    // What comes of a right badge is then what comes of a wrong one, or it would tell which is right.
    if (meaning.means === 'staff' && door?.takesBadges(this.bench.id) === false)
      return { means: 'unknown', text, why: 'not-known' };
    return this.practice.active ? meaning : this.labels.meaningOf(text, meaning, this.run.state);
  }

  #take(input: RunInput): Promise<Applied | null> {
    return this.#orTell(input.type, undefined, () => this.run.apply(input));
  }

  async #weigh(reading: Reading): Promise<void> {
    const parcel = this.#parcelHere();
    const applied = await this.#take({ type: 'reading', reading });
    if (applied?.accepted === true) this.#load.weighed(reading, parcel);
  }

  #parcelHere(): string {
    const { run, parcel } = this.run.state;
    return `${run ?? ''} ${String(parcel)}`;
  }

  /** An input with an `id` is answered to the screen that sent it; one from a device has nobody who waits for an answer. */
  async #orTell(input: string, id: string | undefined, take: () => Promise<Applied | null>): Promise<Applied | null> {
    try {
      return await take();
    } catch (error) {
      this.#parts.log.error({ error, bench: this.bench.id, input }, 'an input could not be stored');
      if (id !== undefined) throw error;
      this.run.tellNotStored();
      return null;
    }
  }

  #onRunChange(): void {
    const before = this.#stepBefore;
    const { at } = this.run.state.step;
    this.#stepBefore = at;
    this.publish();
    if (at === 'seal' && before !== 'seal') this.labels.waits();
    // A quick packer has put the parcel on the scale before saying that it is closed.
    const onPan = at === 'weigh' && before === 'fill' ? (this.#devices?.onPan() ?? null) : null;
    if (onPan !== null && !this.#load.isAnothers(onPan, this.#parcelHere())) void this.#weigh(onPan);
  }
}
