import { describe, expect, it } from 'vitest';
import { readBook } from '../../../engine/book/readBook.ts';
import { bookSchema } from '../../../engine/sheets/bookSchema.ts';
import { assemble } from '../../../engine/sheets/readDefinitions.ts';
import { priceFiles, shipped } from '../../support/books.ts';

const schema = bookSchema(assemble(shipped.sheets).definitions);

const plain: Readonly<Record<string, string>> = {
  'book.yaml': 'currency: USD\nwage_per_hour: 20\nbench_hours_per_month: 80\nwanted_margin_percent: 20\n',
  'materials.csv':
    'material,sold_by,diameter,pack,pack_price\ncord,length,4 mm,"1,000 ft",60\nbuckle,piece,,10,5\n',
  'channels.csv': 'channel\nstall\n',
  'sizes.csv': 'run,size,measure\nneck,small,10 in\nneck,medium,14 in\nneck,large,18 in\n',
  'products.csv':
    'product,size_run,size,weave,over_cord,finished_length\nfob,,3 in,bar,cord,3 in\ncollar,neck,,bar,cord,12 in\n',
  'parts.csv': 'product,material,quantity\nfob,buckle,1\ncollar,buckle,1\n',
  'work.csv': 'for,step,minutes_per_piece\ncollar,check,2\nbar,tie,9\n',
};

function files(changes: Readonly<Record<string, string>> = {}): Map<string, string> {
  return new Map(Object.entries({ ...plain, ...changes }));
}

function read(changes: Readonly<Record<string, string>> = {}) {
  const { book, problems } = readBook(files(changes), schema, shipped.tables);
  const column = (table: string, id: string) => [...(book.tables.get(table)?.columns.get(id) ?? [])];
  return { problems, column, places: (table: string) => book.tables.get(table)?.places ?? [] };
}

describe('sizeRuns', () => {
  it('makes one product a size, in the order of the run and in the place of the row', () => {
    const { problems, column, places } = read();
    expect(problems).toEqual([]);
    expect(column('products', 'product')).toEqual(['fob', 'collar small', 'collar medium', 'collar large']);
    expect(column('products', 'size')).toEqual(['3 in', 'small', 'medium', 'large']);
    expect(column('products', 'sized')).toEqual([null, 'neck small', 'neck medium', 'neck large']);
    expect(places('products').map(({ row }) => row)).toEqual([2, 3, 3, 3]);
  });

  it('says of every size what other tables say of the product', () => {
    const { column, places } = read({
      'set_prices.csv': 'product,channel,asking\nCollar,stall,20\n',
    });
    expect(column('parts', 'product')).toEqual(['fob', 'collar small', 'collar medium', 'collar large']);
    expect(column('work', 'for')).toEqual(['collar small', 'collar medium', 'collar large', 'bar']);
    expect(column('set_prices', 'product')).toEqual(['collar small', 'collar medium', 'collar large']);
    expect(places('work').map(({ row }) => row)).toEqual([2, 2, 2, 3]);
  });

  it('lets a row of the size win over that of the product, for the same key only', () => {
    const { problems, column } = read({
      'parts.csv':
        'product,material,quantity\ncollar,buckle,1\ncollar large,Buckle,2\ncollar large,cord,1 ft\nfob,buckle,3\n',
    });
    expect(problems).toEqual([]);
    const products = column('parts', 'product');
    const quantities = column('parts', 'quantity');
    expect(products.map((name, row) => `${name}: ${quantities[row]}`)).toEqual([
      'collar small: 1',
      'collar medium: 1',
      'collar large: 2',
      'collar large: 1',
      'fob: 3',
    ]);
  });

  it('calls a size without a name by its measure as it is written', () => {
    const { problems, column } = read({
      'sizes.csv': 'run,measure (cm)\nneck,6 1/2 in\nneck,18\n',
    });
    expect(problems).toEqual([]);
    expect(column('products', 'product').slice(1)).toEqual(['collar 6 1/2 in', 'collar 18']);
    expect(column('sizes', 'measure')).toEqual([6.5, 18 / 2.54]);
  });

  it('takes capitals for nothing, and spells the run as sizes.csv does', () => {
    const { problems, column } = read({
      'products.csv': 'product,size_run,weave,over_cord,finished_length\nCollar,NECK,bar,cord,12 in\n',
      'parts.csv': 'product,material,quantity\nCOLLAR,buckle,1\ncollar SMALL,buckle,4\n',
      'work.csv': 'for,step\nbar,tie\n',
    });
    expect(problems).toEqual([]);
    expect(column('products', 'size_run')).toEqual(['neck', 'neck', 'neck']);
    expect(column('parts', 'product')).toEqual(['Collar medium', 'Collar large', 'Collar small']);
    expect(column('parts', 'quantity')).toEqual([1, 1, 4]);
  });

  it('tells a fault of the row once, not once a size', () => {
    const { problems } = read({
      'products.csv':
        'product,size_run,weave,over_cord,finished_length\nfob,,bar,cord,3 in\ncollar,neck,barr,chord,12 in\n',
      'parts.csv': 'product,material,quantity\ncollar,buckle,1 ft\n',
      'work.csv': 'for,step\n',
    });
    expect(problems.map(({ code, where }) => [code, where.file, where.row, where.column])).toEqual([
      ['reference-unknown', 'products.csv', 3, 'weave'],
      ['reference-unknown', 'products.csv', 3, 'over_cord'],
      ['wrong-unit', 'parts.csv', 2, 'quantity'],
    ]);
    expect(problems.map(({ message }) => message).join()).not.toContain('It is used in');
  });

  it('tells once what a check finds in every size, and names the other sizes', () => {
    const { problems } = priceFiles(
      files({
        'products.csv':
          'product,size_run,weave,over_cord,finished_length,hitches,slot_width\nfob,,bar,cord,3 in,,\ncollar,neck,bar,cord,12 in,2,6 mm\n',
      }),
    );
    const slot = problems.filter(({ message }) => message.includes('fit the slot'));
    expect(slot).toHaveLength(1);
    expect(slot[0]?.where).toMatchObject({ file: 'products.csv', row: 3 });
    expect(slot[0]?.message).toMatch(/Product collar small: .*collar medium, collar large\.$/);
  });

  it('still tells of each channel where a price is under its floor', () => {
    const { problems } = priceFiles(
      files({
        'channels.csv': 'channel\nstall\nshop\n',
        'set_prices.csv': 'product,channel,asking\ncollar,stall,0.10\ncollar,shop,0.10\n',
      }),
    );
    const floors = problems.map(({ message }) => /^Channel (\w+), product collar small/.exec(message)?.[1]);
    expect(floors.filter((channel) => channel !== undefined)).toEqual(['stall', 'shop']);
  });

  it('does not spread a row of a table in which a product is one thing that happened', () => {
    const own = {
      'sheets/sold.yaml':
        'sheet: sold\ntitle: Sold\nanswers: What was sold.\nrows: { table: sold }\nkey: sale\ncolumns:\n  - { id: sale, heading: Sale, kind: key }\n  - { id: product, heading: Product, kind: ref, of: products }\n',
      'sold.csv': 'sale,product\nfirst,collar small\nsecond,collar\n',
    };
    const { problems } = priceFiles(files(own));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      code: 'reference-unknown',
      where: { file: 'sold.csv', row: 3 },
      accepted: 'one of collar small, collar medium, collar large',
    });
  });

  it('refuses a size that another product is called by, whichever row comes first', () => {
    const rows = ['collar,neck,bar,cord,12 in', 'Collar Large,,bar,cord,20 in'];
    for (const order of [rows, [...rows].reverse()]) {
      const { problems } = read({
        'products.csv': `product,size_run,weave,over_cord,finished_length\n${order.join('\n')}\n`,
        'parts.csv': 'product,material,quantity\ncollar large,buckle,1\n',
        'work.csv': 'for,step\n',
      });
      expect(problems.map(({ code, found }) => [code, found])).toEqual([['key-twice', 'Collar Large']]);
    }
  });

  it('names all sizes that stand already, and the rows in which they do', () => {
    const { problems } = read({
      'products.csv':
        'product,size_run,weave,over_cord,finished_length\ncollar small,,bar,cord,9 in\ncollar,neck,bar,cord,12 in\ncollar large,,bar,cord,20 in\n',
      'parts.csv': 'product,material,quantity\n',
      'work.csv': 'for,step\n',
    });
    expect(problems.map(({ message }) => message)).toEqual([
      '“collar small”, “collar large” are sizes of “collar” and stand in rows 2, 4 already.',
    ]);
  });

  it('tells of a product row that stands twice without a word on its sizes', () => {
    const row = 'collar,neck,bar,cord,12 in\n';
    const { problems } = read({
      'products.csv': `product,size_run,weave,over_cord,finished_length\n${row}${row}`,
      'parts.csv': 'product,material,quantity\ncollar,buckle,1\n',
    });
    expect(problems.map(({ code, where }) => [code, where.row])).toEqual([['key-twice', 3]]);
  });

  it('refuses work for a name that is both a product with sizes and a weave', () => {
    const { problems } = read({
      'products.csv': 'product,size_run,weave,over_cord,finished_length\nbar,neck,bar,cord,12 in\n',
      'parts.csv': 'product,material,quantity\n',
      'work.csv': 'for,step\nbar,tie\nbar,trim\n',
    });
    expect(problems.map(({ code, where }) => [code, where.file, where.row])).toEqual([
      ['key-twice', 'work.csv', 2],
    ]);
  });

  it('calls no run unknown where sizes.csv itself cannot be read', () => {
    const { problems } = read({ 'sizes.csv': 'run,size,measure\nneck,"small,10 in\n' });
    expect(problems.map(({ code }) => code)).toEqual(['csv-syntax']);
  });
});
