import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../engine/book/readBook.ts';
import { bookSchema } from '../../engine/sheets/bookSchema.ts';
import { assemble } from '../../engine/sheets/readDefinitions.ts';
import { demoBook, priceFiles, shipped } from '../support/books.ts';
import { historyTables } from '../support/historyTables.ts';

const schema = bookSchema(assemble(shipped.sheets).definitions);

function read(changes: Readonly<Record<string, string | undefined>>) {
  const files = demoBook('starter');
  for (const [file, text] of Object.entries(changes)) {
    if (text === undefined) files.delete(file);
    else files.set(file, text);
  }
  return readBook(files, schema, shipped.tables);
}

describe('readBook', () => {
  it('reads a demo book without a word', () => {
    expect(read({}).problems).toEqual([]);
  });

  it('takes missing optional tables for empty ones', () => {
    const { book, problems } = read({
      'parts.csv': undefined,
      'work.csv': undefined,
      'fees.csv': undefined,
      'set_prices.csv': undefined,
      'overheads.csv': undefined,
    });
    expect(problems).toEqual([]);
    expect(book.tables.get('parts')?.rowCount).toBe(0);
  });

  it('has the shipped weaves, and lets the book replace one by key and add others', () => {
    const { book } = read({
      'weaves.csv':
        'weave,family,over_strands,under_strands,pitch_ratio\nBAR,bar,1,1,1.3\nmine,bar,1,1,1.5\n',
    });
    const weaves = book.tables.get('weaves');
    const names = weaves?.columns.get('weave') ?? [];
    expect(names.filter((name) => String(name).toLowerCase() === 'bar')).toEqual(['BAR']);
    expect(weaves?.columns.get('pitch_ratio')?.[names.indexOf('BAR')]).toBe(1.3);
    // A row replaces the shipped one whole: what it leaves blank is blank.
    expect(weaves?.columns.get('layered_pitch_ratio')?.[names.indexOf('BAR')]).toBeNull();
    expect(names).toContain('mine');
    expect(names).toContain('round braid 8');
    expect(weaves?.places[names.indexOf('BAR')]?.file).toBe('weaves.csv');
    expect(weaves?.places[names.indexOf('round braid 8')]?.file).toBe('templates/weaves.csv');
  });

  it('spells references as the names they lead to', () => {
    const files = demoBook('starter');
    const { book, problems } = read({
      'products.csv': (files.get('products.csv') ?? '').replace(',slate cord,', ',Slate CORD,'),
    });
    expect(problems).toEqual([]);
    expect(book.tables.get('products')?.columns.get('over_cord')?.[0]).toBe('slate cord');
  });

  it('says once that a name is unknown, with the rows that use it', () => {
    const files = demoBook('starter');
    const { problems } = read({
      'materials.csv': (files.get('materials.csv') ?? '').replace('moss cord', 'mossy cord'),
      // Each table says it once; here one table uses the name.
      'stock.csv': 'material,length\n',
      ...Object.fromEntries(historyTables.map((file) => [file, ''])),
    });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      code: 'reference-unknown',
      found: 'moss cord',
      where: { file: 'products.csv', row: 5, column: 'over_cord' },
    });
    expect(problems[0]?.message).toContain('rows 10, 15, 16');
  });

  it('lists no more than eight rows that use a name, and counts the rest', () => {
    const rows = Array.from({ length: 12 }, () => 'fob,clasps,1').join('\n');
    const { problems } = read({ 'parts.csv': `product,material,quantity\nfob short,clasps,1\n${rows}\n` });
    const [found] = problems.filter(({ found: name }) => name === 'clasps');
    expect(found?.where).toMatchObject({ file: 'parts.csv', row: 2 });
    expect(found?.message).toContain('It is used in rows 3, 4, 5, 6, 7, 8, 9, 10 and 4 more too.');
  });

  it('takes many figures with the other decimal mark for one slip of the setting', () => {
    const files = demoBook('starter');
    const { problems } = read({
      'book.yaml': (files.get('book.yaml') ?? '').replace('decimal: point', 'decimal: comma'),
    });
    expect(problems.filter(({ code }) => code === 'not-a-number').map(({ where }) => where)).toEqual([
      { file: 'book.yaml', line: 14, column: 'decimal' },
    ]);
  });

  it('counts a fault that fills a column', () => {
    const { problems } = read({
      'overheads.csv': `overhead,per_month\n${Array.from({ length: 40 }, (_, row) => `cost ${row},much\n`).join('')}`,
    });
    expect(problems).toHaveLength(6);
    expect(problems.at(-1)?.message).toMatch(/^35 more rows have the same fault: 7, 8, /);
  });

  it('says nothing of figures where it does not know how they are written', () => {
    const metric = demoBook('metric');
    metric.delete('book.yaml');
    expect(readBook(metric, schema, shipped.tables).problems.map(({ code }) => code)).toEqual([
      'file-missing',
    ]);
  });

  it('gives values or problems for any text in any file, and never throws', () => {
    const files = [...demoBook('starter').keys()];
    const piece = fc.constantFrom(
      'product',
      'material',
      'bar',
      'slate cord',
      ',',
      ';',
      '\n',
      '"',
      ':',
      '- ',
      '#',
      '&a',
      '*a',
      '!x',
      '1',
      '0',
      '-3',
      '1/0',
      '7 1/2 in',
      '%',
      '{',
      '}',
      '\t',
      '\u0000',
      'é',
    );
    fc.assert(
      fc.property(fc.constantFrom(...files), fc.array(piece, { maxLength: 60 }), (file, pieces) => {
        const book = demoBook('starter');
        book.set(file, pieces.join(''));
        const { problems, values } = priceFiles(book);
        expect(values !== undefined || problems.some(({ severity }) => severity === 'error')).toBe(true);
        for (const each of problems) {
          expect(each.message).not.toBe('');
          expect(each.mend).not.toBe('');
        }
      }),
      { numRuns: 60 },
    );
  });

  it('counts more faults than a call takes arguments', () => {
    const rows = 'much,much\n'.repeat(120_000);
    const { problems } = read({ 'overheads.csv': `overhead,per_month\n${rows}` });
    expect(problems.at(-1)?.message).toMatch(/more rows have the same fault/);
    expect(problems.length).toBeLessThan(20);
  }, 20_000);

  it('finds the headings below blank lines', () => {
    const files = demoBook('starter');
    const { problems, book } = read({ 'materials.csv': `\n\n${files.get('materials.csv')}` });
    expect(problems).toEqual([]);
    expect(book.tables.get('materials')?.places[0]).toEqual({ file: 'materials.csv', row: 4 });
  });
});
