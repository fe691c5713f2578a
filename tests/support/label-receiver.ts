import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import type { LabelRequest } from '#shared/wire/label.ts';

/** How a receiver behaves for one delivery, or for all of them. */
export type Behaviour =
  | { readonly do: 'answer'; readonly body: object }
  | { readonly do: 'empty' }
  | {
      readonly do: 'status';
      readonly status: number;
      readonly body?: string;
      readonly headers?: Readonly<Record<string, string>>;
    }
  | { readonly do: 'junk'; readonly body: string; readonly type?: string }
  /** takes the request, acts on it, and never answers */
  | { readonly do: 'hang' }
  | { readonly do: 'drop' }
  /** bytes without end */
  | { readonly do: 'flood' }
  /** two whole responses on one connection */
  | { readonly do: 'twice'; readonly body: object }
  | { readonly do: 'redirect'; readonly to: string };

export interface Delivery {
  readonly key: string;
  readonly attempt: number;
  readonly timestamp: number;
  readonly body: LabelRequest;
  readonly text: string;
}

/**
 * A reference receiver of label requests, written from the README alone: it checks the signature with WebCrypto, refuses old
 * ones, sells one label for each key, and answers the same again for a key that it knows.
 */
export class LabelReceiver {
  readonly deliveries: Delivery[] = [];
  /** signatures that did not fit */
  refused = 0;
  /** what was sold, by key: each once */
  readonly sold = new Map<string, object>();
  /** for the next deliveries, one each; then `always` */
  readonly next: Behaviour[] = [];
  always: Behaviour | null = null;
  /** what is sold for a key that is new */
  sell: (request: LabelRequest, count: number) => object = (_request, count) => ({
    trackingNumber: `TRACK${String(100_000 + count)}`,
  });
  readonly #secret: string;
  readonly #now: () => number;
  #server: Server | null = null;
  #sockets = new Set<Socket>();
  port = 0;

  constructor(secret: string, now: () => number = () => Date.now()) {
    this.#secret = secret;
    this.#now = now;
  }

  get url(): string {
    return `http://127.0.0.1:${String(this.port)}/labels`;
  }

  async start(): Promise<void> {
    const server = createServer((request, response) => void this.#take(request, response));
    server.on('connection', (socket) => {
      this.#sockets.add(socket);
      socket.on('close', () => this.#sockets.delete(socket));
    });
    await new Promise<void>((done) => server.listen(this.port, '127.0.0.1', done));
    this.port = (server.address() as AddressInfo).port;
    this.#server = server;
  }

  /** The receiver's computer is switched off; it comes back on the same port. */
  async stop(): Promise<void> {
    const server = this.#server;
    this.#server = null;
    if (server === null) return;
    const closed = new Promise((done) => server.close(done));
    for (const socket of this.#sockets) socket.destroy();
    await closed;
  }

  async #take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const chunks: Buffer[] = [];
    for await (const chunk of request as AsyncIterable<Buffer>) chunks.push(chunk);
    const text = Buffer.concat(chunks).toString('utf8');
    const header = (name: string) => String(request.headers[name]);
    const timestamp = Number(header('benchfold-timestamp'));
    const signed = await this.#isSigned(header('benchfold-timestamp'), text, header('benchfold-signature'));
    if (!signed || Math.abs(this.#now() / 1000 - timestamp) > 300) {
      this.refused += 1;
      response.writeHead(401, { 'content-type': 'application/json' }).end('{"message":"not signed by you"}');
      return;
    }
    const body = JSON.parse(text) as LabelRequest;
    const key = header('benchfold-key');
    this.deliveries.push({ key, attempt: Number(header('benchfold-attempt')), timestamp, body, text });
    const behaviour = this.next.shift() ?? this.always;
    const answers = behaviour === null || behaviour.do === 'hang' || behaviour.do === 'drop';
    if (answers && !this.sold.has(key)) this.sold.set(key, this.sell(body, this.sold.size));
    this.#answer(response, behaviour ?? { do: 'answer', body: this.sold.get(key) ?? {} });
  }

  async #isSigned(timestamp: string, text: string, signature: string): Promise<boolean> {
    const hex = /^v1=([0-9a-f]{64})$/.exec(signature)?.[1];
    if (hex === undefined) return false;
    const bytes = new TextEncoder();
    const hash = { name: 'HMAC', hash: 'SHA-256' };
    const key = await crypto.subtle.importKey('raw', bytes.encode(this.#secret), hash, false, ['verify']);
    return crypto.subtle.verify('HMAC', key, Buffer.from(hex, 'hex'), bytes.encode(`${timestamp}.${text}`));
  }

  #answer(response: ServerResponse, behaviour: Behaviour): void {
    const json = { 'content-type': 'application/json' };
    switch (behaviour.do) {
      case 'answer':
        response.writeHead(200, json).end(JSON.stringify(behaviour.body));
        return;
      case 'empty':
        response.writeHead(204).end();
        return;
      case 'status':
        response.writeHead(behaviour.status, { ...json, ...behaviour.headers }).end(behaviour.body ?? '{}');
        return;
      case 'junk':
        response.writeHead(200, { 'content-type': behaviour.type ?? 'application/json' }).end(behaviour.body);
        return;
      case 'hang':
        return;
      case 'drop':
        response.socket?.destroy();
        return;
      case 'flood': {
        response.writeHead(200, json);
        const more = () => {
          while (!response.destroyed && response.write('x'.repeat(65_536)));
          if (!response.destroyed) response.once('drain', more);
        };
        more();
        return;
      }
      case 'twice': {
        const text = JSON.stringify(behaviour.body);
        const whole = `HTTP/1.1 200 OK\r\ncontent-type: application/json\r\ncontent-length: ${String(text.length)}\r\n\r\n${text}`;
        response.socket?.write(whole + whole);
        return;
      }
      case 'redirect':
        response.writeHead(307, { location: behaviour.to }).end();
    }
  }
}
