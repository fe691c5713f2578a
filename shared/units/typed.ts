/**
 * A number with its unit as somebody types it into a form, written with a decimal point and a unit: "27,5" in a shop of
 * centimetres is "27.5 cm". A comma before exactly three digits may part thousands: it is a decimal one only where the
 * shop writes decimals so, and is otherwise left as it is, to be refused.
 * @param unit of a text that names none; none is added where null
 */
export function typedQuantity(text: string, decimals: 'point' | 'comma', unit: string | null): string {
  const tidy = text.trim().replace(/^[€$£]\s*|\s*[€$£]$/g, '');
  const pointed = tidy.replace(/^([+-]?\d+),(\d+)(?!\d|[.,])/, (whole, before: string, after: string) =>
    decimals === 'comma' || after.length !== 3 ? `${before}.${after}` : whole,
  );
  return unit !== null && /^[+-]?[\d.]+$/.test(pointed) ? `${pointed} ${unit}` : pointed;
}
