import { describe, expect, it } from 'vitest';
import { pricedBook, priceFiles } from '../support/books.ts';

/** A little metric book of one strap; tables may be replaced or added. */
function strap(more: Readonly<Record<string, string>> = {}): ReadonlyMap<string, string> {
  return new Map(
    Object.entries({
      'book.yaml':
        'currency: EUR\nlength_unit: mm\nwage_per_hour: 0\nbench_hours_per_month: 1\nwanted_margin_percent: 0\ncut_step: 1 mm\nspare_per_working_end: 0 mm\ntrim_per_end: 0 mm\njoin_overlap: 0 mm\n',
      'materials.csv':
        'material,sold_by,diameter,pack,pack_price,cord_kind,weight\nred,length,4,1 m,1,,10 g/m\nblue,length,2,1 m,1,type III,\nring,piece,,1,1,,7 g\nbox,piece,,1,1,,\n',
      'products.csv':
        'product,weave,over_cord,under_cord,finished_length\nstrap,bar,red,blue,100\nplain,bar,red,,100\n',
      'channels.csv': 'channel,pieces_per_order,packing_weight\nshop,3,20 g\n',
      'parts.csv': 'product,material,quantity\nstrap,ring,2\n',
      ...more,
    }),
  );
}

/** A figure of the cut of one product and role. */
function cut(book: ReadonlyMap<string, string>, column: string, role: string, product = 'strap'): number {
  const { plan, values } = pricedBook(book);
  const sheet = plan.sheets.find(({ id }) => id === 'cuts');
  for (let row = 0; row < (sheet?.rowCount ?? 0); row += 1) {
    if (values.get('cuts', 'product', row) === product && values.get('cuts', 'role', row) === role)
      return values.number('cuts', column, row);
  }
  return Number.NaN;
}

const ends = (...rows: string[]) =>
  strap({ 'ends.csv': ['product,where,end,count,size,role', ...rows].join('\n') });

describe('ends', () => {
  it('count for the cord they are made in, in its own diameter', () => {
    // 13 diameters of a 2 mm cord, twice; 29 diameters of a 4 mm one and twice 50 mm.
    const book = ends('strap,tip,overhand knot,2,,under', 'strap,wrist,overhand loop,,50,over');
    expect(cut(book, 'in_ends', 'under')).toBeCloseTo(2 * 13 * 2, 9);
    expect(cut(book, 'in_ends', 'over')).toBeCloseTo(29 * 4 + 2 * 50, 9);
    expect(cut(book, 'in_ends', 'core')).toBe(0);
    expect(cut(book, 'in_ends', 'over', 'plain')).toBe(0);
  });

  it('lengthen what is cut by just that', () => {
    const book = ends('strap,wrist,joined eye,1,50,over');
    const more = cut(book, 'in_piece', 'over') - cut(strap(), 'in_piece', 'over');
    expect(more).toBeCloseTo(2 * 50 + 3.14 * 4, 9);
    expect(cut(book, 'cut_length', 'over') - cut(strap(), 'cut_length', 'over')).toBeCloseTo(more, -0.5);
  });

  it('stand in the core where no cord is named and there is one, and else in the over cord', () => {
    expect(cut(ends('strap,tip,overhand knot'), 'in_ends', 'core')).toBeCloseTo(13 * 4, 9);
    const braid = new Map([
      ...ends('strap,tip,overhand knot'),
      [
        'products.csv',
        'product,weave,over_cord,under_cord,finished_length\nstrap,round braid 4,red,blue,100\n',
      ],
      ['parts.csv', 'product,material,quantity\n'],
    ]);
    expect(cut(braid, 'in_ends', 'over')).toBeCloseTo(13 * 4, 9);
  });

  it.each([
    ['strap,tip,overhand knot,,,upper over', 'has no upper over cord'],
    ['strap,tip,overhand knot,,,stripe', 'has no stripe cord'],
    ['strap,tip,overhand knot,,,band', 'has no band cord'],
    ['strap,tip,overhand knot,1,50,', 'the size of overhand knot is 50'],
    ['strap,tip,joined eye,1,,', 'the size of joined eye is 0'],
    ['strap,tip,granny,,,', '“granny” is not in end_kinds'],
    ['strp,tip,overhand knot,,,', '“strp” is not in products'],
  ])('are reported where they do not suit: %s', (row, says) => {
    expect(
      priceFiles(ends(row))
        .problems.map(({ message }) => message)
        .join('\n'),
    ).toContain(says);
  });

  it('may be the maker’s own', () => {
    const book = new Map([
      ...ends('strap,tip,monkey,1,,under'),
      ['end_kinds.csv', 'end,cord_diameters\nmonkey,40\n'],
    ]);
    expect(cut(book, 'in_ends', 'under')).toBeCloseTo(80, 9);
  });
});

describe('the weight of a piece', () => {
  const figures = (book: ReadonlyMap<string, string>) => {
    const { values } = pricedBook(book);
    return {
      weight: values.number('costs', 'weight', 0),
      unweighed: values.get('costs', 'unweighed', 0),
      from: values.get('costs', 'weight_from', 0),
      order: values.get('prices', 'order_weight', 0),
    };
  };

  it('is that of the cord that stays in it and of its parts', () => {
    const metres = (role: string) => cut(strap(), 'in_pieces', role) / 1000;
    // Type III, MIL-C-5040H: 225 ft to the pound at least.
    const expected =
      (metres('core') + metres('over')) * 10 + (metres('under') * 453.59237) / (225 * 0.3048) + 2 * 7;
    const { weight, unweighed, from, order } = figures(strap());
    expect(weight).toBeCloseTo(expected, 9);
    expect([unweighed, from]).toEqual([0, 'at most, by specification']);
    // Three in an order, and 20 g of packing.
    expect(order).toBeCloseTo(3 * expected + 20, 9);
  });

  it('is weighed where every material was', () => {
    const book = new Map([
      ...strap(),
      ['products.csv', 'product,weave,over_cord,finished_length\nstrap,bar,red,100\n'],
    ]);
    expect(figures(book).from).toBe('weighed');
  });

  it('says what it leaves out, and promises no parcel then', () => {
    const book = strap({ 'parts.csv': 'product,material,quantity\nstrap,ring,2\nstrap,box,1\n' });
    expect(figures(book)).toMatchObject({ unweighed: 1, from: 'incomplete', order: '' });
    expect(figures(book).weight).toBeCloseTo(figures(strap()).weight, 9);
  });

  it('is not known where nothing was weighed', () => {
    const book = strap({
      'materials.csv':
        'material,sold_by,diameter,pack,pack_price\nred,length,4,1 m,1\nblue,length,2,1 m,1\nring,piece,,1,1\n',
    });
    expect(figures(book)).toMatchObject({ weight: 0, unweighed: 4, from: 'not known', order: '' });
  });

  it('takes the maker’s own cord kind for about what it says', () => {
    const book = strap({ 'cord_kinds.csv': 'cord_kind,weight,weight_is\ntype III,5 g/m,about\n' });
    expect(figures(book).from).toBe('about, by its kind');
  });

  it('has a look at a kind that cannot be that of the material', () => {
    const told = (book: ReadonlyMap<string, string>) =>
      priceFiles(book).problems.map(({ message }) => message);
    const doubt = 'Material blue is 2.00 mm thick, which cord of the kind type III hardly is.';
    expect(told(strap())).toContain(doubt);
    const own = strap({ 'cord_kinds.csv': 'cord_kind,weight,weight_is\ntype III,5 g/m,about\n' });
    expect(told(own)).not.toContain(doubt);
  });
});

it('ends of a product with a size run stand in every size, unless a size has its own', () => {
  const book = new Map([
    ...strap({
      'ends.csv':
        'product,where,end,count,size,role\nband,tip,overhand knot,1,,over\nband long,tip,overhand knot,3,,over\n',
      'parts.csv': 'product,material,quantity\n',
      'sizes.csv': 'run,size,measure\nwrist,short,150\nwrist,long,200\n',
      'products.csv': 'product,weave,over_cord,size_run\nband,bar,red,wrist\n',
    }),
  ]);
  expect(cut(book, 'in_ends', 'over', 'band short')).toBeCloseTo(13 * 4, 9);
  expect(cut(book, 'in_ends', 'over', 'band long')).toBeCloseTo(3 * 13 * 4, 9);
});
