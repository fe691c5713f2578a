import type { serverOn } from './in-process-server.ts';
import { pairedDevices } from '#server/store/access-devices.ts';
import type { Standing } from '#shared/access/roles.ts';

type Server = Awaited<ReturnType<typeof serverOn>>;

/** Of the demo shop's staff. */
const PEOPLE = { packer: 'lucia', supervisor: 'tobias', owner: 'maren' } as const;
export const OWNER_PIN = '730164';

/** Locks a shop: its owner sets a PIN. */
export async function lock(server: Server): Promise<void> {
  await server.entry.setPin(PEOPLE.owner, OWNER_PIN);
}

/** Headers of a request from another computer by somebody who has signed in at its office, or has not. */
export async function comingAs(server: Server, standing: Standing): Promise<Readonly<Record<string, string>>> {
  const far = { 'x-forwarded-for': '10.0.0.9' };
  if (standing === 'nobody') return far;
  const device = await server.entry.pair(`the ${standing}'s`);
  const [{ id } = { id: 0 }] = await pairedDevices(server.store);
  const cookies = [`benchfold_device=${device}`];
  if (standing !== 'device') cookies.push(`benchfold_session=${await server.entry.enterOffice(PEOPLE[standing], id)}`);
  return { ...far, cookie: cookies.join('; ') };
}
