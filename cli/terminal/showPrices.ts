import {
  type ChannelPrice,
  convertWeight,
  type PriceReport,
  type ProductPrice,
  showNumber,
  showValue,
} from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import { count } from './showProblems.ts';
import { type TableColumn, type TableRow, table, widest, wrap } from './table.ts';

/** Stands after a price that is under its floor; the line under the table says so in words. */
const underFloorMark = '!';
/** Stands after a price that was set by hand. */
const byHandMark = '*';
/** Stands after a weight that leaves out what has none. */
const incompleteMark = '+';

/** The whole line: unit cost, and for each channel the asking price and its margin. */
export function showPrices(report: PriceReport, how: ShowHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const marks = marksOf(report);
  const parts = [`${summary(report)}\n`];
  for (const channels of channelGroups(report, how)) {
    const columns: TableColumn[] = [
      { heading: 'Product', align: 'left' },
      { heading: `Unit cost, ${report.currency}`, align: 'right' },
      ...channels.flatMap((each): TableColumn[] => [
        { heading: `${capital(each.channel)}: asks`, align: 'right' },
        { heading: 'Margin', align: 'right' },
      ]),
    ];
    const rows = byFamily(report.products, (product) => [
      product.product,
      money(product.unitCost),
      ...channels.flatMap(({ channel }) => {
        const price = product.channels.find((each) => each.channel === channel);
        return price === undefined
          ? ['', '']
          : [`${money(price.asking)}${marks(price)}`, showValue(price.margin, 'percent', how.settings)];
      }),
    ]);
    parts.push(table(columns, rows, how.width, how.style));
  }
  parts.push(
    [...legend(report), bestPerHour(report, how), taxLine(report)].filter((line) => line !== '').join('\n'),
  );
  parts.push(
    `Next: ${how.command} price ${how.book} --channel ${report.channels[0]?.channel ?? ''}   one channel in full\n      ${how.command} workbook ${how.book}   the same as a workbook with live formulas`,
  );
  return `${parts.join('\n').trimEnd()}\n`;
}

/** The same in sentences, a line a product, for screen readers and pipes: no columns, no marks. */
export function tellPrices(report: PriceReport, how: ShowHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const told = (price: ChannelPrice): string =>
    [
      `${price.channel} asks ${money(price.asking)}, margin ${showValue(price.margin, 'percent', how.settings)}`,
      ...(price.setByHand ? ['set by hand'] : []),
      ...(price.underFloor ? ['under its floor'] : []),
    ].join(', ');
  const lines = report.products.map(
    (product) =>
      `${product.product}: unit cost ${money(product.unitCost)}; ${product.channels.map(told).join('; ')}.`,
  );
  return `${[`${summary(report)} Amounts in ${report.currency}.`, ...lines, bestPerHour(report, how), taxLine(report)].filter((line) => line !== '').join('\n')}\n`;
}

/** What each product costs to make, and of what. */
export function showCosts(report: PriceReport, how: ShowHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const columns: TableColumn[] = [
    { heading: 'Product', align: 'left' },
    ...['Mate- rials', 'Labour', 'Overhead', 'Unit cost', 'Vari- able cost', 'Bench min'].map(
      (heading): TableColumn => ({ heading, align: 'right' }),
    ),
    { heading: `Weight, ${how.settings.weightUnit}`, align: 'right' },
    { heading: 'Cord', align: 'left' },
  ];
  const anyIncomplete = report.products.some(isIncomplete);
  const weight = (product: ProductPrice): string => {
    if (product.weightG === null) return '-'.padEnd(anyIncomplete ? 2 : 1);
    const shown = showValue(
      convertWeight(product.weightG, 'g', how.settings.weightUnit),
      'weight',
      how.settings,
    );
    return `${shown}${isIncomplete(product) ? incompleteMark : anyIncomplete ? ' ' : ''}`;
  };
  const rows = byFamily(report.products, (product) => [
    product.product,
    money(product.materials),
    money(product.labour),
    money(product.overhead),
    money(product.unitCost),
    money(product.variableCost),
    showValue(product.benchMinutes, 'minutes', how.settings),
    weight(product),
    product.cordNumbers,
  ]);
  const first = `${count(report.products.length, 'product')}; what one piece costs, ${report.currency}.\n`;
  const last = [
    'Unit cost = materials + labour + overhead. Variable cost leaves overhead out: it is what one piece more costs.',
    ...weightLegend(report),
  ].flatMap((line) => wrap(line, how.width));
  return `${[first, table(columns, rows, how.width, how.style), ...last].join('\n').trimEnd()}\n`;
}

function isIncomplete(product: ProductPrice): boolean {
  return product.weightG !== null && product.unweighed > 0;
}

/** What the weights rest on, and what they leave out. */
function weightLegend(report: PriceReport): string[] {
  const { products } = report;
  if (products.every(({ weightG }) => weightG === null))
    return ['Weight: no material has one yet. Write cord_kind or weight in materials.csv.'];
  const incomplete = products.filter(isIncomplete).map(({ product }) => product);
  const names = incomplete.slice(0, 6).join(', ');
  const more = incomplete.length > 6 ? ` and ${incomplete.length - 6} more` : '';
  return [
    products.some(({ weightFrom }) => weightFrom.startsWith('at most'))
      ? 'Weight: at most, where a cord is weighed by its specification. Your own scales tell more: weight in materials.csv.'
      : '',
    incomplete.length === 0
      ? ''
      : `${incompleteMark} and more: a material of it has no weight yet (${names}${more}).`,
    products.some(({ weightG }) => weightG === null) ? '- no material of it has a weight yet.' : '',
  ].filter((line) => line !== '');
}

/** One channel in full. */
export function showChannel(report: PriceReport, channel: string, how: ShowHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const share = (value: number): string => showValue(value, 'percent', how.settings);
  const marks = marksOf(report);
  const columns: TableColumn[] = [
    { heading: 'Product', align: 'left' },
    ...[
      'Unit cost',
      'Floor',
      'Target',
      'Asking',
      'Margin',
      'Markup',
      'Contri- bution',
      'Each bench hour',
    ].map((heading): TableColumn => ({ heading, align: 'right' })),
  ];
  const rows = byFamily(report.products, (product) => {
    const price = product.channels.find((each) => each.channel === channel);
    if (price === undefined) return [product.product];
    return [
      product.product,
      money(product.unitCost),
      money(price.floor),
      money(price.target),
      `${money(price.asking)}${marks(price)}`,
      share(price.margin),
      share(price.markup),
      money(price.contribution),
      price.contributionPerHour === null ? '-' : money(price.contributionPerHour),
    ];
  });
  const name = report.channels.find((each) => each.channel === channel);
  const first = `${name?.name ?? channel}, ${report.currency}; asking prices ${name?.pricesIncludeTax ? 'include' : 'are before'} tax.\n`;
  return `${[first, table(columns, rows, how.width, how.style), legend(report, channel).join('\n')].join('\n').trimEnd()}\n`;
}

function summary(report: PriceReport): string {
  const prices = report.products.flatMap((product) => product.channels);
  const under = prices.filter((price) => price.underFloor).length;
  const floor =
    under === 0 ? 'none is under its floor' : `${count(under, 'price is', 'prices are')} under the floor`;
  return `${count(report.products.length, 'product')}, ${count(report.channels.length, 'channel')}; ${floor}.`;
}

/** As many channels side by side as the width takes; the rest follow in a table of their own. */
function channelGroups(report: PriceReport, how: ShowHow): PriceReport['channels'][] {
  const widestProduct = widest(
    report.products.map((product) => product.product.length),
    7,
  );
  const each = Math.max(1, Math.floor((how.width - Math.min(widestProduct, 24) - 10) / 19));
  const groups: PriceReport['channels'][] = [];
  for (let at = 0; at < report.channels.length; at += each) groups.push(report.channels.slice(at, at + each));
  return groups;
}

/** Rows under quiet sub-headings, in the order in which families first appear. */
function byFamily(
  products: readonly ProductPrice[],
  cells: (product: ProductPrice) => readonly string[],
): TableRow[] {
  const families = new Map<string, (readonly string[])[]>();
  for (const product of products) {
    const rows = families.get(product.family);
    if (rows === undefined) families.set(product.family, [cells(product)]);
    else rows.push(cells(product));
  }
  return [...families].flatMap(([family, rows]): TableRow[] =>
    family === '' ? rows : [{ group: family }, ...rows],
  );
}

/** Writes the marks of a price, as wide as the widest in its channel so that the figures stay in line. */
function marksOf(report: PriceReport): (price: ChannelPrice) => string {
  const text = (price: ChannelPrice): string =>
    `${price.setByHand ? byHandMark : ''}${price.underFloor ? underFloorMark : ''}`;
  const widths = new Map<string, number>();
  for (const { channels } of report.products) {
    for (const price of channels)
      widths.set(price.channel, Math.max(widths.get(price.channel) ?? 0, text(price).length));
  }
  return (price) => text(price).padEnd(widths.get(price.channel) ?? 0);
}

function legend(report: PriceReport, channel?: string): string[] {
  const shown = report.products.flatMap((product) =>
    product.channels
      .filter((price) => channel === undefined || price.channel === channel)
      .map((price) => ({ product, price })),
  );
  const under = shown
    .filter(({ price }) => price.underFloor)
    .map(({ product, price }) => `${product.product} (${price.channel})`);
  return [
    shown.some(({ price }) => price.setByHand) ? `${byHandMark} set by hand` : '',
    under.length > 0
      ? `${underFloorMark} under its floor, each sale loses money: ${under.slice(0, 6).join(', ')}${under.length > 6 ? `, and ${under.length - 6} more` : ''}`
      : '',
    report.products.some((product) => product.cordNumbers === 'estimated')
      ? 'Cord is estimated from geometry except where a sample was measured.'
      : 'Cord is measured from samples.',
  ].filter((line) => line !== '');
}

function bestPerHour(report: PriceReport, how: ShowHow): string {
  let best: { product: string; channel: string; perHour: number } | undefined;
  for (const product of report.products) {
    for (const price of product.channels) {
      if (
        price.contributionPerHour !== null &&
        price.contributionPerHour > (best?.perHour ?? Number.NEGATIVE_INFINITY)
      ) {
        best = { product: product.product, channel: price.channel, perHour: price.contributionPerHour };
      }
    }
  }
  if (best === undefined) return '';
  return `Most per bench hour: ${best.product} (${best.channel}), ${showNumber(best.perHour, how.settings.currencyDigits, how.settings)} ${report.currency}.`;
}

function taxLine(report: PriceReport): string {
  const inside = report.channels.filter((each) => each.pricesIncludeTax).map((each) => each.channel);
  return inside.length === 0 ? '' : `Asking prices include tax in: ${inside.join(', ')}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
