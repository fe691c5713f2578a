import { sentSchema, queryParameters, type JsonSchema } from './json-schema.ts';
import { GROUPS, isMedia, type Media, type Operation } from './operation.ts';
import { OPERATIONS } from './operations.ts';
import { API_VERSION } from './version.ts';
import { referenceTo, schemasOf, type Wire } from './wire.ts';
import { ROUTES } from '#server/access/route-table.ts';
import { answerSchema } from '#server/labels/judge.ts';
import type { Least } from '#shared/access/roles.ts';
import type { WireAnswers } from '#shared/wire/contract.ts';
import { LABEL_HEADERS } from '#shared/wire/label.ts';

const ABOUT = [
  'What a Benchfold station answers over HTTP.',
  'What is marked x-stable is kept within the first number of the version; the rest serves its pages and may grow with them. x-least-standing says who may use it once the shop is locked.',
  'Answers may have more fields than are listed: leave alone what you do not know.',
  'Times are milliseconds since 1970 where they are numbers. Every refusal is an OfficeError: `error` for programs, `message` for people.',
].join(' ');

/** A path as OpenAPI writes it: `/api/orders/{id}`. */
export function openPath(path: string): string {
  return path.replaceAll(/:(\w+)/g, '{$1}');
}

/** The routes of the server as an OpenAPI 3.1 document. */
export function openApi(wire: Wire): JsonSchema {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const operation of OPERATIONS) {
    const path = (paths[openPath(operation.path)] ??= {});
    path[operation.method] = described(operation);
  }
  const webhooks = { labelRequest: { post: labelWebhook() } };
  const { schemas } = wire;
  return {
    openapi: '3.1.0',
    info: { title: 'Benchfold', version: API_VERSION, description: ABOUT, license: { name: 'MIT', identifier: 'MIT' } },
    servers: [{ url: '/', description: 'this station' }],
    tags: Object.entries(GROUPS).map(([name, description]) => ({ name, description })),
    paths,
    webhooks,
    components: {
      schemas: schemasOf([paths, webhooks, referenceTo('OfficeError')], { schemas }),
      responses: {
        Refused: { description: 'Refused, and nothing was changed', content: json(referenceTo('OfficeError')) },
      },
      securitySchemes: {
        token: { type: 'http', scheme: 'bearer', description: 'made on the page Import, for orders or pieces' },
      },
    },
  };
}

function described(operation: Operation): JsonSchema {
  const { group, id, about, body, answer, otherAnswers = {}, refusals = {}, stable, token, progress } = operation;
  const parameters = parametersOf(operation);
  const refused = Object.entries(refusals).map(([status, description]) => {
    const name = otherAnswers[Number(status)];
    return [status, { description, content: json(referenceTo(name ?? 'OfficeError')) }] as const;
  });
  return {
    operationId: id,
    tags: [group],
    summary: about,
    ...(stable === undefined ? {} : { 'x-stable': true }),
    'x-least-standing': leastStanding(operation),
    ...(parameters.length === 0 ? {} : { parameters }),
    ...(body === undefined ? {} : { requestBody: { required: true, content: contentOf(body) } }),
    responses: {
      200: { description: about, content: { ...answerContent(answer), ...(progress ? progressLines(answer) : {}) } },
      ...Object.fromEntries(refused),
      default: { $ref: '#/components/responses/Refused' },
    },
    ...(token === undefined ? {} : { security: [{ token: [] }] }),
  };
}

/** Who may use it at least, once the shop is locked. */
function leastStanding({ method, path, route = path }: Operation): Least | undefined {
  return new Map<string, Least>(Object.entries(ROUTES)).get(`${method.toUpperCase()} ${route}`);
}

function parametersOf({ path, query, headers = {} }: Operation): readonly JsonSchema[] {
  const inPath = [...path.matchAll(/:(\w+)/g)].map(([, name = '']) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
  const inQuery = query === undefined ? [] : queryParameters(query).map((each) => ({ ...each, in: 'query' }));
  const inHeaders = Object.entries(headers).map(([name, description]) => ({
    name,
    in: 'header',
    description,
    schema: { type: 'string' },
  }));
  return [...inPath, ...inQuery, ...inHeaders];
}

function contentOf(body: NonNullable<Operation['body']>): JsonSchema {
  return isMedia(body) ? { [body.media]: { schema: { description: body.about } } } : json(sentSchema(body));
}

function answerContent(answer: keyof WireAnswers | Media): JsonSchema {
  return isMedia(answer) ? { [answer.media]: { schema: { description: answer.about } } } : json(referenceTo(answer));
}

function progressLines(answer: keyof WireAnswers | Media): JsonSchema {
  const line = {
    description: 'one line: how far it is, then the answer, or why it failed',
    type: 'object',
    properties: {
      progress: { type: 'object', properties: { done: { type: 'integer' }, of: { type: 'integer' } } },
      answer: isMedia(answer) ? {} : referenceTo(answer),
      failed: referenceTo('OfficeError'),
    },
  };
  return { 'application/x-ndjson': { schema: line } };
}

/** What the station sends to an address of the shop's own, and what it understands of the answer. */
function labelWebhook(): JsonSchema {
  return {
    operationId: 'labelRequest',
    tags: ['labels'],
    summary:
      'A parcel’s weight and service are settled: its label is asked for. Delivered at least once; sell once for a key',
    'x-stable': true,
    parameters: Object.values(LABEL_HEADERS).map((name) => ({
      name,
      in: 'header',
      required: true,
      schema: { type: 'string' },
    })),
    requestBody: { required: true, content: json(referenceTo('LabelRequest')) },
    responses: {
      200: { description: 'a number, a label, both or neither', content: json(sentSchema(answerSchema)) },
      '4XX': { description: 'refused, and not sent again, but for 408, 425 and 429' },
      '5XX': { description: 'sent again later' },
    },
  };
}

function json(schema: JsonSchema): JsonSchema {
  return { 'application/json': { schema } };
}
