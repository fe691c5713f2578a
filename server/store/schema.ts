import type { Place } from '#shared/access/limits.ts';
import type { Generated } from 'kysely';
import type { IncomingState } from '#shared/wire/incoming.ts';
import type { LabelState, LabelType } from '#shared/wire/label.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import type { StoredKind } from '#shared/wire/search.ts';
import type { StockMoveKind } from '#shared/wire/supplies.ts';
import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { SpeechForm } from '#shared/wire/speech.ts';
import type { ChangePlace, ChangeWhat } from '#shared/audit/changes.ts';
import type { OrderState } from '#shared/planning/types.ts';
import type { PhotoSubject, PhotoTrouble } from '#shared/proof/types.ts';

/** Tables as they stand after the last migration. JSON columns hold the shared types; times are epoch milliseconds. */
export interface Tables {
  /** which phrases work for a person at a bench; `body` is an Enrolment */
  voice_enrolment: { staff: string; bench: string; body: string; at: number };
  piece: { sku: string; body: string };
  /** `body` is an Order; what is searched or counted stands beside it */
  shop_order: {
    id: string;
    body: string;
    state: OrderState;
    ship_by: string;
    bench: string | null;
    run: string | null;
    reason: string | null;
    changed_at: number;
    /** when it first came in */
    came_at: number | null;
    /** grows whenever the order itself is changed */
    version: Generated<number>;
    /** which place of the set-aside shelf its pieces lie at */
    aside_place: Generated<number | null>;
  };
  /** whose hands an order is in, until when that bench is taken to be there, and whom it was offered to */
  claim_lease: {
    order_id: string;
    bench: string;
    run: string;
    until: number;
    offered_to: string | null;
    offered_at: number | null;
  };
  /** servers that serve the shop from one database; `wants` is a list of benches as JSON, or null for any */
  server_lease: { id: string; address: string; wants: string; until: number };
  bench_lease: { bench: string; server: string; since: number };
  /** how often something was changed that is not counted by itself */
  change_count: { what: 'pieces'; number: number };
  /** orders whose pieces are being, or were, folded before their turn; `body` is a FoldedPieces list */
  folded_ahead: {
    order_id: string;
    bench: string;
    basket: number;
    state: 'folding' | 'folded';
    /** of the order, when it was folded */
    version: number;
    body: string;
    at: number;
  };
  /** what is done at each bench beside packing: its exact moment, and every accepted input */
  side_work_state: { bench: string; seq: number; body: string };
  side_work_input: { bench: string; seq: number; id: string; body: string; at: number };
  /** the folds of the batch at a bench; `body` is a list of PlannedPiece */
  fold_batch: { bench: string; body: string };
  /** what can be searched for, kept by triggers; full-text indexes lie over it */
  search_entry: { id: Generated<number>; kind: StoredKind; ref: string; code: string; words: string };
  /** imports that are being stored, and what is still to come of them; `body` is a Piece or an Order */
  import_job: {
    id: string;
    subject: ImportSubject;
    state: 'gathering' | 'storing';
    total: number;
    added: number;
    changed: number;
    refused: number;
    at: number;
    /** when the store was looked at */
    since: Generated<number>;
  };
  import_record: { job: string; seq: number; body: string };
  /** how a source's files are read, by their header row; `body` is a SourceMapping */
  import_source: {
    id: Generated<number>;
    name: string;
    subject: ImportSubject;
    header_key: string;
    body: string;
    changed_at: number;
    used_at: number | null;
  };
  /** files of the watched folder by what is in them; `body` is what was made of each, `moved` 0 until it lies in its place */
  incoming_file: {
    id: Generated<number>;
    name: string;
    digest: string;
    state: IncomingState;
    moved_to: string;
    moved: 0 | 1;
    body: string;
    at: number;
  };
  order_piece: { order_id: string; sku: string };
  /** tokens of other systems that send pieces and orders; `may` is a list of what as JSON */
  intake_token: {
    id: Generated<number>;
    name: string;
    hash: string;
    may: string;
    made_at: number;
    used_at: number | null;
    revoked_at: number | null;
  };
  access_pin: { person: string; hash: string; set_at: number };
  access_device: {
    id: Generated<number>;
    name: string;
    hash: string;
    paired_at: number;
    seen_at: number;
    revoked_at: number | null;
  };
  /** `hash` of the cookie of an office, `device_id` of a bench; `shown`: what was shown to sign in, a PIN or a badge */
  access_session: {
    id: Generated<number>;
    place: Place;
    hash: string | null;
    device_id: number | null;
    person: string;
    shown: 'pin' | 'badge';
    made_at: number;
    seen_at: number;
    ended_at: number | null;
  };
  /** the newest code of each kind */
  access_code: { kind: 'pair' | 'set-up'; hash: string; ends_at: number; wrong: number };
  /** wrong tries in a row of a person or from an address */
  access_try: { subject: string; failures: number; last_at: number };
  /** orders that were made one */
  combined_order: { member: string; combination: string };
  /** `orders` is a sorted list of ids as JSON */
  combining_declined: { orders: string; at: number };
  /** addresses that look wrong and were found right; another address of the order is looked at anew */
  address_checked: { order_id: string; address: string; at: number };
  run: {
    id: string;
    order_id: string;
    bench: string;
    packer: string | null;
    started_at: number;
    ended_at: number | null;
    /** a Comparison; null for runs of older versions */
    compared: string | null;
  };
  /** a planned parcel with its folds and drawings, stored once: states and inputs refer to it. `body` is a ParcelPlan */
  planned_parcel: { id: Generated<number>; run: string; body: string };
  /** the exact step at each bench, and the number of its last stored input; `body` is a StoredRun */
  bench_state: { bench: string; seq: number; body: string };
  /** every accepted input, in order; `id` makes a delivery act once */
  input: { bench: string; seq: number; id: string; run: string | null; body: string; given_by: string; at: number };
  print_job: {
    id: Generated<number>;
    bench: string;
    run: string | null;
    parcel: number;
    bytes: Uint8Array;
    state: PrintJobState;
    why: string;
    made_at: number;
    ended_at: number | null;
    /** what it is, for people; empty for a slip, which its run names */
    title: Generated<string>;
    /** characters that could not be printed as they are, parted by spaces */
    replaced: Generated<string>;
  };
  parcel: {
    id: Generated<number>;
    order_id: string;
    run: string;
    number: number;
    label: string | null;
    body: string;
    finished_at: number;
    carrier: string | null;
    /** the sack that it lies or lay in */
    sack: Generated<number | null>;
    sacked_at: Generated<number | null>;
    left_at: Generated<number | null>;
    /** why it never leaves */
    stays: Generated<string | null>;
  };
  /** what one carrier takes at one collection */
  sack: {
    id: Generated<number>;
    carrier: string;
    day: string;
    at: string;
    bench: string | null;
    opened_at: number;
    closed_at: number | null;
    closed_by: string | null;
  };
  /**
   * labels that are bought from outside, the newest of a parcel the one that counts; `facts` is a LabelFacts, `body` what is
   * sent, `why` a code and `answer` what was said last
   */
  label_request: {
    id: Generated<number>;
    key: string;
    run: string;
    number: number;
    order_id: string;
    bench: string;
    facts: string;
    body: string;
    state: LabelState;
    attempts: number;
    next_at: number;
    why: string;
    answer: string;
    tracking: string | null;
    label_type: LabelType | null;
    label: Uint8Array | null;
    made_at: number;
    tried_at: number | null;
    ended_at: number | null;
  };
  /** beliefs as JSON; null where a kind has taught nothing of it yet */
  kind_belief: { kind: string; mass: string | null; factor: string | null; changed_at: number };
  /** `learned` is 0 for what was too unlikely to be learned without a look */
  lesson: {
    id: Generated<number>;
    kind: string;
    about: 'mass' | 'closing';
    order_id: string;
    run: string;
    container: string;
    body: string;
    learned: 0 | 1;
    at: number;
  };
  /** trials of the scales with a known mass; `body` is a ReferenceCheck */
  reference_check: { id: Generated<number>; bench: string; body: string; at: number };
  /** `listener` is a person, or a bench for whoever has not said who it is */
  speech_manner: {
    listener: string;
    words_per_minute: number;
    volume: number;
    form: SpeechForm;
    changed_at: number;
  };
  speech_bench: { bench: string; speaks: 0 | 1; changed_at: number };
  /** what the carrier found a parcel to weigh, masses in base units */
  correction: { parcel: number; bench: string; ours: number; carriers: number; at: number };
  /** what is on the shelf, in the supply's unit; no row where nobody has counted. Below zero when more was used than counted */
  stock_level: { item: string; on_hand: number; counted_at: number };
  /** what is ordered and has not come */
  stock_order: { item: string; on_order: number };
  /** every change; `after` is what was on the shelf then, `parcel` makes a finished parcel count once */
  stock_move: {
    id: Generated<number>;
    item: string;
    kind: StockMoveKind;
    amount: number;
    after: number | null;
    parcel: string | null;
    reason: string;
    who: string | null;
    at: number;
  };
  /** what the parcels of a day of the shop took */
  stock_day: { item: string; day: string; used: number };
  /** one kind of garment in one finished run of one person; `mistakes` is a list; `seconds` a piece, null where it tells nothing */
  pack: {
    id: Generated<number>;
    run: string;
    person: string;
    kind: string;
    pieces: number;
    recipe: string | null;
    mistakes: string;
    seconds: number | null;
    level: GuidanceLevel;
    at: number;
  };
  /**
   * photos of what was packed; `file` is the digest of its bytes, null where there is none: `missed` says why, or it was
   * kept its time and `removed_at` says when it went
   */
  photo: {
    id: string;
    order_id: string;
    run: string;
    /** from 1 */
    parcel: number;
    what: PhotoSubject;
    bench: string;
    person: string | null;
    taken_at: number;
    came_at: number;
    file: string | null;
    bytes: number | null;
    width: number | null;
    height: number | null;
    missed: PhotoTrouble | null;
    removed_at: number | null;
  };
  /** who changed what; `details` is a record of texts as JSON */
  change_record: {
    id: Generated<number>;
    at: number;
    what: ChangeWhat;
    about: string;
    who: string | null;
    place: ChangePlace;
    details: string;
  };
  /** the shop's files as they were last taken; `keys` has digests as JSON */
  shop_file: { file: string; digest: string; salt: string; keys: string };
  /** when what is kept for a time was last looked through, and since when a clock that has jumped is not believed */
  sweep: { what: string; at: number | null; held_at: number | null };
  /** data about people that are being taken out: ids of orders, `identity` is an Identity until no row holds it any more */
  purge_asked: { id: Generated<number>; orders: string; identity: string | null; at: number };
  /** guidance that was set by hand */
  guidance_choice: { id: Generated<number>; person: string; kind: string; level: GuidanceLevel; at: number };
  /** practice at each bench: its exact moment, and every accepted input */
  practice_state: { bench: string; seq: number; body: string };
  practice_input: { bench: string; seq: number; id: string; body: string; at: number };
  /** `body` is a Mark */
  practice_mark: { id: Generated<number>; person: string; body: string; at: number };
  skill_signed: {
    id: Generated<number>;
    person: string;
    skill: string;
    signed_by: string;
    at: number;
    withdrawn_at: number | null;
  };
}

/** `sending` found at a start means that nobody knows whether it was printed. */
export type PrintJobState = 'queued' | 'sending' | 'printed' | 'failed' | 'unknown';
