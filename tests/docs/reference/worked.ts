import { demoBook, pricedBook } from '../../support/books.ts';
import { markdownTable } from './markdown.ts';

/** The piece that pages about prices follow. */
const product = 'wrist medium';
const { plan, values } = pricedBook(demoBook('starter'));
const prices = plan.sheets.find(({ id }) => id === 'prices');
const inputs = (column: string) => prices?.columns.find(({ id }) => id === column)?.inputs ?? [];
const channels = inputs('channel').flatMap((channel, row) =>
  inputs('product')[row] === product ? [{ channel: String(channel), row }] : [],
);

const money =
  (column: string) =>
  (row: number): string =>
    values.number('prices', column, row).toFixed(2);
const less =
  (column: string) =>
  (row: number): string => {
    const shown = (-values.number('prices', column, row)).toFixed(2);
    return shown === '-0.00' ? '0.00' : shown;
  };
const share =
  (column: string) =>
  (row: number): string =>
    `${(100 * values.number('prices', column, row)).toFixed(1)} %`;

type Line = readonly [words: string, shown: (row: number) => string];

function byChannel(lines: readonly Line[]): string {
  return markdownTable(
    [`${product}, USD`, ...channels.map(({ channel }) => channel)],
    lines.map(([words, shown]) => [words, ...channels.map(({ row }) => shown(row))]),
  );
}

/** Floor, target and asking price of one piece: a part of docs/concepts/margin.md. */
export function ladder(): string {
  return byChannel([
    ['unit cost', money('unit_cost')],
    ['fixed cost of a sale', money('selling_fixed')],
    ['fees, share of the net price', share('fee_share')],
    ['margin wanted', share('wanted_margin')],
    ['floor price', money('floor')],
    ['target price', money('target')],
    ['asking price', money('asking')],
    ['net price', money('net')],
    ['profit', money('profit')],
    ['margin', share('margin')],
    ['markup', share('markup')],
  ]);
}

/** From the ticket to the profit: a part of docs/concepts/channels.md. */
export function pocket(): string {
  const discount = (row: number): string =>
    (values.number('prices', 'billed', row) - values.number('prices', 'asking', row)).toFixed(2);
  const variable = (row: number): string =>
    (
      values.number('prices', 'contribution', row) -
      (values.number('prices', 'net', row) -
        values.number('prices', 'fees', row) -
        values.number('prices', 'postage', row))
    ).toFixed(2);
  const overhead = (row: number): string =>
    (values.number('prices', 'profit', row) - values.number('prices', 'contribution', row)).toFixed(2);
  return byChannel([
    ['asking price', money('asking')],
    ['wholesale discount', discount],
    ['tax inside', less('tax_inside')],
    ['**net price**', money('net')],
    ['fees', less('fees')],
    ['postage that the buyer does not pay', less('postage')],
    ['materials and labour', variable],
    ['**contribution**', money('contribution')],
    ['overhead', overhead],
    ['**profit**', money('profit')],
  ]);
}
