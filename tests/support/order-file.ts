/** A file of so many orders, one piece each, as a spreadsheet saves it. */
export function orderFile(count: number, from = 0): string {
  const lines = ['order,sku,buyer,address,city,postcode,country,ship by,note'];
  for (let index = from; index < from + count; index++) {
    const buyer = `${FIRST[index % FIRST.length] ?? ''} ${LAST[(index * 7) % LAST.length] ?? ''}`;
    const street = `${String(1 + (index % 900))} ${STREETS[index % STREETS.length] ?? ''}`;
    const day = `2099-${String(1 + (index % 12)).padStart(2, '0')}-${String(1 + (index % 28)).padStart(2, '0')}`;
    lines.push(
      `${orderNumber(index)},${skuOf(index)},${buyer},"${street}, floor ${String(index % 9)}",Duluth MN,55802,US,${day} 16:30,`,
    );
  }
  return `${lines.join('\r\n')}\r\n`;
}

/** The pieces that {@link orderFile} asks for. */
export function pieceFile(count: number, from = 0): string {
  const lines = ['sku,title,kind,size,weight,location'];
  for (let index = from; index < from + count; index++) {
    const title = `${COLOURS[index % COLOURS.length] ?? ''} ${CLOTHS[(index * 3) % CLOTHS.length] ?? ''} shirt`;
    lines.push(`${skuOf(index)},${title},t-shirt,M,${String(140 + (index % 120))} g,S${String(index % 400)}`);
  }
  return `${lines.join('\r\n')}\r\n`;
}

export const orderNumber = (index: number): string => `N-${String(300_000 + index)}`;
const skuOf = (index: number): string => `BULK-${String(100_000 + index)}`;

const FIRST = ['Inés', 'Mara', 'Jonas', 'Zoë', 'Odile', 'Tomás', 'Brann', 'Wilhelmina', 'Kaito', 'Sunniva', 'Fergus'];
const LAST = [
  'Pérez',
  'Aldous',
  'Quill',
  'Thornby',
  'Marrow',
  'Okafor',
  'Lindqvist',
  'Vance',
  'Ibarra',
  'Hale',
  'Núñez',
];
const STREETS = ['Elm Street', 'Harbour Road', 'Mill Lane', 'Calle del Río', 'Orchard Rise'];
const COLOURS = ['Rust', 'Navy', 'Moss', 'Ochre', 'Slate', 'Plum'];
const CLOTHS = ['linen', 'chambray', 'flannel', 'corduroy', 'poplin'];
