import { joinKeys, sameKey } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import { rowCount, supplies, textOf } from '../cutting/supplies.ts';
import { takenByProduct } from '../cutting/takenFromStock.ts';
import type { Plan } from '../sheets/plan.ts';
import type { MixItem, MixLimit, MixTask } from './mixTask.ts';

export interface MixOptions {
  /** Bench hours there are; those of the sheet Rates where left out. Prices stay as they are. */
  readonly hours?: number;
  /** Also keep within what lies in stock (`stock.csv`) of every material that has a row there. */
  readonly stock?: boolean;
  /** Every product in every channel, and not only the rows of `sales_mix.csv`. */
  readonly all?: boolean;
}

/** Puts the question together from the figures of the sheets; nothing is worked out again but sums over rows. */
export function readMixTask(plan: Plan, values: Values, options: MixOptions): MixTask {
  const items = readItems(plan, values, options.all === true);
  const hours: MixLimit = {
    kind: 'bench hours',
    name: 'bench hours',
    unit: 'h',
    available: options.hours ?? values.number('rates', 'bench_hours_per_month', 0),
    takenByEach: items.map(({ hoursEach }) => hoursEach),
  };
  return { items, limits: [hours, ...(options.stock === true ? stockLimits(plan, values, items) : [])] };
}

function readItems(plan: Plan, values: Values, all: boolean): MixItem[] {
  const hours = rowsByKey(plan, values, 'costs', ['product']);
  const prices = rowsByKey(plan, values, 'prices', ['product', 'channel']);
  const expected = rowsByKey(plan, values, 'sales_mix', ['product', 'channel']);
  const placesOf = (sheet: string) => plan.sheets.find(({ id }) => id === sheet)?.places ?? [];
  const from = all ? 'prices' : 'sales_mix';
  return Array.from({ length: rowCount(plan, from) }, (_, row): MixItem => {
    const product = textOf(values, from, 'product', row);
    const channel = textOf(values, from, 'channel', row);
    const key = joinKeys([product, channel]);
    const priced = prices.get(key);
    const costed = hours.get(joinKeys([product]));
    if (priced === undefined || costed === undefined) throw new Error(`${key} has no row on Prices or Costs`);
    const mixRow = expected.get(key);
    const atMost = mixRow === undefined ? null : values.get('sales_mix', 'at_most', mixRow);
    return {
      product,
      channel,
      contributionEach: values.number('prices', 'contribution', priced),
      hoursEach: values.number('costs', 'bench_hours', costed),
      expected: mixRow === undefined ? null : values.number('sales_mix', 'pieces_per_month', mixRow),
      atLeast: mixRow === undefined ? 0 : values.number('sales_mix', 'at_least', mixRow),
      atMost: typeof atMost === 'number' ? atMost : Number.POSITIVE_INFINITY,
      place: (mixRow === undefined ? placesOf('prices')[priced] : placesOf('sales_mix')[mixRow]) ?? {
        file: 'sales_mix.csv',
      },
    };
  });
}

/** Rows of a sheet by the names they are known by. */
function rowsByKey(
  plan: Plan,
  values: Values,
  sheet: string,
  key: readonly string[],
): ReadonlyMap<string, number> {
  return new Map(
    Array.from({ length: rowCount(plan, sheet) }, (_, row) => [
      joinKeys(key.map((column) => textOf(values, sheet, column, row))),
      row,
    ]),
  );
}

/**
 * A limit for each material that has rows in stock.csv and that a piece takes of. What has no row there is taken as
 * bought when needed: few workshops list every bead.
 */
function stockLimits(plan: Plan, values: Values, items: readonly MixItem[]): MixLimit[] {
  const taken = takenByProduct(plan, values);
  const listed = new Set(
    Array.from({ length: rowCount(plan, 'stock') }, (_, row) =>
      sameKey(textOf(values, 'stock', 'material', row)),
    ),
  );
  return [...supplies(plan, values)].flatMap(([key, supply]): MixLimit[] => {
    const takenByEach = items.map(({ product }) => taken.get(joinKeys([key, product])) ?? 0);
    if (!listed.has(key) || takenByEach.every((each) => each === 0)) return [];
    return [
      {
        kind: 'material',
        name: supply.material,
        unit: supply.byLength ? plan.settings.cordUnit : 'pieces',
        available: supply.onHand.reduce((sum, { holds, count }) => sum + holds * count, 0),
        takenByEach,
      },
    ];
  });
}
