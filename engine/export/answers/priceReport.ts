import { convertForce, forceUnitOf } from '../../book/measures/force.ts';
import { convertLength } from '../../book/measures/measure.ts';
import { convertWeight } from '../../book/measures/weight.ts';
import type { Problem } from '../../book/problems/problem.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';

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
  /** Of an order as the channel usually has it, with packing; null where a material has no weight. */
  readonly orderWeightG: number | null;
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
  /** Cord and parts together, as far as they are weighed; null where none of them is. */
  readonly weightG: number | null;
  /** Where the weight comes from, in words: `weighed`, `at most, by specification`, `incomplete`. */
  readonly weightFrom: string;
  /** Cuts and parts whose material has no weight, so that `weightG` leaves them out. */
  readonly unweighed: number;
  readonly channels: readonly ChannelPrice[];
}

/** What a material weighs, and what its published type says of its strength. Null where not known. */
export interface MaterialWeight {
  readonly material: string;
  readonly soldBy: 'length' | 'piece';
  readonly cordKind: string | null;
  /** Weight of one metre of what is sold by length. */
  readonly weightGPerM: number | null;
  /** Weight of one piece of what is sold by the piece. */
  readonly weightG: number | null;
  readonly weightFrom: string;
  readonly breakingStrengthN: number | null;
  /** How much longer at breaking: 0.3 is 30 %. */
  readonly stretchRatio: number | null;
}

/** Goes wherever a breaking strength is shown. */
export const strengthCaution =
  'Breaking strengths are of new cord without a knot. Knots weaken cord. Nothing here is for lifting, climbing or life safety.';

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
  readonly materials: readonly MaterialWeight[];
  readonly strengthCaution: string;
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
  const { weightUnit, cordUnit } = plan.settings;
  const known = <Shown>(
    sheet: string,
    column: string,
    row: number,
    show: (value: number) => Shown,
  ): Shown | null => {
    const value = values.get(sheet, column, row);
    return typeof value === 'number' ? show(value) : null;
  };
  const grams = (value: number): number => convertWeight(value, weightUnit, 'g');
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
      orderWeightG: known('prices', 'order_weight', row, grams),
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
      weightG:
        text('costs', 'weight_from', row) === 'not known' ? null : grams(number('costs', 'weight', row)),
      weightFrom: text('costs', 'weight_from', row),
      unweighed: number('costs', 'unweighed', row),
      channels: pricesOf.get(product) ?? [],
    };
  });
  const materials = Array.from({ length: rowsOf('materials') }, (_, row): MaterialWeight => {
    const soldBy = text('materials', 'sold_by', row) === 'piece' ? 'piece' : 'length';
    const weight = known('materials', 'unit_weight', row, grams);
    const perCord = convertLength(1, cordUnit, 'm');
    return {
      material: text('materials', 'material', row),
      soldBy,
      cordKind: text('materials', 'cord_kind', row) || null,
      weightGPerM: soldBy === 'piece' || weight === null ? null : weight / perCord,
      weightG: soldBy === 'piece' ? weight : null,
      weightFrom: text('materials', 'weight_from', row),
      breakingStrengthN: known('materials', 'strength', row, (value) =>
        convertForce(value, forceUnitOf(plan.settings), 'N'),
      ),
      stretchRatio: known('materials', 'stretch', row, (value) => value),
    };
  });
  return {
    workshop: plan.settings.workshop,
    currency: plan.settings.currency,
    channels,
    products,
    materials,
    strengthCaution,
    problems,
  };
}
