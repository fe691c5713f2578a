import type { Least } from '#shared/access/roles.ts';

/** What a namespace of sockets asks of whoever connects, and of whoever sends each event. */
export interface NamespaceRule {
  readonly connect: Least;
  readonly events: Readonly<Record<string, Least>>;
}

/** Every namespace with every event that a screen may send. What is not here is refused. */
export const NAMESPACES: Readonly<Record<string, NamespaceRule>> = {
  '/bench': {
    connect: 'device',
    events: {
      input: 'packer',
      code: 'packer',
      speech: 'packer',
      simulate: 'packer',
      ear: 'packer',
      sound: 'packer',
      photo: 'packer',
    },
  },
  '/scale': {
    connect: 'device',
    events: { opened: 'packer', report: 'packer', controls: 'packer', gone: 'device' },
  },
  '/office': { connect: 'supervisor', events: {} },
};
