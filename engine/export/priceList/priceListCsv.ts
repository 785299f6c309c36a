import { csvCell, plainText } from '../../book/files/csvCells.ts';
import type { Settings } from '../../book/settings.ts';
import { hasSizes, listTitle, priceColumns, sizeWords, taxSentence } from './listWords.ts';
import type { PriceList } from './priceList.ts';

/** RFC 4180 separates with commas and ends lines with CRLF. */
const mark = ',';
const lineEnd = '\r\n';
/** Spreadsheet programs take a file without it for one of their own character set. */
const byteOrderMark = '\uFEFF';

/**
 * A price list as CSV by RFC 4180, in UTF-8, a line a size: whatever the book's own notation, prices have a decimal
 * point and nothing else, and the date is an ISO date, as machines read them.
 */
export function priceListCsv(list: PriceList, settings: Settings): string {
  const columns = priceColumns(list, settings);
  const sized = hasSizes(list);
  const heading = [
    'Family',
    'Product',
    'Description',
    ...(sized ? ['Size', 'Body measure'] : []),
    ...columns.map((column) => plainText(`${column.heading}, ${list.currency}`)),
    'Tax',
    'Valid from',
    plainText(listTitle(list)),
  ];
  const rows = list.families.flatMap(({ family, products }) =>
    products.flatMap(({ name, description, prices }) =>
      prices.flatMap((price) =>
        price.sizes.map((each) => {
          const { size, fits } = sizeWords(each, settings);
          return [
            plainText(family),
            plainText(name),
            plainText(description),
            ...(sized ? [plainText(size), plainText(fits)] : []),
            ...columns.map((column) => column.price(price)?.toFixed(settings.currencyDigits) ?? ''),
            plainText(taxSentence(list, settings)),
            list.validFrom,
            plainText([list.workshop, list.channel].filter((each) => each !== '').join(': ')),
          ];
        }),
      ),
    ),
  );
  const lines = [heading, ...rows].map((cells) => cells.map((cell) => csvCell(cell, mark, false)).join(mark));
  return byteOrderMark + lines.map((line) => line + lineEnd).join('');
}
