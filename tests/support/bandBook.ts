import { type BookText, demoBook } from './books.ts';

/**
 * The starter book with two bands of which a short fob takes 98 in each: cut lengths that no weave, end or spread
 * moves. A thousand feet of tape cost 66.50; a hundred of band 10.30.
 */
export function bandBook(stock: string, packs = 'material,pack,price,from_packs\n'): BookText {
  const demo = demoBook('starter');
  const headings = (demo.get('materials.csv') ?? '').split('\n')[0]?.split(',') ?? [];
  const material = (cells: Readonly<Record<string, string>>): string =>
    headings.map((heading) => cells[heading] ?? '').join(',');
  const more = [
    material({ material: 'band', sold_by: 'length', pack: '100 ft', pack_price: '10.30' }),
    material({ material: 'tape', sold_by: 'length', pack: '1000 ft', pack_price: '66.50' }),
  ];
  const parts = ['fob short,band,98 in', 'fob short,tape,98 in'];
  const longer = (file: string, rows: readonly string[]): [string, string] => [
    file,
    `${(demo.get(file) ?? '').trimEnd()}\n${rows.join('\n')}\n`,
  ];
  return new Map([
    ...demo,
    longer('materials.csv', more),
    longer('parts.csv', parts),
    ['stock.csv', stock],
    ['packs.csv', packs],
  ]);
}
