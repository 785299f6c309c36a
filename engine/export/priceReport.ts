import type { Problem } from '../book/problem.ts';
import { isFailure, type Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';

/** One product in one channel. Money in the book's currency, unrounded; shares as ratios (0.4 is 40 %). */
export interface ChannelPrice {
  readonly channel: string;
  /** Asking price at which nothing is lost and nothing earned. */
  readonly floor: number;
  /** Asking price that earns the wanted margin. */
  readonly target: number;
  /** The target with the channel's price ending, or the price set by hand. */
  readonly asking: number;
  readonly setByHand: boolean;
  /** What is left of the asking price after wholesale discount and the tax inside it. */
  readonly net: number;
  readonly fees: number;
  readonly wantedMargin: number;
  /** Profit as a share of the net price. */
  readonly margin: number;
  /** Profit as a share of all that the sale costs. */
  readonly markup: number;
  /** Net price less variable cost and the cost of the sale. */
  readonly contribution: number;
  /** Null where the product takes no bench time. */
  readonly contributionPerHour: number | null;
  readonly profit: number;
  readonly underFloor: boolean;
}

export interface ProductPrice {
  readonly product: string;
  readonly name: string;
  readonly family: string;
  readonly size: string;
  readonly materials: number;
  readonly labour: number;
  readonly overhead: number;
  readonly unitCost: number;
  readonly variableCost: number;
  readonly benchMinutes: number;
  /** Whether the cord of this product comes from a sample or from geometry. */
  readonly cordNumbers: 'measured' | 'estimated';
  readonly channels: readonly ChannelPrice[];
}

/** What `price --json` prints. */
export interface PriceReport {
  readonly workshop: string;
  /** ISO 4217 code of every amount. */
  readonly currency: string;
  readonly channels: readonly {
    readonly channel: string;
    readonly name: string;
    readonly pricesIncludeTax: boolean;
  }[];
  readonly products: readonly ProductPrice[];
  readonly problems: readonly Problem[];
}

/** Picks the figures that `price` shows out of a calculated plan. Computes nothing. */
export function priceReport(plan: Plan, values: Values, problems: readonly Problem[]): PriceReport {
  const rowsOf = (sheet: string): number => plan.sheets.find((each) => each.id === sheet)?.rowCount ?? 0;
  const text = (sheet: string, column: string, row: number): string => {
    const value = values.get(sheet, column, row);
    return value === null || isFailure(value) ? '' : String(value);
  };
  const number = values.number.bind(values);
  const channels = Array.from({ length: rowsOf('channels') }, (_, row) => ({
    channel: text('channels', 'channel', row),
    name: text('channels', 'name', row) || text('channels', 'channel', row),
    pricesIncludeTax: text('channels', 'prices_include_tax', row) === 'yes',
  }));

  function channelPrice(row: number): ChannelPrice {
    const perHour = values.get('prices', 'contribution_per_hour', row);
    return {
      channel: text('prices', 'channel', row),
      floor: number('prices', 'floor', row),
      target: number('prices', 'target', row),
      asking: number('prices', 'asking', row),
      setByHand: typeof values.get('prices', 'asking_set', row) === 'number',
      net: number('prices', 'net', row),
      fees: number('prices', 'fees', row),
      wantedMargin: number('prices', 'wanted_margin', row),
      margin: number('prices', 'margin', row),
      markup: number('prices', 'markup', row),
      contribution: number('prices', 'contribution', row),
      contributionPerHour: typeof perHour === 'number' ? perHour : null,
      profit: number('prices', 'profit', row),
      underFloor: text('prices', 'floor_check', row) === 'look',
    };
  }
  const pricesOf = new Map<string, ChannelPrice[]>();
  for (let row = 0; row < rowsOf('prices'); row += 1) {
    const product = text('prices', 'product', row);
    const list = pricesOf.get(product) ?? [];
    list.push(channelPrice(row));
    pricesOf.set(product, list);
  }
  const products = Array.from({ length: rowsOf('products') }, (_, row): ProductPrice => {
    const product = text('products', 'product', row);
    return {
      product,
      name: text('products', 'name', row),
      family: text('products', 'family', row),
      size: text('products', 'size', row),
      materials: number('costs', 'materials', row),
      labour: number('costs', 'labour', row),
      overhead: number('costs', 'overhead', row),
      unitCost: number('costs', 'unit_cost', row),
      variableCost: number('costs', 'variable_cost', row),
      benchMinutes: number('costs', 'minutes', row),
      cordNumbers: text('products', 'numbers', row) === 'measured' ? 'measured' : 'estimated',
      channels: pricesOf.get(product) ?? [],
    };
  });
  return { workshop: plan.settings.workshop, currency: plan.settings.currency, channels, products, problems };
}
