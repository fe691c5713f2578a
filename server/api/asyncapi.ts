import type { z } from 'zod';
import { sentSchema, type JsonSchema } from './json-schema.ts';
import { API_VERSION } from './version.ts';
import { schemasOf, type Wire, type WireEvent } from './wire.ts';
import { benchInput, scanned, speechChange } from '#server/realtime/bench-namespace.ts';
import { simulatorAction } from '#server/realtime/simulator-action.ts';
import { earAsk } from '#server/realtime/voice-channel.ts';
import type { BenchToServer } from '#shared/wire/events.ts';

const ABOUT = [
  'What crosses the sockets of a Benchfold station: socket.io 4, a namespace for each channel.',
  'A bench’s screen and its scale name their bench in the handshake, as `auth.bench`.',
  'A message is an event of its name with the payload as its argument; several arguments are listed in order.',
  'An input is acknowledged once it is stored; sent again with the same `id`, it acts once.',
].join(' ');

const CHANNELS: Readonly<Record<WireEvent['namespace'], string>> = {
  bench: 'A bench’s screen: what it shows, and what is done at it',
  office: 'The day board: whole at first, then what became different',
  scale: 'A USB scale at a bench’s screen passes its reports on',
};

/** The schemas that what a screen sends is checked with; the rest is looked at by hand, and described by its type. */
const CHECKED: Readonly<Partial<Record<keyof BenchToServer, z.ZodType>>> = {
  input: benchInput,
  code: scanned,
  speech: speechChange,
  simulate: simulatorAction,
  ear: earAsk,
};

/** The events of the sockets as an AsyncAPI 3.0 document. */
export function asyncApi(wire: Wire): JsonSchema {
  const channels: Record<string, JsonSchema> = {};
  const operations: Record<string, JsonSchema> = {};
  const messages: Record<string, JsonSchema> = {};
  for (const [namespace, description] of Object.entries(CHANNELS)) {
    const events = wire.events.filter((each) => each.namespace === namespace);
    const names = events.flatMap((event) => {
      const name = messageName(event);
      messages[name] = messageOf(event.event, event.about, payloadOf(event));
      operations[name] = operationOf(event);
      if (event.ack === null) return [name];
      messages[`${name}Ack`] = messageOf(event.event, 'the acknowledgement', event.ack);
      return [name, `${name}Ack`];
    });
    channels[namespace] = {
      address: `/${namespace}`,
      description,
      messages: Object.fromEntries(names.map((name) => [name, { $ref: `#/components/messages/${name}` }])),
    };
  }
  return draft7({
    asyncapi: '3.0.0',
    info: { title: 'Benchfold', version: API_VERSION, description: ABOUT, license: { name: 'MIT' } },
    defaultContentType: 'application/json',
    channels,
    operations,
    components: { messages, schemas: schemasOf(messages, wire) },
  }) as JsonSchema;
}

/** `benchInput` for the event `input` of `/bench`. */
export function messageName({ namespace, event }: Pick<WireEvent, 'namespace' | 'event'>): string {
  return (
    namespace +
    event
      .split('-')
      .map((word) => word.charAt(0).toUpperCase() + word.slice(1))
      .join('')
  );
}

function messageOf(name: string, summary: string, payload: JsonSchema): JsonSchema {
  return { name, ...(summary === '' ? {} : { summary }), payload };
}

function payloadOf({ namespace, event, arguments: all }: WireEvent): JsonSchema {
  const checked = namespace === 'bench' ? CHECKED[event as keyof BenchToServer] : undefined;
  const schemas = all.map(({ schema }, index) => (index === 0 && checked !== undefined ? sentSchema(checked) : schema));
  const [only] = schemas;
  if (only === undefined) return { type: 'null', description: 'no argument' };
  if (schemas.length === 1) return only;
  const least = all.filter(({ optional }) => !optional).length;
  return { type: 'array', prefixItems: schemas, items: false, minItems: least };
}

/** As the server sees it: it receives what a screen sends. */
function operationOf(event: WireEvent): JsonSchema {
  const { namespace, direction, ack } = event;
  const name = messageName(event);
  const message = (of: string) => ({ $ref: `#/channels/${namespace}/messages/${of}` });
  const channel = { $ref: `#/channels/${namespace}` };
  return {
    action: direction === 'toServer' ? 'receive' : 'send',
    channel,
    messages: [message(name)],
    ...(ack === null ? {} : { reply: { channel, messages: [message(`${name}Ack`)] } }),
  };
}

/** AsyncAPI's own schemas are of an older draft: there a row of fixed items is written otherwise. */
function draft7(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(draft7);
  if (typeof value !== 'object' || value === null) return value;
  const { prefixItems, items, ...rest } = value as Record<string, unknown>;
  const plain = Object.fromEntries(Object.entries(rest).map(([key, each]) => [key, draft7(each)]));
  if (prefixItems === undefined) return items === undefined ? plain : { ...plain, items: draft7(items) };
  return { ...plain, items: draft7(prefixItems), ...(items === undefined ? {} : { additionalItems: draft7(items) }) };
}
