import { sameKey } from '../../book/book.ts';
import { convertLength } from '../../book/measures/measure.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { CellValue, Plan } from '../../sheets/plan.ts';
import { PlanIndex } from '../../sheets/planIndex.ts';
import { productCells } from '../cards/productCells.ts';
import { customerCautions } from '../pages/startText.ts';
import { gatherProducts, type SoldProduct } from './gatherProducts.ts';
import type { ListedSize, PriceList } from './priceList.ts';

/**
 * Picks out of a calculated plan what customers of one channel may see, in the order of the book. Computes nothing:
 * prices stand on Prices and on Quantity prices, and of several that hold for a quantity the least is taken.
 *
 * @param channel its key, as the book spells it
 * @param validFrom ISO date
 */
export function priceListReport(plan: Plan, values: Values, channel: string, validFrom: string): PriceList {
  const cells = productCells(plan, values);
  const { settings } = plan;
  const discount = cells.number('channels.wholesale_discount_percent', channel) ?? 0;
  const isTrade = discount > 0;
  const prices = pricesOf(plan, values, channel);
  const breaks = breaksOf(plan, values, channel);
  const listed = keysOf(plan, 'products', 'product').filter(
    (product) => cells.text('products.listed', product) !== 'no',
  );
  const breaksFrom = [
    ...new Set(listed.flatMap((product) => (breaks.get(sameKey(product)) ?? []).map(({ from }) => from))),
  ].sort((one, other) => one - other);
  const sold = listed.map((product): SoldProduct => {
    const { asking, billed } = prices.get(sameKey(product)) ?? { asking: 0, billed: 0 };
    const own = breaks.get(sameKey(product)) ?? [];
    const size = cells.text('products.size', product).trim();
    return {
      family: cells.text('products.family', product).trim(),
      name: cells.text('products.name', product).trim() || withoutSize(product, size),
      description: cells.text('products.description', product).trim(),
      size: { size, ...fits(product) },
      listPrice: isTrade ? asking : null,
      price: billed,
      breakPrices: breaksFrom.map((pieces) =>
        Math.min(billed, ...own.filter(({ from }) => from <= pieces).map(({ price }) => price)),
      ),
    };
  });

  function fits(product: string): Omit<ListedSize, 'size'> {
    const mm = (column: string): number | null => {
      const measure = cells.number(column, product) ?? 0;
      return measure > 0 ? convertLength(measure, settings.lengthUnit, 'mm') : null;
    };
    const to = mm('products.fits_to');
    return { fitsFromMm: to === null ? null : mm('products.fits_from'), fitsToMm: to };
  }

  return {
    workshop: settings.workshop,
    kind: isTrade ? 'line sheet' : 'price list',
    channel: cells.text('channels.name', channel).trim(),
    validFrom,
    currency: settings.currency,
    tax: {
      name: cells.text('channels.tax_name', channel).trim() || 'tax',
      included: cells.text('channels.prices_include_tax', channel) === 'yes',
      ratio: cells.number('channels.tax', channel) ?? 0,
    },
    tradeDiscount: isTrade ? discount : null,
    leastOrder: cells.number('channels.least_order', channel) || null,
    terms: cells.text('channels.list_note', channel).trim(),
    breaksFrom,
    families: gatherProducts(sold),
    cautions: customerCautions.map(([about, says]) => ({ about, says })),
  };
}

/** Channels of a plan: their keys and names, in the order of the book. */
export function listChannels(plan: Plan, values: Values): readonly { channel: string; name: string }[] {
  const cells = productCells(plan, values);
  return keysOf(plan, 'channels', 'channel').map((channel) => ({
    channel,
    name: cells.text('channels.name', channel).trim(),
  }));
}

/** A product of a size run is called by its own name and the size; customers read the size beside it. */
function withoutSize(product: string, size: string): string {
  const ending = ` ${size}`;
  return size !== '' && product.endsWith(ending) ? product.slice(0, -ending.length) : product;
}

function keysOf(plan: Plan, sheet: string, column: string): readonly string[] {
  const inputs = plan.sheets.find(({ id }) => id === sheet)?.columns.find(({ id }) => id === column)?.inputs;
  return (inputs ?? []).map(String);
}

/** Rows of a sheet that are of this channel; none where the book has no such sheet. */
function rowsOf(plan: Plan, values: Values, sheetId: string, channel: string): readonly Row[] {
  const sheet = new PlanIndex(plan).sheets.get(sheetId)?.sheet;
  return Array.from({ length: sheet?.rowCount ?? 0 }, (_, at): Row => {
    const cell = (column: string): CellValue => {
      const found = values.get(sheetId, column, at);
      return isFailure(found) ? null : found;
    };
    return {
      text: (column) => String(cell(column) ?? ''),
      number: (column) => {
        const found = cell(column);
        return typeof found === 'number' ? found : 0;
      },
    };
  }).filter((row) => sameKey(row.text('channel')) === sameKey(channel));
}

interface Row {
  readonly text: (column: string) => string;
  readonly number: (column: string) => number;
}

/** By product, what is asked and what the buyer of one pays. */
function pricesOf(
  plan: Plan,
  values: Values,
  channel: string,
): ReadonlyMap<string, { readonly asking: number; readonly billed: number }> {
  return new Map(
    rowsOf(plan, values, 'prices', channel).map((row) => [
      sameKey(row.text('product')),
      { asking: row.number('asking'), billed: row.number('billed') },
    ]),
  );
}

/** By product, from how many pieces each costs what. */
function breaksOf(
  plan: Plan,
  values: Values,
  channel: string,
): ReadonlyMap<string, readonly { readonly from: number; readonly price: number }[]> {
  const breaks = new Map<string, { from: number; price: number }[]>();
  for (const row of rowsOf(plan, values, 'break_prices', channel)) {
    const product = sameKey(row.text('product'));
    const known = breaks.get(product) ?? [];
    known.push({ from: row.number('from_pieces'), price: row.number('price') });
    breaks.set(product, known);
  }
  return breaks;
}
