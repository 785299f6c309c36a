import type { Settings } from '../../book/settings.ts';
import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';
import {
  hasSizes,
  listSentences,
  listTitle,
  moneyText,
  type PriceColumn,
  priceColumns,
  sizeWords,
  validFrom,
} from './listWords.ts';
import type { ListedFamily, ListedPrice, ListedProduct, ListedSize, PriceList } from './priceList.ts';
import { priceListStyle } from './priceListStyle.ts';

/** Longer names would push everything else off the page. */
const mostName = 200;
/** More columns of prices than this stand better on paper laid across. */
const mostUpright = 7;

/** Nothing is fetched and nothing runs: styles stand in the page. */
const policy = "default-src 'none'; style-src 'unsafe-inline'";

/** A price list as one HTML file that needs nothing beside it, to look at and to print on A4 or Letter. */
export function priceListPage(list: PriceList, settings: Settings): string {
  const columns = priceColumns(list, settings);
  const title = [listTitle(list), list.workshop].filter((each) => each !== '').join(': ');
  const across = columns.length > mostUpright;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${named(title)}</title>
<style>${priceListStyle}${across ? '@page { size: landscape; }' : ''}</style>
</head>
<body>
<main${across ? ' class="across"' : ''}>
<header>
<div>
${list.workshop === '' ? '' : `<p class="workshop"><bdi>${named(list.workshop)}</bdi></p>\n`}<h1>${listTitle(list)}</h1>
</div>
<div class="whom">
${list.channel === '' ? '' : `<p><bdi>${named(list.channel)}</bdi></p>\n`}<p>${validFrom(list)}</p>
</div>
</header>
<ul class="terms">
${listSentences(list, settings)
  .map((each) => `<li><bdi>${escaped(each)}</bdi></li>`)
  .join('\n')}
</ul>
${table(list, columns, settings)}
${terms(list)}<section class="cautions" aria-label="Cautions">
<ul>
${list.cautions.map(({ about, says }) => `<li><b>${escaped(about)}:</b> ${escaped(says)}</li>`).join('\n')}
</ul>
</section>
</main>
</body>
</html>
`;
}

function named(text: string): string {
  return escaped(shorten(text, mostName));
}

/** Lines of what a maker wrote stay lines. */
function lines(text: string): string {
  return escaped(text).replace(/\r\n|\r|\n/g, '<br>');
}

function terms({ terms: text }: PriceList): string {
  return text === '' ? '' : `<p class="note"><bdi>${lines(text)}</bdi></p>\n`;
}

function table(list: PriceList, columns: readonly PriceColumn[], settings: Settings): string {
  const sized = hasSizes(list);
  const headings = [
    '<th scope="col">Product</th>',
    ...(sized ? ['<th scope="col" class="sizes">Size</th>'] : []),
    ...columns.map(({ heading }) => `<th scope="col">${escaped(heading)}</th>`),
  ];
  const rows = list.families.map((each) => familyRows(each, columns, sized, headings.length, settings));
  return `<div class="scroll">
<table>
<thead><tr>${headings.join('')}</tr></thead>
${rows.join('\n')}
</table>
</div>`;
}

function familyRows(
  { family, products }: ListedFamily,
  columns: readonly PriceColumn[],
  sized: boolean,
  width: number,
  settings: Settings,
): string {
  const heading =
    family === ''
      ? ''
      : `<tbody class="family"><tr><th scope="rowgroup" colspan="${width}"><bdi>${named(family)}</bdi></th></tr></tbody>\n`;
  return heading + products.map((each) => productRows(each, columns, sized, settings)).join('\n');
}

/** One entry: its name once, then a line for each price. */
function productRows(
  { name, description, prices }: ListedProduct,
  columns: readonly PriceColumn[],
  sized: boolean,
  settings: Settings,
): string {
  const about = description === '' ? '' : `<span class="about"><bdi>${lines(description)}</bdi></span>`;
  const head = `<th scope="rowgroup"${prices.length > 1 ? ` rowspan="${prices.length}"` : ''}><b><bdi>${named(name)}</bdi></b>${about}</th>`;
  const rows = prices.map(
    (row, at) =>
      `<tr>${at === 0 ? head : ''}${sized ? `<td class="sizes">${sizes(row.sizes, settings)}</td>` : ''}${columns.map((column) => priceCell(row, column, settings)).join('')}</tr>`,
  );
  return `<tbody>${rows.join('\n')}</tbody>`;
}

function sizes(all: readonly ListedSize[], settings: Settings): string {
  return all
    .map((each) => {
      const { size, fits } = sizeWords(each, settings);
      const measure = fits === '' ? '' : `<i>${escaped(fits)}</i>`;
      return size === '' && measure === ''
        ? ''
        : `<span><bdi>${named(size)}</bdi>${size === '' || measure === '' ? '' : ' '}${measure}</span>`;
    })
    .join('');
}

function priceCell(row: ListedPrice, column: PriceColumn, settings: Settings): string {
  const price = column.price(row);
  const soft = column.isAsBefore(row) ? ' as-before' : '';
  return `<td class="${column.kind}${soft}" data-of="${escaped(column.heading)}">${price === null ? '' : moneyText(price, settings)}</td>`;
}
