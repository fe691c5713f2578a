import { accessRetention } from './access-retention.ts';
import { grownRetention } from './grown.ts';
import { logRetention } from './log-retention.ts';
import type { KeptForATime } from './retention.ts';
import type { LogFiles } from '#server/log-files.ts';
import type { SettingsDesk } from '#server/office/settings/settings-desk.ts';
import { buyerRetention } from '#server/privacy/buyer-retention.ts';
import { takenFileRetention } from '#server/privacy/taken-files.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import { photoRetention } from '#server/proof/photo-retention.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { Store } from '#server/store/open.ts';

interface Parts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly photos: PhotoFiles;
  readonly settingsDesk: Pick<SettingsDesk, 'thin'>;
  /** the watched folder */
  readonly incoming: { readonly folder: string };
  /** null where the log goes elsewhere */
  readonly logFiles: LogFiles | null;
}

/** Everything that a server keeps for a time, as the shop's files say how long. */
export function allKept({ store, shops, photos, settingsDesk, incoming, logFiles }: Parts): readonly KeptForATime[] {
  return [
    photoRetention({ store, shops, files: photos }),
    buyerRetention({ store, shops, files: photos }),
    takenFileRetention({ store, shops, folder: () => incoming.folder }),
    ...grownRetention({ store, shops }),
    ...(logFiles === null ? [] : [logRetention({ store, shops, files: logFiles })]),
    ...accessRetention(store),
    { what: 'settings-versions', remove: (now) => Promise.resolve(settingsDesk.thin(now)) },
  ];
}
