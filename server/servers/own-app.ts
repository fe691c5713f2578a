import { createServer, request, type RequestListener } from 'node:http';
import { duplexPair } from 'node:stream';

/** A request that one server of a shop passes on to another: what it needs of it, and nothing that names the sender's computer. */
export interface PassedOn {
  /** whose server is meant; null for every server */
  readonly bench: string | null;
  readonly method: string;
  readonly path: string;
  /** who asks, proven again where it is answered */
  readonly cookie: string | null;
  /** it came from the computer of a server of the shop itself */
  readonly here: boolean;
  /** JSON */
  readonly body: string | null;
}

export interface Answered {
  readonly status: number;
  readonly type: string;
  /** base64 */
  readonly body: string;
}

const passedOn = new WeakSet<object>();

/** Whether a request came from another server of the shop: it is answered here or nowhere. */
export const isPassedOn = ({ socket }: { readonly socket: object }): boolean => passedOn.has(socket);

/** Answers what another server passed on by this server's own routes, guards and all, without a port of its own. */
export class OwnApp {
  readonly #server;

  constructor(app: RequestListener) {
    this.#server = createServer(app);
  }

  answer({ method, path, cookie, here, body }: PassedOn): Promise<Answered> {
    const [near, far] = duplexPair();
    Object.assign(far, { remoteAddress: here ? '127.0.0.1' : undefined });
    passedOn.add(far);
    this.#server.emit('connection', far);
    const length =
      body === null ? {} : { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) };
    const headers = { host: 'localhost', connection: 'close', ...length, ...(cookie === null ? {} : { cookie }) };
    return new Promise((done, failed) => {
      const sent = request({ method, path, headers, createConnection: () => near }, (answer) => {
        const chunks: Buffer[] = [];
        answer.on('data', (chunk: Buffer) => chunks.push(chunk));
        answer.on('error', failed);
        answer.on('end', () => {
          const { statusCode: status = 502, headers: told } = answer;
          const type = told['content-type'] ?? 'application/octet-stream';
          done({ status, type, body: Buffer.concat(chunks).toString('base64') });
        });
      });
      sent.on('error', failed);
      sent.end(body ?? undefined);
    });
  }
}
