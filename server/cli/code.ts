import { wrongUsage } from './cli-error.ts';
import type { Command } from './command.ts';
import { recordIn } from './record.ts';
import { withShopStore } from './shop-store.ts';
import { makeCode } from '#server/access/entry.ts';
import { spacedCode } from '#server/access/secrets.ts';
import { inTransaction } from '#server/store/in-transaction.ts';

const KINDS = { pair: 'pair', owner: 'set-up' } as const;
const SAYS = {
  pair: (code: string) => `Code to pair a tablet, for ten minutes: ${code}`,
  owner: (code: string) => `Code to set an owner's PIN on the office page, for a day: ${code}`,
} as const;

/** A one-time code, made by whoever may use the server's computer; the server may run meanwhile. */
export const codeCommand: Command = {
  usage: 'code pair|owner [--data DIR]',
  options: ['data'],
  positionals: 1,
  async run(options, surroundings) {
    const [what] = options.positionals;
    if (what !== 'pair' && what !== 'owner') wrongUsage(`expected pair or owner, found "${what ?? ''}"`);
    return withShopStore(options, surroundings, async (store) => {
      const { code, endsAt } = await inTransaction(store, async (transaction) => {
        await recordIn(transaction, { what: 'pairing-code-made', about: what }, surroundings);
        return makeCode(transaction, KINDS[what], surroundings.now);
      });
      return {
        document: { for: what, code, endsAt: new Date(endsAt).toISOString() },
        text: SAYS[what](spacedCode(code)),
        complaints: [],
      };
    });
  },
};
