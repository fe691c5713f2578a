import type {
  CorrectionsTaken,
  DevicesView,
  FormToTry,
  FormTrial,
  JobPaper,
  PortRow,
  PrintPreview,
  Printable,
  ReferenceCheckRow,
  ScaleFinding,
  ScaleSelf,
  ScaleTaskName,
  TestScan,
  UsbScalesView,
} from '#shared/wire/devices.ts';
import type { SimulatorAction } from '#shared/wire/events.ts';
import type { SpeechEngineState } from '#shared/wire/speech.ts';
import type { DeviceName } from '#shared/wire/views.ts';
import type { RecogniserView } from '#shared/wire/voice-takes.ts';
import type { Language } from '#shared/words/language.ts';
import { ask } from './api.ts';

export interface DocumentWish {
  readonly what: Printable;
  readonly language: Language;
  readonly ids: readonly string[];
  readonly print: boolean;
}

function post<Answer>(path: string, body: unknown = {}): Promise<Answer> {
  return ask<Answer>(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}
const at = (bench: string): string => `/api/devices/${encodeURIComponent(bench)}`;

/** The devices page's side of the HTTP contract. */
export const devicesApi = {
  view: () => ask<DevicesView>('/api/devices'),
  speech: () => ask<{ readonly engine: SpeechEngineState }>('/api/speech/state'),
  recogniser: () => ask<RecogniserView>('/api/voices/recogniser'),
  document: (bench: string, wish: DocumentWish) => post<PrintPreview>(`${at(bench)}/documents`, wish),
  tellScale: (bench: string, task: ScaleTaskName) =>
    post<{ outcome: 'sent' | 'not-connected' | 'not-supported' }>(`${at(bench)}/scale`, { task }),
  scaleSelf: (bench: string) => ask<ScaleSelf>(`${at(bench)}/scale`),
  testScan: (bench: string) => post<TestScan>(`${at(bench)}/test-scan`),
  settle: (bench: string, job: number, as: 'printed' | 'again') =>
    post<{ ok: true }>(`${at(bench)}/jobs/${String(job)}`, { as }),
  copy: (bench: string, job: number, language: Language) =>
    post<{ ok: true }>(`${at(bench)}/jobs/${String(job)}/copy`, { language }),
  jobPaper: (bench: string, job: number) => ask<JobPaper>(`${at(bench)}/jobs/${String(job)}/paper`),
  referenceCheck: (bench: string, language: Language) =>
    post<ReferenceCheckRow>(`${at(bench)}/reference-check`, { language }),
  simulate: (bench: string, action: SimulatorAction) => post<{ ok: true }>(`${at(bench)}/simulate`, action),
  standIn: (bench: string, device: DeviceName, simulated: boolean) =>
    post<{ ok: true }>(`${at(bench)}/stand-in`, { device, simulated }),
  labelPrinter: (
    bench: string,
    wish: { readonly do: 'trial'; readonly language: Language } | { readonly do: 'plug' | 'unplug' },
  ) => post<{ ok: true }>(`${at(bench)}/label-printer`, wish),
  ports: () => ask<readonly PortRow[]>('/api/ports'),
  usbScales: () => ask<UsbScalesView>('/api/usb-scales'),
  finding: () => ask<ScaleFinding>('/api/scale-finding'),
  find: (port: string) => post<ScaleFinding>('/api/scale-finding', { port }),
  tryForm: (trial: FormToTry) => post<FormTrial>('/api/form-trial', trial),
  corrections: (file: File) =>
    ask<CorrectionsTaken>('/api/corrections', {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: file,
    }),
} as const;

export type DevicesApi = typeof devicesApi;
