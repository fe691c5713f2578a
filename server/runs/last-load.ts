import type { Reading } from '#shared/weighing/types.ts';
import type { LiveScale } from '#shared/wire/views.ts';

/** The load that was weighed last, and as which parcel: until it is taken off it is never another's. */
export class LastLoad {
  #weighed: { readonly reading: Reading; readonly parcel: string } | null = null;

  weighed(reading: Reading, parcel: string): void {
    this.#weighed = { reading, parcel };
  }

  isAnothers(reading: Reading, parcel: string): boolean {
    return this.#weighed?.reading === reading && this.#weighed.parcel !== parcel;
  }

  /** The live scale, with a word where what lies on it is the parcel before. */
  shown(live: LiveScale, onPan: Reading | null, parcel: string): LiveScale {
    const { reading } = live;
    if (reading === null || onPan === null || !this.isAnothers(onPan, parcel)) return live;
    const stillLies = Math.abs(reading.mass - onPan.mass) <= 2 * reading.division;
    return stillLies ? { ...live, another: true } : live;
  }
}
