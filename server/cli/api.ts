import type { Command, Outcome, Surroundings } from './command.ts';
import type { Options } from './options.ts';
import { table } from './table.ts';
import { asyncApi, messageName } from '#server/api/asyncapi.ts';
import { openApi, openPath } from '#server/api/openapi.ts';
import { OPERATIONS } from '#server/api/operations.ts';
import { API_VERSION } from '#server/api/version.ts';
import { readWire } from '#server/api/wire.ts';

function run({ flags }: Options, { wire: file }: Surroundings): Outcome {
  const wire = readWire(file);
  if (flags.has('events')) {
    const rows = wire.events.map((each) => [
      `/${each.namespace}`,
      each.direction === 'toServer' ? 'to the server' : 'to the screen',
      each.event,
      messageName(each),
    ]);
    return { document: asyncApi(wire), text: table(['namespace', 'goes', 'event', 'message'], rows), complaints: [] };
  }
  const rows = OPERATIONS.map(({ method, path, about, stable }) => [
    method.toUpperCase(),
    openPath(path),
    stable === true ? 'stable' : '',
    about,
  ]);
  const text = table(['', `version ${API_VERSION}`, '', 'what it does'], rows);
  return { document: openApi(wire), text, complaints: [] };
}

/** What the server can be asked over HTTP, or sends and hears over its sockets. */
export const apiCommand: Command = {
  usage: 'api [--events]',
  options: [],
  flags: ['events'],
  version: null,
  run,
};
