import type { BookText } from './books.ts';

/** Rows of a table as a check has them. */
export type Rows = readonly (readonly (string | number)[])[];

/** What happened in a book of one product, `thing`, made of one piece of the material `blank`. */
export interface Trade {
  /** Cost of a blank by the book, its standard price. */
  readonly blankPrice?: number;
  /** Blanks that one thing should take; one where left out. */
  readonly blanksEach?: number | string;
  readonly wastePercent?: number;
  readonly minutes?: number;
  readonly wage?: number;
  readonly overhead?: number;
  readonly hours?: number;
  readonly settings?: string;
  readonly stocktakes?: Rows;
  readonly purchases?: Rows;
  readonly made?: Rows;
  readonly used?: Rows;
  readonly sales?: Rows;
  /** Other tables, whole. */
  readonly more?: Readonly<Record<string, string>>;
}

const table = (heading: string, rows: Rows): string =>
  `${[heading, ...rows.map((row) => row.join(','))].join('\n')}\n`;

/** A book for checks of stock: cord costs nothing and is there in plenty, no tax, no fees. */
export function tradeBook(trade: Trade): BookText {
  const { blankPrice = 1, blanksEach = 1, wastePercent = 0, minutes = 0, wage = 0 } = trade;
  const some = (name: string, heading: string, rows: Rows | undefined): [string, string][] =>
    rows === undefined ? [] : [[name, table(heading, rows)]];
  return new Map([
    [
      'book.yaml',
      `currency: USD\nwage_per_hour: ${wage}\nbench_hours_per_month: ${trade.hours ?? 1}\nwanted_margin_percent: 0\n${trade.settings ?? ''}`,
    ],
    [
      'materials.csv',
      `material,sold_by,diameter,pack,pack_price,waste_percent\ncord,length,4,100,0,\nblank,piece,,1,${blankPrice},${wastePercent}\n`,
    ],
    ['products.csv', 'product,weave,over_cord,finished_length\nthing,bar,cord,1\n'],
    ['parts.csv', `product,material,quantity\nthing,blank,${blanksEach}\n`],
    ['work.csv', `for,step,minutes_per_piece\nthing,make,${minutes}\n`],
    ['overheads.csv', `overhead,per_month\nall,${trade.overhead ?? 0}\n`],
    ['channels.csv', 'channel\nshop\n'],
    [
      'stocktakes.csv',
      table('date,item,quantity,value', [['2019-01-01', 'cord', 1_000_000, 0], ...(trade.stocktakes ?? [])]),
    ],
    ...some('purchases.csv', 'date,invoice,material,quantity,amount', trade.purchases),
    ...some('made.csv', 'date,product,pieces,bench_hours,wage_per_hour', trade.made),
    ...some('used.csv', 'date,item,quantity,reason,product', trade.used),
    ...some('sales.csv', 'date,channel,product,pieces,takings', trade.sales),
    ...Object.entries(trade.more ?? {}),
  ]);
}
