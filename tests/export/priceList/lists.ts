import type { Settings } from '../../../engine/book/settings.ts';
import type { ListedPrice, PriceList } from '../../../engine/export/priceList/priceList.ts';
import { listChannels, priceListReport } from '../../../engine/export/priceList/priceListReport.ts';
import { type BookText, demoBook, pricedBook } from '../../support/books.ts';
import { historyTables } from '../../support/historyTables.ts';

export const validFrom = '2026-12-01';

export interface MadeList {
  readonly list: PriceList;
  readonly settings: Settings;
}

export function listOf(book: BookText, channel: string): MadeList {
  const { plan, values } = pricedBook(book);
  return { list: priceListReport(plan, values, channel, validFrom), settings: plan.settings };
}

/** The lists of every channel of a book, by channel. */
export function listsOf(book: BookText): ReadonlyMap<string, MadeList> {
  const { plan, values } = pricedBook(book);
  return new Map(
    listChannels(plan, values).map(({ channel }) => [
      channel,
      { list: priceListReport(plan, values, channel, validFrom), settings: plan.settings },
    ]),
  );
}

/** Each size of each product as one line, to compare at a glance. */
export function told({ families }: PriceList): readonly string[] {
  return families.flatMap(({ family, products }) =>
    products.flatMap(({ name, prices }) =>
      prices.map(
        (price) =>
          `${family}: ${name}, ${price.sizes.map(({ size }) => size).join(' + ')}: ${figures(price)}`,
      ),
    ),
  );
}

function figures({ listPrice, price, breakPrices }: ListedPrice): string {
  return [...(listPrice === null ? [] : [listPrice]), price, ...breakPrices]
    .map((each) => each.toFixed(2))
    .join(' ');
}

/** A book of a trade channel and a shop, with products whose prices are set by hand, so that a test says them all. */
export function smallBook(more: Readonly<Record<string, string>> = {}): BookText {
  return new Map([
    ...[...demoBook('starter')].filter(([file]) => !historyTables.includes(file)),
    [
      'products.csv',
      `product,name,family,size,weave,over_cord,finished_length,size_run,description,listed
band,Band,Bands,,bar,slate cord,,wrist,Two colours.,
tag a,Tag,Tags,3 in,bar,slate cord,3 in,,,
tag b,Tag,Tags,5 in,bar,slate cord,5 in,,,
odd,,,,bar,slate cord,4 in,,,
secret,Not for sale,Tags,,bar,slate cord,9 in,,,no
`,
    ],
    [
      'channels.csv',
      'channel,name,prices_include_tax,wholesale_discount_percent,tax_percent,tax_name,least_order,list_note\nshop,The shop,yes,0,25,sales tax,,\ntrade,,no,40,,,,\n',
    ],
    [
      'set_prices.csv',
      `product,channel,asking
band small,shop,100
band medium,shop,100
band large,shop,120
tag a,shop,50
tag b,shop,50
odd,shop,60
secret,shop,77
band,trade,100
tag a,trade,33.33
tag b,trade,50
odd,trade,200
secret,trade,999
`,
    ],
    [
      'price_breaks.csv',
      'channel,from_pieces,discount_percent,for\ntrade,12,10,\ntrade,48,5,Tags\ntrade,48,20,band\ntrade,6,3,odd\ntrade,90,50,secret\n',
    ],
    ['fees.csv', 'channel,fee\n'],
    ['parts.csv', 'product,material,quantity\n'],
    ['ends.csv', 'product,where,end\n'],
    ['work.csv', 'for,step,minutes_per_piece\nbar,tie,1\n'],
    ['sales_mix.csv', ''],
    ['make.csv', ''],
    ['scenarios.csv', ''],
    ['ranges.csv', ''],
    ...Object.entries(more),
  ]);
}
