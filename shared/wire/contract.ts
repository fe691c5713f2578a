import type { AccessView, PairingCode, RightsView } from './access.ts';
import type { BackupsView } from './backups.ts';
import type { AddressStored, DoubtfulAddress } from './addresses.ts';
import type { ChangesView } from './audit.ts';
import type { CombiningView } from './combining.ts';
import type { ServerToOffice } from './day.ts';
import type {
  CorrectionsTaken,
  DevicesView,
  FormTrial,
  JobPaper,
  PortRow,
  PrintPreview,
  ReferenceCheckRow,
  ScaleFinding,
  ScaleSelf,
  TestScan,
  UsbScalesView,
} from './devices.ts';
import type { BenchToServer, ServerToBench } from './events.ts';
import type { FirstRunView } from './first-run.ts';
import type { FitsView, WardrobeView } from './fits.ts';
import type { HealthView, LogLevelView } from './inside.ts';
import type { Attention, HandOverView, SackScan, Sheet } from './hand-over.ts';
import type { ImportLook } from './imports.ts';
import type { IncomingView } from './incoming.ts';
import type { IntakeAnswer, IntakeToken, NewIntakeToken, RefusedRecord } from './intake.ts';
import type { LabelAnswer, LabelRequest, LabelsView, NumbersTaken } from './label.ts';
import type { LearnedView } from './learned.ts';
import type { BenchRow, ImportApplied, ImportPreview, OfficeError, OrderPage, PersonRow } from './office.ts';
import type { PeopleView, ProgressView, RecordPrinted } from './people.ts';
import type { PriceDifference, PriceTable, RateApplied, RatePreview, RatesOverview, WhatIf } from './rates.ts';
import type { BuyerPurged, BuyerView, PrivacyView } from './privacy.ts';
import type { PhotoView } from './proof.ts';
import type { Report } from './report.ts';
import type { ScaleToScreen, ScreenToScale } from './screen-scale.ts';
import type { OrderDetail, SearchAnswer } from './search.ts';
import type {
  EarlierText,
  NewRateCard,
  EarlierVersion,
  SettingsOverview,
  SettingsSection,
  SettingsText,
  SettingsTrouble,
  SettingsWritten,
  TextChecked,
} from './settings.ts';
import type { SpeechEngineState } from './speech.ts';
import type { SuppliesView, SupplyHistory } from './supplies.ts';
import type { EnrolledView, RecogniserView, TakeAnswer, VoicesView } from './voice-takes.ts';
import type { ImportSource } from '#shared/imports/source.ts';
import type { Take } from '#shared/voice/enrolment.ts';

/**
 * Everything that is answered over HTTP, by the name that the API's documents give it. Their schemas are made from these
 * very types, so an answer that is changed here is changed there.
 */
export interface WireAnswers {
  readonly AccessView: AccessView;
  readonly AddressStored: AddressStored;
  readonly PairingCode: PairingCode;
  readonly RightsView: RightsView;
  readonly Attention: Attention;
  readonly BackupsView: BackupsView;
  readonly BuyerPurged: BuyerPurged;
  readonly BuyerView: BuyerView;
  readonly Changes: ChangesView;
  readonly PrivacyView: PrivacyView;
  readonly LogLevelView: LogLevelView;
  readonly Photos: readonly PhotoView[];
  readonly BenchRows: readonly BenchRow[];
  readonly CombiningView: CombiningView;
  readonly CorrectionsTaken: CorrectionsTaken;
  readonly DevicesView: DevicesView;
  readonly Done: { readonly ok: true };
  readonly DoubtfulAddresses: readonly DoubtfulAddress[];
  readonly EarlierText: EarlierText;
  readonly NewRateCard: NewRateCard;
  readonly EarlierVersions: readonly EarlierVersion[];
  readonly EnrolledView: EnrolledView;
  readonly FirstRunView: FirstRunView;
  readonly FitsView: FitsView;
  readonly FormTrial: FormTrial;
  readonly HandOverView: HandOverView;
  readonly Health: HealthView;
  readonly ImportApplied: ImportApplied;
  readonly ImportLook: ImportLook;
  readonly ImportPreview: ImportPreview;
  readonly ImportSources: readonly ImportSource[];
  readonly IncomingView: IncomingView;
  readonly IntakeAnswer: IntakeAnswer;
  readonly IntakeRefused: OfficeError & { readonly refused: readonly RefusedRecord[] };
  readonly IntakeTokens: readonly IntakeToken[];
  readonly JobPaper: JobPaper;
  readonly LabelAnswer: LabelAnswer;
  readonly LabelRequest: LabelRequest;
  readonly LabelsView: LabelsView;
  readonly LearnedView: LearnedView;
  readonly NewIntakeToken: NewIntakeToken;
  readonly NumbersTaken: NumbersTaken;
  readonly OfficeError: OfficeError;
  readonly OrderDetail: OrderDetail;
  readonly OrderDivided: { readonly order: string; readonly follows: string | null };
  readonly OrderNamed: { readonly order: string };
  readonly OrderPage: OrderPage;
  readonly PeopleView: PeopleView;
  readonly PersonRows: readonly PersonRow[];
  readonly PortRows: readonly PortRow[];
  readonly PriceDifference: PriceDifference;
  readonly PriceTable: PriceTable;
  readonly PrintPreview: PrintPreview;
  readonly ProgressView: ProgressView;
  readonly RateApplied: RateApplied;
  readonly RatePreview: RatePreview;
  readonly RatesOverview: RatesOverview;
  readonly RatesRead: { readonly services: number };
  readonly RecogniserView: RecogniserView;
  readonly RecordPrinted: RecordPrinted;
  readonly RecordedTakes: readonly (Take & { readonly file: string; readonly staff: string; readonly bench: string })[];
  readonly ReferenceCheckRow: ReferenceCheckRow;
  readonly Report: Report;
  readonly SackScan: SackScan;
  readonly ScaleFinding: ScaleFinding;
  readonly ScaleSelf: ScaleSelf;
  readonly ScaleTold: { readonly outcome: string };
  readonly SearchAnswer: SearchAnswer;
  readonly SettingsOverview: SettingsOverview;
  readonly SettingsSection: SettingsSection;
  readonly SettingsText: SettingsText;
  readonly SettingsTrouble: SettingsTrouble;
  readonly SettingsWritten: SettingsWritten;
  readonly Sheet: Sheet;
  readonly SpeechState: { readonly engine: SpeechEngineState };
  readonly SuppliesView: SuppliesView;
  readonly SupplyHistory: SupplyHistory;
  readonly TakeAnswer: TakeAnswer;
  readonly TestScan: TestScan;
  readonly TextChecked: TextChecked;
  readonly UsbScalesView: UsbScalesView;
  readonly VoicesView: VoicesView;
  readonly WardrobeView: WardrobeView;
  readonly WhatIf: WhatIf;
}

/** The socket.io namespaces, each with what either side sends. */
export interface WireNamespaces {
  readonly bench: { readonly toScreen: ServerToBench; readonly toServer: BenchToServer };
  readonly office: { readonly toScreen: ServerToOffice; readonly toServer: object };
  readonly scale: { readonly toScreen: ScaleToScreen; readonly toServer: ScreenToScale };
}
