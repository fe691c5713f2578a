import { Agent, request } from 'node:http';

const agent = new Agent({ keepAlive: true });

export interface RawAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | readonly string[] | undefined>>;
  /** as they came, name and value by turns */
  readonly rawHeaders: readonly string[];
  readonly body: Buffer;
}

/** A request whose path goes out as it is written: `fetch` would take dot segments away before they are sent. */
export function rawRequest(
  url: string,
  path: string,
  { method = 'GET', headers = {}, body }: { method?: string; headers?: Record<string, string>; body?: string } = {},
): Promise<RawAnswer> {
  const { hostname, port } = new URL(url);
  const length = body === undefined ? {} : { 'content-length': String(Buffer.byteLength(body)) };
  return new Promise((done, failed) => {
    const sent = request({ hostname, port, path, method, headers: { ...length, ...headers }, agent }, (answer) => {
      const chunks: Buffer[] = [];
      answer.on('data', (chunk: Buffer) => chunks.push(chunk));
      answer.on('end', () =>
        done({
          status: answer.statusCode ?? 0,
          headers: answer.headers,
          rawHeaders: answer.rawHeaders,
          body: Buffer.concat(chunks),
        }),
      );
    });
    sent.on('error', failed);
    sent.end(body);
  });
}
