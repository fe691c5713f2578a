/** What a person may be in a shop, least first. */
export const ROLES = ['packer', 'supervisor', 'owner'] as const;
export type Role = (typeof ROLES)[number];

/** As whom somebody comes, least first: a stranger, a paired device where nobody has signed in, or a person. */
export const STANDINGS = ['nobody', 'device', ...ROLES] as const;
export type Standing = (typeof STANDINGS)[number];

/**
 * Who may use a route or an event: that standing and every higher one. `token`: the route asks for a token of its own, as
 * another system has it.
 */
export type Least = Standing | 'token';

/** Whether a standing is enough. A route that asks for a token is open here and looks at the token itself. */
export function isEnough(standing: Standing, least: Least): boolean {
  return least === 'token' || STANDINGS.indexOf(standing) >= STANDINGS.indexOf(least);
}
