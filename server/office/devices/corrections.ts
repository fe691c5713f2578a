import { massCell } from '../imports/quantities.ts';
import { matchColumns } from '../imports/columns.ts';
import { readTable } from '../imports/table.ts';
import type { StoredParcel } from '#server/store/parcels.ts';
import type { ParcelCorrection } from '#server/store/corrections.ts';
import type { ImportFormats } from '#shared/shop/shop.ts';
import { MASS_UNITS, massFromBase, type MassUnit } from '#shared/units/mass.ts';
import type { CorrectionsTaken } from '#shared/wire/devices.ts';

const FIELDS = ['label', 'order', 'mass'] as const;
/** Headers under which such a list may come, beside the fields' own names; the mass's may carry a unit. */
const ALIASES: Readonly<Record<(typeof FIELDS)[number], readonly string[]>> = {
  label: ['tracking', 'tracking number', 'label number', 'parcel', 'etiqueta', 'número de seguimiento', 'paquete'],
  order: ['order number', 'order id', 'order no', 'pedido', 'número de pedido'],
  mass: ['weight', 'carrier weight', 'measured weight', 'actual weight', 'peso', 'peso medido', 'masa'],
};

export interface CorrectionRows {
  readonly corrections: readonly ParcelCorrection[];
  readonly refused: CorrectionsTaken['refused'];
}

/**
 * Reads a list of parcels that the carrier weighed again, each by its label number or, where the order was one parcel,
 * its order, with the mass that the carrier found. What cannot be matched is refused with its line.
 * @throws ImportError when the file is no table or has no mass column
 */
export function readCorrections(
  bytes: Uint8Array,
  parcels: readonly StoredParcel[],
  { unit, mark }: { readonly unit: MassUnit; readonly mark: ImportFormats['decimalMark'] },
): CorrectionRows {
  const table = readTable(bytes);
  const { byField } = matchColumns(table.header, ALIASES, FIELDS, ['mass']);
  const byLabel = new Map(
    parcels.flatMap((parcel) => (parcel.label === null ? [] : [[parcel.label, parcel] as const])),
  );
  const byOrder = new Map<string, readonly StoredParcel[]>();
  for (const parcel of parcels) byOrder.set(parcel.order, [...(byOrder.get(parcel.order) ?? []), parcel]);
  const headed = MASS_UNITS.find((each) => each === byField.get('mass')?.unit) ?? unit;
  const corrections = new Map<number, ParcelCorrection>();
  const refused: CorrectionsTaken['refused'][number][] = [];
  table.eachRow(({ line, cells }) => {
    const cell = (field: (typeof FIELDS)[number]) => cells[byField.get(field)?.index ?? -1]?.trim() ?? '';
    const parcel = find(cell('label'), cell('order'));
    if (typeof parcel === 'string') {
      refused.push({ line, expected: parcel, found: cell('label') || cell('order') });
      return;
    }
    const mass = massCell(cell('mass'), headed, mark);
    if (!mass.ok) {
      refused.push({ line, expected: mass.expected, found: cell('mass') });
      return;
    }
    const ours = massFromBase(parcel.reading + parcel.toCome);
    corrections.set(parcel.id, { parcel: parcel.id, bench: parcel.bench, ours, carriers: mass.value });
  });

  function find(label: string, order: string): StoredParcel | string {
    const labelled = byLabel.get(label.toUpperCase().replace(/\s/g, ''));
    if (labelled !== undefined) return labelled;
    const ofOrder = byOrder.get(order) ?? [];
    if (ofOrder.length === 1 && ofOrder[0] !== undefined && label === '') return ofOrder[0];
    return ofOrder.length > 1 ? 'the label number, because the order was several parcels' : 'a parcel packed here';
  }
  return { corrections: [...corrections.values()], refused };
}
