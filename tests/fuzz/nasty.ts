import fc from 'fast-check';

/**
 * Texts that readers stumble over. Sources: OWASP (CSV Injection; Prototype Pollution; Path Traversal; XML External
 * Entity), the YAML 1.2.2 specification (anchors, tags, merge keys), Unicode 15 (byte-order mark, lone surrogates,
 * marks of direction, line separators).
 */
export const nasty: readonly string[] = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  '../../x',
  '..\\..\\x',
  '/etc/passwd',
  'CON',
  'sheets/../../x.csv',
  '=1+1',
  '+1',
  '-1',
  '@SUM(1)',
  '＝1＋1',
  '\t=1',
  '\r=1',
  '"=1"',
  "'=1",
  '\0',
  '\uFEFF',
  '\uD800',
  '\uDC00\uD800',
  '\u202E',
  '\u2028',
  '\u2029',
  '\u0000\u0001\u001b[31m',
  '😀',
  'ﬃ',
  'İ',
  '1e999',
  '-1e999',
  '1e-999',
  '9'.repeat(400),
  `0.${'0'.repeat(400)}1`,
  'NaN',
  'Infinity',
  '-0',
  '0x10',
  '1/0',
  '0/0',
  '1 1/3',
  `${'1 '.repeat(90)}in`,
  '1,1,1',
  '1.000.000,00',
  '1e5',
  '5 ft 6 in 7',
  "'''",
  '"',
  '""',
  '"""',
  ',',
  ';',
  '\t',
  '\n',
  '\r\n',
  '\r',
  '\u0085',
  ',,,,,,,,',
  '</script><script>alert(1)</script>',
  '<!--',
  ']]>',
  '&lt;',
  '&a;',
  '{{constructor}}',
  `\${process.exit(7)}`,
  '{currency}{length}',
  '%s%n',
  '*a',
  '&a [*a,*a]',
  '- - - -',
  '!!js/function "x"',
  '!!binary x',
  '<<: *a',
  '? ',
  '{a: {a: {a: ',
  '[[[[[[[[',
  '---\n',
  '...\n',
  '%YAML 9.9\n',
  '| \n  a',
  'WRITTEN(',
  'IF(IF(IF(',
  'SUM(',
  '((((((((',
  '--------1',
  'a.b[c.d[e.f]]',
  '^^^',
  'x'.repeat(5000),
  ' '.repeat(5000),
  '('.repeat(3000),
  '-'.repeat(3000),
];

const piece: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...nasty) },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 20 }) },
  { weight: 1, arbitrary: fc.double().map(String) },
);

export const nastyText: fc.Arbitrary<string> = fc.oneof(
  { weight: 3, arbitrary: piece },
  { weight: 1, arbitrary: fc.array(piece, { maxLength: 4 }).map((parts) => parts.join('')) },
);

/** One way to spoil a text: where (as a share of its length), how, and with what. */
export interface Spoiling {
  readonly how: 'insert' | 'replace' | 'cut' | 'repeat' | 'swap line ends' | 'cell' | 'tail';
  readonly at: number;
  readonly length: number;
  readonly text: string;
}

export const spoiling: fc.Arbitrary<Spoiling> = fc.record({
  how: fc.constantFrom(
    'insert',
    'replace',
    'cut',
    'repeat',
    'swap line ends',
    'cell',
    'cell',
    'cell',
    'tail',
  ),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.nat(60),
  text: nastyText,
});

/** The text with that done to it; a cell is what stands between two separators, or after a colon. */
export function spoiled(text: string, { how, at, length, text: nastier }: Spoiling): string {
  const start = Math.floor(at * text.length);
  switch (how) {
    case 'insert':
      return text.slice(0, start) + nastier + text.slice(start);
    case 'replace':
      return text.slice(0, start) + nastier + text.slice(start + length);
    case 'cut':
      return text.slice(0, start) + text.slice(start + length);
    case 'repeat':
      return text.slice(0, start) + text.slice(start, start + length).repeat(50) + text.slice(start + length);
    case 'swap line ends':
      return text.replace(/\n/g, (end, where: number) => ['\r\n', '\r', end][(where + length) % 3] ?? end);
    case 'tail':
      return text.slice(0, start);
    case 'cell': {
      const from = Math.max(...[',', ';', '\n', ': '].map((mark) => text.lastIndexOf(mark, start))) + 1;
      const rest = text.slice(from);
      const end = rest.search(/[,;\n]/);
      return `${text.slice(0, from)} ${nastier}${end < 0 ? '' : rest.slice(end)}`;
    }
  }
}
