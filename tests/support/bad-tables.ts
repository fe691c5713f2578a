/** Tables as spreadsheets of several countries save them, each with what is wrong and where. */
export interface BadTable {
  readonly name: string;
  readonly subject: 'pieces' | 'orders';
  readonly bytes: Uint8Array;
  /** line and column of each refusal; a file that is refused as a whole has its code and line */
  readonly refused: readonly (readonly [line: number, column: string | null])[] | readonly [string, number | null];
}

const utf8 = (text: string): Uint8Array => Buffer.from(text, 'utf8');
const windows = (text: string): Uint8Array => Buffer.from(text, 'latin1');
const utf16 = (text: string): Uint8Array => Buffer.from(`\ufeff${text}`, 'utf16le');

export const BAD_TABLES: readonly BadTable[] = [
  {
    name: 'semicolons and decimal commas, one of them grouped wrongly',
    subject: 'pieces',
    bytes: windows(
      'Artikelnummer;Kategorie;Gewicht (g);Breite (cm)\r\nA-1;t-shirt;1.25,5;50,5\r\nA-2;t-shirt;180,5;-4\r\n',
    ),
    refused: [
      [2, 'Gewicht (g)'],
      [3, 'Breite (cm)'],
    ],
  },
  {
    name: 'UTF-16 with tabs, as "Unicode text" is saved',
    subject: 'pieces',
    bytes: utf16('Código\tPrenda\tPeso (g)\r\nA-1\tparaguas\t120\r\nA-2\tCamiseta\tmucho\r\n'),
    refused: [
      [2, 'Prenda'],
      [3, 'Peso (g)'],
    ],
  },
  {
    name: 'a byte order mark and a quoted line break before the bad line',
    subject: 'pieces',
    bytes: utf8(
      '\ufeffsku,kind,title\r\nA-1,t-shirt,"one\r\ntwo"\r\nA-2,,"three\r\n\r\nfour"\r\nA-2 3,t-shirt,five\r\n',
    ),
    refused: [
      [4, 'kind'],
      [7, 'sku'],
    ],
  },
  {
    name: 'formulas, and what they leave when they fail',
    subject: 'orders',
    bytes: utf8(
      'order,sku,buyer,postcode,ship by,note\n' +
        'O-1,A-1,=B2&C2,55802,+4h,\n' +
        'O-2,A-2,Ida Wren,=VLOOKUP(A2;P:P;2),+4h,\n' +
        'O-3,A-3,#REF!,55802,+4h,\n' +
        'O-4,A-4,Otis Pearl,55802,#########,\n' +
        '4.19E+11,A-4,Nell Moss,55802,+4h,\n',
    ),
    refused: [
      [2, 'buyer'],
      [3, 'postcode'],
      [4, 'buyer'],
      [5, 'ship by'],
      [6, 'order'],
    ],
  },
  {
    name: 'columns without a name at the end, and a cell beyond them',
    subject: 'pieces',
    bytes: utf8('sku,kind,,,\nA-1,t-shirt,,,\nA-2,t-shirt,,,,x\n'),
    refused: [[3, null]],
  },
  {
    name: 'a title and a row of merged cells above the header',
    subject: 'orders',
    bytes: utf8('November,,,,\n,Ship to,,,\norder,buyer,postcode,sku,ship by\nO-1,Ida Wren,55802,A-1,+4h\n'),
    refused: ['header-lower', 1],
  },
  {
    name: 'two columns headed alike where one is wanted',
    subject: 'orders',
    bytes: utf8('order,buyer,postcode,sku,ship by,Postcode\nO-1,Ida Wren,55802,A-1,+4h,10001\n'),
    refused: ['columns-twice', 1],
  },
  {
    name: 'a needed column that is missing',
    subject: 'orders',
    bytes: utf8('order,buyer,sku,ship by\nO-1,Ida Wren,A-1,+4h\n'),
    refused: ['columns-missing', 1],
  },
  {
    name: 'a quote that nobody closes',
    subject: 'pieces',
    bytes: utf8('sku,kind,title\nA-1,t-shirt,fine\nA-2,t-shirt,"open\nA-3,t-shirt,x\n'),
    refused: ['quote-not-closed', 3],
  },
  {
    name: 'a workbook that was renamed',
    subject: 'pieces',
    bytes: Buffer.from('504b030414000600', 'hex'),
    refused: ['not-a-table', null],
  },
  {
    name: 'a picture that was renamed',
    subject: 'pieces',
    bytes: Buffer.from('89504e470d0a1a0a', 'hex'),
    refused: ['not-a-table', null],
  },
  {
    name: 'bytes that are no text',
    subject: 'pieces',
    bytes: Buffer.from('736b7500002c6b', 'hex'),
    refused: ['not-a-table', null],
  },
  { name: 'nothing', subject: 'orders', bytes: utf8(''), refused: ['empty', null] },
  { name: 'blank lines only', subject: 'orders', bytes: utf8('\n \n'), refused: ['empty', null] },
  { name: 'a header and nothing more', subject: 'orders', bytes: utf8('order,sku\n'), refused: ['header-only', null] },
  {
    name: 'orders that contradict themselves and each other',
    subject: 'orders',
    bytes: utf8(
      [
        'order,sku,quantity,buyer,postcode,country,ship by,deliver by,service,postage paid',
        'O-1,A-1,2,Ida Wren,55802,US,+4h,,,',
        'O-2,A-2,1,Ida Wren,5580,US,+4h,,,',
        'O-3,A-3,1,Otis Pearl,55802,Narnia,soon,tomorrow 5pm,by balloon,free',
        'O-4,A-4 A-4,1,Nell Moss,55802,US,+4h,,,',
        'O-5,NONE-1,1,Nell Moss,55802,US,+4h,,,',
        'O-6,A-4,1,Ada Good,55802,US,+2d,+0d,,',
        'O-7,A-4,1,Bo Wrong,55802,US,+2d,,,',
        'O-7,A-3,1,Someone Else,55802,US,+2d,,,',
        ',A-1,1,Cy Late,55802,US,+2d,,,',
        'A-1,A-1,1,Cy Late,55802,US,+2d,,,',
        'O-8,A-4,1,,,US,,,,',
      ].join('\n'),
    ),
    refused: [
      [2, 'quantity'],
      [3, 'postcode'],
      [4, 'country'],
      [4, 'ship by'],
      [4, 'deliver by'],
      [4, 'service'],
      [4, 'postage paid'],
      [5, 'sku'],
      [6, 'sku'],
      [7, 'deliver by'],
      [9, 'buyer'],
      [10, 'order'],
      [11, 'order'],
      [12, 'buyer'],
      [12, 'postcode'],
      [12, 'ship by'],
    ],
  },
  {
    name: 'pieces whose values no field can take',
    subject: 'pieces',
    bytes: utf8(
      [
        'sku,kind,size,fabric,weight,flat width,price,made in,HS code',
        'A-1,t-shirt,enormous,cobweb,0,none,12.345,Narnia,shirt',
        'A-1,t-shirt,M,,180 g,50 cm,12.50,US,6109.10',
        'A-1,t-shirt,M,,180 g,50 cm,12.50,US,6109.10',
        'MAIL-1,t-shirt,M,,9999999999999 kg,0.00000001 in,EUR 5,US,',
      ].join('\n'),
    ),
    refused: [
      [2, 'size'],
      [2, 'fabric'],
      [2, 'weight'],
      [2, 'flat width'],
      [2, 'price'],
      [2, 'made in'],
      [2, 'HS code'],
      [3, 'sku'],
      [4, 'sku'],
      [5, 'weight'],
      [5, 'flat width'],
      [5, 'price'],
    ],
  },
];
