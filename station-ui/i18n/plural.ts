/** A count and what it counts: "1 parcel", "2 parcels", "2 boxes". */
export function plural(count: number, single: string, many = `${single}s`): string {
  return `${String(count)} ${count === 1 ? single : many}`;
}
