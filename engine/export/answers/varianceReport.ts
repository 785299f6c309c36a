import { dayText } from '../../book/measures/day.ts';
import type { Problem } from '../../book/problems/problem.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';

/** What `variance --json` prints. Money in the book's currency; positive is above plan, which is unfavourable. */
export interface VarianceReport {
  readonly workshop: string;
  readonly currency: string;
  readonly from: string;
  readonly to: string;
  readonly totals: {
    readonly price: number;
    readonly usage: number;
    readonly lost: number;
    readonly wageRate: number;
    readonly efficiency: number;
    readonly total: number;
  };
  readonly materialTotals: { readonly paid: number; readonly planned: number; readonly total: number };
  readonly productTotals: {
    readonly pieces: number;
    readonly standardHours: number;
    readonly hours: number;
    readonly wageRate: number;
    readonly efficiency: number;
    readonly usage: number;
    readonly total: number;
  };
  readonly overhead: {
    readonly months: number;
    readonly planned: number;
    readonly absorbed: number;
    /** Null where overheads_paid.csv has no row in the span. */
    readonly paid: number | null;
    readonly spending: number | null;
    readonly idle: number;
    readonly notAbsorbed: number;
  };
  readonly materials: readonly {
    readonly material: string;
    readonly unit: string;
    readonly standardUnitCost: number;
    readonly bought: number;
    readonly paid: number;
    readonly planned: number;
    readonly price: number;
    readonly usage: number;
    readonly lostQuantity: number;
    readonly lost: number;
    readonly total: number;
    readonly word: string;
  }[];
  readonly use: readonly {
    readonly material: string;
    readonly product: string;
    readonly normal: number;
    readonly taken: number;
    readonly usage: number;
  }[];
  readonly products: readonly {
    readonly product: string;
    readonly pieces: number;
    readonly hours: number;
    readonly standardHours: number;
    readonly labour: number;
    readonly plannedLabour: number;
    readonly wageRate: number;
    readonly efficiency: number;
    readonly usage: number;
    readonly total: number;
    readonly word: string;
  }[];
  readonly problems: readonly Problem[];
}

/** Picks the figures of the sheets of variances. Computes nothing. */
export function varianceReport(plan: Plan, values: Values, problems: readonly Problem[]): VarianceReport {
  const rows = (sheet: string): number[] =>
    Array.from({ length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 }, (_, row) => row);
  const of = (sheet: string, row: number) => ({
    number: (column: string): number => values.number(sheet, column, row),
    known: (column: string): number | null => {
      const value = values.get(sheet, column, row);
      return typeof value === 'number' ? value : null;
    },
    text: (column: string): string => {
      const value = values.get(sheet, column, row);
      return value === null || isFailure(value) ? '' : String(value);
    },
  });
  const all = of('variance_totals', 0);
  return {
    workshop: plan.settings.workshop,
    currency: plan.settings.currency,
    from: dayText(all.number('from')),
    to: dayText(all.number('to')),
    totals: {
      price: all.number('price_variance'),
      usage: all.number('usage_variance'),
      lost: all.number('lost_variance'),
      wageRate: all.number('rate_variance'),
      efficiency: all.number('efficiency_variance'),
      total: all.number('total_variance'),
    },
    materialTotals: {
      paid: all.number('materials_paid'),
      planned: all.number('materials_planned'),
      total: all.number('materials_variance'),
    },
    productTotals: {
      pieces: all.number('pieces'),
      standardHours: all.number('standard_hours'),
      hours: all.number('hours'),
      wageRate: all.number('rate_variance'),
      efficiency: all.number('efficiency_variance'),
      usage: all.number('products_usage'),
      total: all.number('products_variance'),
    },
    overhead: {
      months: all.number('overhead_months'),
      planned: all.number('overhead_planned'),
      absorbed: all.number('overhead_absorbed'),
      paid: all.known('overhead_paid'),
      spending: all.known('overhead_spending'),
      idle: all.number('overhead_idle'),
      notAbsorbed: all.number('overhead_under'),
    },
    materials: rows('variance_materials').map((row) => {
      const each = of('variance_materials', row);
      return {
        material: each.text('material'),
        unit: each.text('unit'),
        standardUnitCost: each.number('standard_unit'),
        bought: each.number('bought'),
        paid: each.number('paid'),
        planned: each.number('planned'),
        price: each.number('price_variance'),
        usage: each.number('usage_variance'),
        lostQuantity: each.number('lost'),
        lost: each.number('lost_variance'),
        total: each.number('total_variance'),
        word: each.text('word'),
      };
    }),
    use: rows('variance_use').map((row) => {
      const each = of('variance_use', row);
      return {
        material: each.text('material'),
        product: each.text('product'),
        normal: each.number('normal'),
        taken: each.number('taken'),
        usage: each.number('usage_variance'),
      };
    }),
    products: rows('variance_products').map((row) => {
      const each = of('variance_products', row);
      return {
        product: each.text('product'),
        pieces: each.number('pieces'),
        hours: each.number('hours'),
        standardHours: each.number('standard_hours'),
        labour: each.number('paid'),
        plannedLabour: each.number('planned'),
        wageRate: each.number('rate_variance'),
        efficiency: each.number('efficiency_variance'),
        usage: each.number('usage_variance'),
        total: each.number('total_variance'),
        word: each.text('word'),
      };
    }),
    problems,
  };
}
