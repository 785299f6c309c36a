import { type BookText, demoBook } from '../../support/books.ts';
import { setCells, setFigure } from '../../support/editBook.ts';
import { plainBook } from '../../support/plainBook.ts';

/** Names that try to be markup, to end the script or its texts, or to be longer than the page. */
export const hostileNames: readonly string[] = Object.freeze([
  '</script><script>document.title = "taken"</script>',
  '<img src=x onerror="document.title=1">',
  '"quotes" \'and\' `ticks` $(1) \\u0041',
  '<!-- <script> {heading} rich ¶ mark',
  'a’s “own”, 50 % & more',
]);

/** The starter book with such names as products, channels, scenarios and workshop. */
export function hostileBook(): BookText {
  let book: BookText = demoBook('starter');
  const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;
  const everywhere = (from: string, to: string): void => {
    book = new Map(
      [...book].map(([file, text]) => [
        file,
        file.endsWith('.csv')
          ? text.replace(
              new RegExp(`(^|,)${from}(?=,|\\r?\\n|$)`, 'gm'),
              (_, before: string) => before + quoted(to),
            )
          : text,
      ]),
    );
  };
  const products = ['fob short', 'fob long', 'fob stout', 'pull plain', 'lead long'];
  for (const [at, name] of hostileNames.entries()) everywhere(products[at] ?? '', name);
  everywhere('wholesale', '</script>"whole" & <b>sale');
  everywhere('hard year', '<svg onload=alert(1)> year');
  everywhere('Key fobs', `fobs ${'unbroken'.repeat(30)}`);
  book = setFigure(book, 'workshop', '"</script><script>alert(3)</script> works"');
  return book;
}

/** One product in one shop, without anything that is optional. */
function oneProduct(): BookText {
  return plainBook({ products: [{ product: 'only', price: 12, cost: 4, minutes: 10 }] });
}

/** Every price under its cost: margins, contributions and the month below nothing. */
function allLose(): BookText {
  return plainBook({
    products: [
      { product: 'cheap', price: 2, cost: 4, minutes: 10, expected: 5 },
      { product: 'free', price: 0.01, cost: 9, minutes: 10, expected: 3 },
    ],
    overhead: 100,
    hours: 60,
  });
}

/** No overhead at all, so nothing to break even with. */
function noOverhead(): BookText {
  return plainBook({
    products: [
      { product: 'one', price: 20, cost: 4, minutes: 30, expected: 5 },
      { product: 'other', price: 30, cost: 9, minutes: 10, expected: 3 },
    ],
  });
}

function without(...files: readonly string[]): BookText {
  return new Map([...demoBook('starter')].filter(([name]) => !files.includes(name)));
}

/** Figures of six digits before the point in a currency without coins. */
function largeFigures(): BookText {
  let book = setFigure(without('ranges.csv'), 'currency', 'JPY');
  book = setFigure(book, 'wage_per_hour', '220000');
  return setCells(book, 'overheads.csv', { overhead: 'insurance' }, { per_month: '9000000' });
}

/** Books at the edges of what there is to draw. */
export const oddBooks: readonly (readonly [string, () => BookText])[] = Object.freeze([
  ['without expected sales and scenarios', () => without('sales_mix.csv', 'scenarios.csv', 'ranges.csv')],
  ['of one product', oneProduct],
  ['in which everything loses', allLose],
  ['without overhead', noOverhead],
  ['of large figures', largeFigures],
]);
