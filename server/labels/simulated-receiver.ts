import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { simulatedLabel } from './simulated-label.ts';
import { gs1CheckDigit } from '#shared/codes/check-digits.ts';
import { LABEL_HEADERS, LABEL_VERSION, type LabelAnswer, type LabelRequest } from '#shared/wire/label.ts';

/** A receiver of label requests made of software: it checks the signature, and sells one invented label for each key. */
export interface SimulatedReceiver {
  readonly url: string;
  readonly secret: Uint8Array;
  stop(): Promise<void>;
}

/** How far its clock and the sender's may differ. */
const LATEST_SECONDS = 300;
/** As long as somebody may look at "the label is being bought". */
const ANSWERS_AFTER_MS = 1200;
const LARGEST_REQUEST = 200_000;

export async function startSimulatedReceiver(afterMs = ANSWERS_AFTER_MS): Promise<SimulatedReceiver> {
  const secret = randomBytes(32);
  const sold = new Map<string, LabelAnswer>();
  const server = createServer((request, response) => {
    const reply = (status: number, body: object) => {
      response.writeHead(status, { 'content-type': 'application/json' });
      response.end(JSON.stringify(body));
    };
    read(request)
      .then((body) => {
        if (!isSigned(request, body, secret)) {
          reply(401, { message: 'the signature does not fit' });
          return;
        }
        const wanted = JSON.parse(body) as LabelRequest;
        const key = String(request.headers[LABEL_HEADERS.key.toLowerCase()]);
        if (key !== wanted.key) {
          reply(400, { message: 'the key of header and body differ' });
          return;
        }
        const answer = sold.get(key) ?? answerTo(wanted);
        sold.set(key, answer);
        setTimeout(() => reply(200, answer), afterMs);
      })
      .catch((error: unknown) => reply(400, { message: error instanceof Error ? error.message : String(error) }));
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', resolve);
  });
  return {
    url: `http://127.0.0.1:${String((server.address() as AddressInfo).port)}/labels`,
    secret,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

async function read(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > LARGEST_REQUEST) throw new Error('the request is too large');
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function isSigned({ headers }: IncomingMessage, body: string, secret: Uint8Array): boolean {
  const timestamp = String(headers[LABEL_HEADERS.timestamp.toLowerCase()]);
  if (Math.abs(Date.now() / 1000 - Number(timestamp)) > LATEST_SECONDS) return false;
  const due = Buffer.from(`v1=${createHmac('sha256', secret).update(`${timestamp}.${body}`).digest('hex')}`);
  const found = Buffer.from(String(headers[LABEL_HEADERS.signature.toLowerCase()]));
  return found.length === due.length && timingSafeEqual(found, due);
}

function answerTo(request: LabelRequest): LabelAnswer {
  const trackingNumber = numberOf(request.key);
  const { type, bytes } = simulatedLabel(request, trackingNumber);
  const label = { type, data: Buffer.from(bytes).toString('base64') };
  return { version: LABEL_VERSION, trackingNumber, label };
}

/** A 22-digit parcel number made from the key. */
function numberOf(key: string): string {
  let hash = 11n;
  for (const character of key) hash = (hash * 131n + BigInt(character.codePointAt(0) ?? 0)) % 10n ** 17n;
  const digits = `9200${hash.toString().padStart(17, '0')}`;
  return `${digits}${String(gs1CheckDigit(digits))}`;
}
