import { z } from 'zod';

/** A name of a computer (RFC 1123, 2.1), in small letters; an address needs none. */
const hostName = z
  .string()
  .regex(
    /^(?=.{1,253}$)(?!.*\.[0-9]+$)(?![0-9]+$)[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*$/,
    'expected a name of this computer in small letters, such as bench.example.net, without https:// and port',
  );

/** `network` of shop.yaml: whether other computers of the local network reach the station. It counts from the next start on. */
export const network = z.strictObject({
  /** HTTPS with the local certificate, and everybody signs in */
  open: z.boolean(),
  names: z.array(hostName).min(1).exactOptional(),
});
