import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editYaml } from '../../../engine/book/files/editYaml.ts';
import { parseYaml } from '../../../engine/book/files/yamlFile.ts';

const book = `# A book.
wage_per_hour: 22.00   # before on-costs

margin: "24 %"
waste:
note: a # remark
last: 1
`;

describe('one line of a book.yaml', () => {
  test('gets another figure, and remarks and blank lines stay', () => {
    expect(editYaml(book, 'wage_per_hour', '23.50')).toBe(book.replace('22.00', '23.50'));
    expect(editYaml(book, 'margin', '26')).toBe(book.replace('"24 %"', '26'));
    expect(editYaml(book, 'note', 'b')).toBe(book.replace('note: a', 'note: b'));
    expect(editYaml(book.replaceAll('\n', '\r\n'), 'last', '2')).toBe(
      book.replace('last: 1', 'last: 2').replaceAll('\n', '\r\n'),
    );
  });

  test('may have had nothing after its colon, and may be left with nothing', () => {
    expect(editYaml(book, 'waste', '4')).toBe(book.replace('waste:', 'waste: 4'));
    expect(editYaml('waste: # of cord\n', 'waste', '4')).toBe('waste: 4 # of cord\n');
    expect(parseYaml('book.yaml', editYaml(book, 'wage_per_hour', '')).text('wage_per_hour')).toBeUndefined();
  });

  test('is added at the end where it is missing, also without a line end there', () => {
    expect(editYaml(book, 'tax_percent', '6')).toBe(`${book}tax_percent: 6\n`);
    expect(editYaml(book.trimEnd(), 'tax_percent', '6')).toBe(`${book}tax_percent: 6\n`);
    expect(editYaml('', 'tax_percent', '6')).toBe('tax_percent: 6\n');
    expect(editYaml('{ a: 1 }', 'b', '2')).toBe('{ a: 1, b: 2}');
    expect(editYaml('{}', 'b', '2')).toBe('{b: 2}');
  });

  test('reads as what was written, whatever it is, and so do all others', () => {
    const text = fc
      .oneof(
        fc.string(),
        fc.constantFrom('yes', '8 in', '5/32"', '- a', '# b', 'a: b', '*c', '&d', '12,50', '%', "'"),
      )
      .map((each) => each.trim())
      .filter((each) => each !== '');
    fc.assert(
      fc.property(text, (value) => {
        const file = parseYaml('book.yaml', editYaml(book, 'margin', value));
        expect(file.problems).toEqual([]);
        expect(file.text('margin')).toBe(value);
        expect([file.text('wage_per_hour'), file.text('note'), file.text('last')]).toEqual([
          '22.00',
          'a',
          '1',
        ]);
      }),
    );
  });
});
